package drill

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// villageShop has the numbers of the demo yard.
func villageShop() Shop {
	const gal, lb = quantity.Gallon, quantity.Pound
	product := &solution.Product{Solute: 0.48, Density: 1270, Freezing: []solution.FreezingPoint{
		{Solute: 0.1, Temperature: 268.55}, {Solute: 0.18, Temperature: 263.25}, {Solute: 0.26, Temperature: 255.95},
		{Solute: 0.34, Temperature: 244.15}, {Solute: 0.4, Temperature: 231.15},
	}}
	plumbing := defaultPlumbing()
	plumbing.Tanks = append(plumbing.Tanks, "tote")
	plumbing.Outlets = append(plumbing.Outlets, "floor-drain")
	plumbing.Links = append(plumbing.Links,
		yard.Link{Name: "S4", A: "tote", B: "suction-joint", Valve: true},
		yard.Link{Name: "D5", A: "pressure-joint", B: "floor-drain", Valve: true},
		yard.Link{Name: "D6", A: "pressure-joint", B: "tote", Valve: true},
		yard.Link{Name: "F2", A: yard.FreshWater, B: "suction-joint", Valve: true, Protected: true},
	)
	return Shop{
		Tanks: []yard.Tank{
			{Name: "mixer", Mixing: true, Capacity: 1350 * gal, WorkingVolume: 1180 * gal, PumpOff: 1095 * gal},
			{Name: "tote", Mixing: true, Capacity: 290 * gal, WorkingVolume: 240 * gal, PumpOff: 225 * gal},
			{Name: "north", Capacity: 5200 * gal}, {Name: "south", Capacity: 2700 * gal},
		},
		Band:        yard.Band{Target: 0.233, Low: 0.23, High: 0.24},
		Calibration: quantity.Fahrenheit(60),
		RockSalt:    yard.RockSalt{Purity: 0.962, Moisture: 0.016},
		Bucket:      1450 * lb,
		Liquids: []yard.Liquid{
			{Liquid: balance.Liquid{Name: "cal31", Composition: solution.Pure(solution.CaCl2, 0.31)}},
			{Liquid: balance.SaltBrine(0.233).Named("lot-brine")},
			{Liquid: balance.OfProduct("larch-acetate", product)},
		},
		Trucks: []yard.Truck{
			{Name: "big-sprayer", Tank: 1750 * gal, Empty: 19300 * lb, Gross: 33000 * lb},
			{Name: "lot-pickup", Tank: 210 * gal, Empty: 6900 * lb, Gross: 9500 * lb},
		},
		PumpFlow: 165 * quantity.GallonPerMinute,
		Plumbing: plumbing,
	}
}

// metricShop is a small yard that thinks in liters, with a stronger target.
func metricShop() Shop {
	s := DefaultShop()
	s.Tanks = []yard.Tank{{Name: "Mischer", Mixing: true, Capacity: 4.2, WorkingVolume: 4, PumpOff: 3.7}}
	s.Band = yard.Band{Target: 0.22, Low: 0.21, High: 0.23}
	s.Calibration = quantity.Celsius(20)
	s.RockSalt = yard.RockSalt{Purity: 0.985, Moisture: 0.03}
	s.Bucket = 800
	s.Trucks = []yard.Truck{{Name: "100% full", Tank: 5.5, Empty: 7400, Gross: 12000}}
	return s
}
