package season

import (
	"math"
	"math/rand/v2"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// demoSeason makes up a winter on the demo yard. It keeps its own gallons, so that no
// tank is drawn below nothing, and writes whole gallons and pounds as people do.
type demoSeason struct {
	g       *rand.Rand
	at      time.Time
	entries []journal.Entry
	north   float64 // gal
	south   float64
	pile    float64 // lb
}

// newDemoSeason makes the season of a seed: storms from November to March.
func newDemoSeason(seed uint64, storms int) []journal.Entry {
	zone := time.FixedZone("", -5*3600)
	d := &demoSeason{g: rand.New(rand.NewPCG(seed, 7)), at: time.Date(2025, 11, 3, 7, 30, 0, 0, zone)}
	d.opening()
	gap := 140 * 24 * time.Hour / time.Duration(storms+1)
	for n := range storms {
		d.at = time.Date(2025, 11, 3, 5, 10, 0, 0, zone).Add(time.Duration(n+1)*gap + time.Duration(d.g.IntN(600))*time.Minute)
		d.storm(n)
	}
	d.at = d.at.Add(48 * time.Hour)
	d.closing()
	return d.entries
}

func (d *demoSeason) add(kind journal.Kind, later time.Duration, change func(*journal.Entry)) {
	d.at = d.at.Add(later)
	e := journal.Entry{Number: len(d.entries) + 1, Time: d.at, Kind: kind, Operator: []string{"Ash", "Juniper", "Rowan"}[d.g.IntN(3)]}
	change(&e)
	d.entries = append(d.entries, e)
}

func gallons(x float64) *quantity.Volume {
	v := quantity.Volume(math.Round(x)) * quantity.Gallon
	return &v
}

func pounds(x float64) *quantity.Mass {
	m := quantity.Mass(math.Round(x/5)*5) * quantity.Pound
	return &m
}

func percent(x float64) *quantity.Strength {
	s := quantity.Strength(math.Round(x*10) / 1000)
	return &s
}

func money(x float64) *quantity.Money {
	m := quantity.Money(math.Round(x))
	return &m
}

func (d *demoSeason) opening() {
	d.north, d.south, d.pile = 3460, 610, 76000
	d.add(journal.Count, 0, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(d.north), percent(23.1) })
	d.add(journal.Count, time.Minute, func(e *journal.Entry) { e.Tank, e.Volume, e.Liquid = "south", gallons(d.south), "cal31" })
	d.add(journal.Count, time.Minute, func(e *journal.Entry) { e.Tank, e.Salt = journal.Pile, pounds(d.pile) })
	d.add(journal.Note, time.Minute, func(e *journal.Entry) { e.Note = "first day; the tote's valve F3 drips, = to be watched" })
}

// storm is the day of one: salt or liquid if it is low, batches, loads, and every sixth
// time a cleaning.
func (d *demoSeason) storm(n int) {
	if d.pile < 40000 {
		d.pile += 50000
		d.add(journal.Delivery, time.Minute, func(e *journal.Entry) { e.Salt, e.Cost = pounds(50000), money(1788) })
	}
	if d.south < 700 {
		d.south += 1500
		d.add(journal.Delivery, time.Minute, func(e *journal.Entry) {
			e.Tank, e.Liquid, e.Volume, e.Cost = "south", "cal31", gallons(1500), money(1860)
		})
	}
	for d.north < 3900 {
		d.batch()
	}
	d.loads()
	if n%6 == 5 {
		d.add(journal.Clean, 30*time.Hour, func(e *journal.Entry) { e.Tank, e.Note = "mixer", "sludge to the drying pad" })
	}
}

// batch makes one in the mixer, reads it, and sends it to storage.
func (d *demoSeason) batch() {
	const made = 1095.0
	strength := 23.3 + 0.35*d.g.NormFloat64()
	salt := made * 9.8227 * 0.233 / (0.962 * 0.984) * (1.02 + 0.01*d.g.NormFloat64())
	d.pile -= math.Round(salt/5) * 5
	d.add(journal.Batch, 95*time.Minute, func(e *journal.Entry) {
		e.Tank, e.Volume, e.NaCl, e.Salt, e.Water = "mixer", gallons(made), percent(strength), pounds(salt), gallons(982)
	})
	celsius := 4 + 5*d.g.Float64()
	d.add(journal.Reading, 4*time.Minute, func(e *journal.Entry) {
		temp := quantity.Fahrenheit(math.Round(quantity.Celsius(celsius).Fahrenheit()))
		glass := gauge.Instrument{Scale: gauge.PercentSalt, Calibration: gauge.DefaultCalibration}
		shown, err := brine.Expected(glass, *d.entries[len(d.entries)-1].NaCl, temp)
		if err != nil {
			panic(err) // the generator's own fault
		}
		shown = math.Round(shown*1000) / 10 // in percent, as a row has it
		e.Tank, e.Scale, e.Temp, e.Reading = "mixer", "hydrometer", &temp, &shown
	})
	d.add(journal.Transfer, 20*time.Minute, func(e *journal.Entry) { e.From, e.Tank, e.Volume = "mixer", "north", gallons(made) })
	d.north += made
}

// loads are those of a storm: the ridge road twice, the mill loop with calcium, lots.
func (d *demoSeason) loads() {
	load := func(from, truck, route string, volume float64, liquid string) {
		d.add(journal.Load, time.Duration(10+d.g.IntN(50))*time.Minute, func(e *journal.Entry) {
			e.From, e.Truck, e.Route, e.Volume, e.Liquid = from, truck, route, gallons(volume), liquid
		})
		if from == "north" {
			d.north -= math.Round(volume)
		} else {
			d.south -= math.Round(volume)
		}
	}
	for range 2 {
		load("north", "big-sprayer", "ridge-road", 480+float64(d.g.IntN(15)), "")
	}
	loop := 430 + float64(d.g.IntN(40))
	load("north", "big-sprayer", "mill-loop", 0.85*loop, "cold-mix")
	load("south", "big-sprayer", "mill-loop", 0.15*loop, "cold-mix")
	load("north", "lot-pickup", "school-lots", 80+float64(d.g.IntN(5)), "")
}

func (d *demoSeason) closing() {
	d.add(journal.Count, 0, func(e *journal.Entry) { e.Tank, e.Volume = "north", gallons(d.north-12) })
	d.add(journal.Count, time.Minute, func(e *journal.Entry) { e.Tank, e.Salt = journal.Pile, pounds(d.pile-900) })
}
