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
		Mixing:      []MixingTank{{"mixer", 1350 * gal, 1180 * gal, 1095 * gal}, {"tote", 290 * gal, 240 * gal, 225 * gal}},
		Storage:     []StorageTank{{"north", 5200 * gal}, {"south", 2700 * gal}},
		Band:        yard.Band{Target: 0.233, Low: 0.23, High: 0.24},
		Calibration: quantity.Fahrenheit(60),
		RockSalt:    yard.RockSalt{Purity: 0.962, Moisture: 0.016},
		Bucket:      1450 * lb,
		Liquids: []Liquid{
			{"cal31", balance.Liquid{Name: "cal31", Composition: solution.Pure(solution.CaCl2, 0.31)}},
			{"lot-brine", balance.SaltBrine(0.233)},
			{"larch-acetate", balance.OfProduct("larch-acetate", product)},
		},
		Trucks:   []HaulTruck{{"big-sprayer", 1750 * gal, 19300 * lb, 33000 * lb}, {"lot-pickup", 210 * gal, 6900 * lb, 9500 * lb}},
		PumpFlow: 165 * quantity.GallonPerMinute,
		Plumbing: plumbing,
	}
}

// metricShop is a small yard that thinks in liters, with a stronger target.
func metricShop() Shop {
	s := DefaultShop()
	s.Mixing = []MixingTank{{"Mischer", 4.2, 4, 3.7}}
	s.Storage = nil
	s.Band = yard.Band{Target: 0.22, Low: 0.21, High: 0.23}
	s.Calibration = quantity.Celsius(20)
	s.RockSalt = yard.RockSalt{Purity: 0.985, Moisture: 0.03}
	s.Bucket = 800
	s.Trucks = []HaulTruck{{"100% full", 5.5, 7400, 12000}}
	return s
}
