package season

import (
	"math"
	"math/rand/v2"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/state/statetest"
	"brineyard/internal/yard"
)

// testProduct is a liquid that only a data sheet describes.
var testProduct = solution.Product{Solute: 0.48, Density: 1245, Freezing: []solution.FreezingPoint{{Solute: 0.48, Temperature: 230}}}

// pricedYard has prices, routes and a product, and a rule for cleaning or none.
func pricedYard(rule bool) *yard.Yard {
	y := statetest.Yard()
	salt, water, cal31 := quantity.PricePerMass(0.08), quantity.PricePerVolume(1.1), quantity.PricePerVolume(330)
	y.Prices.Salt, y.Prices.Water, y.Liquids[0].Price = &salt, &water, &cal31
	y.Liquids = append(y.Liquids, yard.Liquid{Liquid: balance.OfProduct("syrup", &testProduct), OnHand: 150 * quantity.Gallon})
	y.Trucks = []yard.Truck{{Name: "big-sprayer", Tank: 700 * quantity.Gallon}}
	stands, brine, pile := 2000*quantity.Gallon, balance.SaltBrine(0.231), quantity.Mass(30000)
	y.Tanks[1].Contents, y.Tanks[1].Liquid, y.Pile.OnHand = &stands, &brine, &pile
	y.Routes = []yard.Route{{Name: "ridge-road", Lanes: 9 * quantity.Mile}, {Name: "mill-loop", Lanes: 4 * quantity.Mile}}
	if !rule {
		y.CleanEvery = 0
	}
	return y
}

// randomJournal makes rows of every kind with any of their cells, a few out of order and
// some without what they need.
type randomJournal struct{ *rand.Rand }

// rows lie between the end of October and a day in April: clocks are set back on 7 November 2027
// and ahead on 12 March 2028, by the rules of the zone, and there is a 29 February between.
func (g randomJournal) rows(n int) []journal.Entry {
	at := time.Date(2027, 10, 30, 6, 0, 0, 0, newYork())
	entries := make([]journal.Entry, n)
	for i := range entries {
		at = at.Add(time.Duration(g.IntN(90)) * time.Minute)
		e := g.row()
		e.Number, e.Time, e.Operator = i+1, at, g.word("", "Ash", "Juniper", "Rowan")
		if g.IntN(15) == 0 {
			e.Time = at.Add(-time.Duration(g.IntN(40)) * time.Hour)
		}
		if g.IntN(5) == 0 {
			e.Cost = some(quantity.Money(g.IntN(2000)))
		}
		entries[i] = e
	}
	return entries
}

func newYork() *time.Location {
	zone, err := time.LoadLocation("America/New_York")
	if err != nil {
		panic(err)
	}
	return zone
}

func some[T any](x T) *T { return &x }

func (g randomJournal) word(words ...string) string { return words[g.IntN(len(words))] }

func (g randomJournal) gallons(least, most float64) *quantity.Volume {
	return gallons(least + (most-least)*g.Float64())
}

// rarely leaves a cell empty that should hold something.
func rarely[T any](g randomJournal, cell *T) *T {
	if g.IntN(25) == 0 {
		return nil
	}
	return cell
}

// row makes a row of a kind; what is drawn off is about what is made.
func (g randomJournal) row() journal.Entry {
	tanks := []string{"mixer", "north", "south", "spare"}
	tank, from := g.word(tanks...), g.word(tanks...)
	kinds := []func(tank, from string) journal.Entry{
		g.batch, g.batch, g.reading, g.reading, g.correction, g.correction, g.transfer, g.transfer, g.load, g.load, g.load, g.load, g.delivery,
		func(tank, _ string) journal.Entry {
			if g.IntN(4) > 0 {
				return g.count(tank)
			}
			return journal.Entry{Kind: journal.Clean, Tank: tank}
		},
		func(string, string) journal.Entry { return journal.Entry{Kind: journal.Note, Note: "wind"} },
		g.unload, g.lost, g.rinse, g.work,
	}
	return kinds[g.IntN(len(kinds))](tank, from)
}

func (g randomJournal) batch(tank, _ string) journal.Entry {
	e := journal.Entry{Kind: journal.Batch, Tank: g.word("mixer", "mixer", tank)}
	if g.IntN(3) > 0 {
		e.Volume, e.NaCl = rarely(g, g.gallons(700, 1400)), percent(22.5+2*g.Float64())
	}
	if g.IntN(2) == 0 || e.NaCl == nil {
		e.Salt, e.Water = rarely(g, pounds(2200+600*g.Float64())), rarely(g, g.gallons(800, 1100))
	}
	return e
}

func (g randomJournal) reading(tank, _ string) journal.Entry {
	e := journal.Entry{Kind: journal.Reading, Tank: g.word("mixer", tank)}
	if g.IntN(2) == 0 {
		e.NaCl = some(quantity.Strength(0.22 + 0.03*g.Float64())) // in tenths, it would lie at the very limit now and then
		return e
	}
	strength := 0.2 + 0.05*g.Float64()
	e.Temp = rarely(g, some(quantity.Fahrenheit(math.Round(35+50*g.Float64()))))
	e.Scale = g.word("hydrometer", "sg", "salometer", "baume", "weigh")
	e.Reading = some(map[string]float64{
		"hydrometer": 100 * strength, "sg": 1 + 0.76*strength, "salometer": 380 * strength, "baume": 93 * strength, "weigh": 8.34 * (1 + 0.76*strength),
	}[e.Scale])
	return e
}

func (g randomJournal) correction(tank, from string) journal.Entry {
	e := journal.Entry{Kind: journal.Correction, Tank: tank}
	switch g.IntN(5) {
	case 0:
		e.Salt = pounds(20 + 300*g.Float64())
	case 1:
		e.Water = g.gallons(5, 90)
	case 2:
		e.Volume, e.NaCl = g.gallons(20, 300), percent(24+2*g.Float64())
	case 3:
		e.Volume, e.Liquid = g.gallons(20, 300), g.word("cal31", "syrup", "brine", "what")
	default:
		e.Volume, e.From = g.gallons(20, 300), from
	}
	return e
}

func (g randomJournal) transfer(tank, from string) journal.Entry {
	return journal.Entry{Kind: journal.Transfer, Tank: tank, From: g.word("mixer", from), Volume: rarely(g, g.gallons(50, 1300))}
}

// unload comes back from a truck.
func (g randomJournal) unload(tank, _ string) journal.Entry {
	return journal.Entry{
		Kind: journal.Unload, Tank: tank, Truck: g.word("big-sprayer", "lot-pickup"), Volume: rarely(g, g.gallons(10, 500)), Route: g.word("", "", "mill-loop"),
	}
}

// lost leaves otherwise than on the road.
func (g randomJournal) lost(_, from string) journal.Entry {
	e := journal.Entry{Kind: journal.Kind(g.word("spill", "sale", "loan", "gift"))}
	switch g.IntN(3) {
	case 0:
		e.Salt = pounds(3000 * g.Float64())
	case 1:
		e.Volume, e.From = rarely(g, g.gallons(10, 400)), from
	default:
		e.Volume, e.Liquid = g.gallons(1, 60), g.word("cal31", "syrup", "what")
	}
	return e
}

func (g randomJournal) rinse(tank, _ string) journal.Entry {
	e := journal.Entry{Kind: journal.Rinse, Line: g.word("header", "S1", ""), Tank: g.word("", tank)}
	if g.IntN(3) > 0 {
		e.Water = g.gallons(5, 60)
	}
	return e
}

func (g randomJournal) work(string, string) journal.Entry {
	hours, miles := quantity.Duration(3600*g.IntN(9)), 1000*quantity.Length(g.IntN(90))
	return journal.Entry{Kind: journal.Work, Truck: g.word("", "big-sprayer"), Hours: &hours, Distance: rarely(g, &miles)}
}

func (g randomJournal) load(_, from string) journal.Entry {
	if g.IntN(6) == 0 {
		return journal.Entry{Kind: journal.Load, Salt: pounds(3000 * g.Float64()), Route: g.word("", "ridge-road"), Truck: g.word("", "big-sprayer")}
	}
	if g.IntN(8) == 0 {
		from = ""
	}
	return journal.Entry{
		Kind: journal.Load, From: from, Volume: rarely(g, g.gallons(50, 600)), Truck: g.word("", "big-sprayer", "big-sprayer"),
		Route: g.word("", "ridge-road", "mill-loop", "nowhere"), Liquid: g.word("", "", "cold-mix", "cal31"),
	}
}

func (g randomJournal) delivery(tank, _ string) journal.Entry {
	e := journal.Entry{Kind: journal.Delivery}
	switch g.IntN(4) {
	case 0:
		e.Salt = pounds(50000 * g.Float64())
		if g.IntN(2) == 0 {
			e.Purity, e.Moisture = percent(93+5*g.Float64()), percent(3*g.Float64())
		}
	case 1:
		e.Tank, e.Volume, e.CaCl2, e.MgCl2, e.KCl = tank, g.gallons(100, 900), percent(20), percent(4), percent(1)
	default:
		e.Tank, e.Volume, e.Liquid = g.word("", tank), rarely(g, g.gallons(100, 900)), g.word("cal31", "syrup", "what")
	}
	return e
}

func (g randomJournal) count(tank string) journal.Entry {
	e := journal.Entry{Kind: journal.Count, Tank: tank}
	switch g.IntN(6) {
	case 4:
		e.Tank, e.Truck, e.Volume = "", g.word("big-sprayer", "lot-pickup"), g.gallons(0, 600)
	case 5:
		if g.IntN(2) == 0 {
			e.Salt = pounds(900 * g.Float64())
		} else {
			e.Tank, e.Liquid, e.Volume = "", g.word("cal31", "syrup", "what"), g.gallons(0, 300)
		}
	case 0:
		e.Tank, e.Salt = g.word("", "pile"), pounds(80000*g.Float64())
	case 1:
		e.Volume, e.NaCl = g.gallons(0, 1200), percent(23+g.Float64())
	default:
		e.Volume = rarely(g, g.gallons(0, 1200))
	}
	return e
}
