package drill

import (
	"math"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// glass is a hydrometer in brine that is colder or warmer than the glass is marked for.
type glass struct {
	sample  brine.Sample
	result  brine.ReadingResult
	reading quantity.Strength
	rule    quantity.Strength   // its error for each such difference
	each    quantity.Difference // of temperature
	byRule  float64             // the strength that a pocket calculator finds
	// What the yard's file says of the glass: its name, and what lies between its marks.
	name     string
	division quantity.Strength
}

// farFrom is the least difference from the marked temperature that shows on the glass.
const farFrom = quantity.Difference(8)

// glass draws a reading whose true strength lies in a range.
func (d *draw) glass(low, high quantity.Strength) (glass, error) {
	i := d.instrument()
	marked := quantity.Temperature(i.Calibration)
	coldest, warmest := quantity.Fahrenheit(22), quantity.Fahrenheit(95)
	// Brine is made in the cold: twice as often as in the heat.
	t := d.temperature(coldest, marked-quantity.Temperature(farFrom))
	if d.rng.IntN(3) == 0 {
		t = d.temperature(marked+quantity.Temperature(farFrom), warmest)
	}
	if !(math.Abs(float64(t-marked)) >= float64(farFrom)-0.1) || t < coldest || t > warmest {
		return glass{}, errUnfit
	}
	shows, err := brine.Expected(i, d.strength(low, high), t)
	if err != nil {
		return glass{}, err
	}
	g := glass{
		reading: quantity.Strength(math.Round(1000*shows) / 1000), // marks are read to a tenth
		each:    quantity.Difference(d.in(10*5.0/9, 5)),
		name:    d.Shop.Glass, division: quantity.Strength(d.Shop.Division),
	}
	g.sample = brine.Sample{Instrument: i, Reading: float64(g.reading), Temperature: t}
	if g.result, err = brine.Reading(g.sample); err != nil {
		return glass{}, err
	}
	steps := (d.num(marked) - d.num(t)) / d.num(g.each)
	g.rule = printedStrength((g.reading - g.result.True) / quantity.Strength(steps))
	g.byRule = float64(g.reading) - float64(g.rule)*steps
	if g.result.Clamped || g.result.Solid || g.rule <= 0 {
		return glass{}, errUnfit
	}
	return g, nil
}

// sentence tells the reading and the rule to correct it by.
func (g glass) sentence() (string, []quantity.Quantity) {
	marked := quantity.Temperature(g.sample.Instrument.Calibration)
	way := "shows %v too much for every %v colder"
	if g.sample.Temperature > marked {
		way = "shows %v too little for every %v warmer"
	}
	facts := []quantity.Quantity{marked}
	text := "The hydrometer, marked for %v, "
	if g.name != "" {
		text = "The yard's " + g.name + ", a hydrometer marked for %v, "
	}
	if g.division > 0 {
		text = strings.TrimSuffix(text, ", ") + " with a mark every %v, "
		facts = append(facts, g.division)
	}
	text += "shows %v in it at %v. In such brine it " + way + " than it is marked for. "
	return text, append(facts, g.reading, g.sample.Temperature, g.rule, g.each)
}

// theWrongWay is the strength that correcting the wrong way leads to.
func (g glass) theWrongWay() quantity.Strength { return 2*g.reading - g.result.True }

// mistakes are those of who reads the glass wrong: answer is the answer for a strength.
func (g glass) mistakes(answer func(quantity.Strength) quantity.Quantity) []Mistake {
	return []Mistake{noTemperature.to(answer(g.reading)), wrongWay.to(answer(g.theWrongWay()))}
}

// note puts the glass into a problem's working.
func (g glass) note(w *Working) {
	w.Glass, w.GlassResult, w.Rule, w.Each = &g.sample, &g.result, g.rule, g.each
}

// waterDensity is the density of fresh water.
func waterDensity(t quantity.Temperature) (quantity.Density, error) {
	rho, err := solution.WaterDensity(float64(t))
	return quantity.Density(rho), err
}
