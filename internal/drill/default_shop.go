package drill

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// DefaultShop is a yard made up for practice, every number invented.
func DefaultShop() Shop {
	const gal, lb = quantity.Gallon, quantity.Pound
	return Shop{
		Tanks: []yard.Tank{
			{Name: "mixer", Mixing: true, Capacity: 1500 * gal, WorkingVolume: 1200 * gal, PumpOff: 1100 * gal},
			{Name: "east", Capacity: 5000 * gal}, {Name: "west", Capacity: 3000 * gal},
		},
		Band:        yard.DefaultBand(),
		Calibration: quantity.Temperature(solution.SixtyF),
		RockSalt:    yard.RockSalt{Purity: 0.96, Moisture: 0.02},
		Bucket:      1500 * lb,
		Liquids:     []yard.Liquid{{Liquid: balance.Liquid{Name: "calcium", Composition: solution.Pure(solution.CaCl2, 0.3)}}},
		Trucks: []yard.Truck{
			{Name: "sprayer", Tank: 1800 * gal, Empty: 19000 * lb, Gross: 33000 * lb},
			{Name: "pickup", Tank: 200 * gal, Empty: 7000 * lb, Gross: 9900 * lb},
		},
		PumpFlow: 150 * quantity.GallonPerMinute,
		Plumbing: defaultPlumbing(),
	}
}

// defaultPlumbing has a header on either side of the pump.
func defaultPlumbing() yard.Plumbing {
	valve := func(name, side, a, b string) yard.Link {
		return yard.Link{Name: name, Side: side, A: a, B: b, Valve: true}
	}
	const draw, push = "suction", "discharge"
	fill := valve("F1", "fill", yard.FreshWater, "mixer")
	fill.Protected = true
	return yard.Plumbing{
		Tanks:   []string{"mixer", "east", "west"},
		Outlets: []string{"truck-fill"},
		Links: []yard.Link{
			{Name: "suction-header", A: "suction-joint", B: yard.PumpInlet},
			{Name: "pressure-header", A: yard.PumpOutlet, B: "pressure-joint"},
			valve("S1", draw, "mixer", "suction-joint"),
			valve("S2", draw, "east", "suction-joint"),
			valve("S3", draw, "west", "suction-joint"),
			valve("D1", push, "pressure-joint", "mixer"),
			valve("D2", push, "pressure-joint", "east"),
			valve("D3", push, "pressure-joint", "west"),
			valve("D4", push, "pressure-joint", "truck-fill"),
			fill,
		},
	}
}
