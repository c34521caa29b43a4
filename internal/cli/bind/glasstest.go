package bind

import (
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// GlassTest is a test of an instrument: of a glass in water or in a brine that was weighed out, or of the
// thermometer in melting ice.
type GlassTest struct {
	Test  brine.GlassTest
	Ice   quantity.Temperature // what the thermometer showed; for OfThermometer
	Glass yard.Glass           // of the yard file; without a name where none is meant
	// OfThermometer tells that the thermometer is tested.
	OfThermometer bool

	reading     Reading
	water       *stepText
	ice         *Value[quantity.Temperature]
	salt, weigh *Value[quantity.Mass]
}

// Bind binds the test.
func (g *GlassTest) Bind(b *Set) {
	g.reading.bind(b)
	g.water = bindStep(b, "water", "what it shows in fresh water")
	g.ice = Of(b, Temperature, &g.Ice, "ice", "what the thermometer shows in melting ice, stirred in water")
	g.salt = Of(b, Mass, &g.Test.Salt, "salt", "dry salt that was weighed into the water; with a reading in it")
	g.weigh = Of(b, Mass, &g.Test.Water, "water-weight", "weight of the water that it was dissolved in")
	Of(b, Mass, &g.Test.WeighedTo, "scale-division", "what lies between the marks of the scale; 1g unless given", Default(quantity.Mass(0.001)))
	b.Then(func(s *Scope) error { return g.refuse(b, s) })
	g.reading.instruments.bind(b, true)
	g.reading.temp = Of(b, Temperature, &g.Test.Sample.Temperature, "temp", "temperature of the liquid that it floats in")
	b.Says(fault.FieldSalt, "--salt and --water-weight")
	b.Then(func(s *Scope) error { return g.take(b, s) })
}

// refuse refuses a test that is none, or two.
func (g *GlassTest) refuse(b *Set, s *Scope) error {
	used, err := g.reading.used()
	weighed := g.salt.Given() || g.weigh.Given()
	g.OfThermometer = g.ice.Given()
	switch {
	case err != nil:
		return err
	case g.ice.Given() && (g.water.given || weighed || used != nil || g.reading.temp.Given()):
		return fault.Refuse("--ice: that tests the thermometer, and the rest a glass; allowed: --ice alone")
	case g.ice.Given():
		return nil
	case g.water.given && (weighed || used != nil):
		return fault.Refuse("--water and a brine: two tests; allowed: one of them")
	case !g.water.given && !weighed:
		return b.Lack(fault.Refuse("no test; allowed: --water with what it shows in water, --salt and --water-weight with a reading, or --ice for a thermometer"),
			"What does the glass show in fresh water? e.g. 0.2%", "", "water")
	case weighed && !(g.salt.Given() && g.weigh.Given()):
		return fault.Refuse("--salt and --water-weight go together; allowed: like --salt 303g --water-weight 1000g")
	case weighed && used == nil:
		return b.lackOfReading(fault.Refuse("no reading in the brine; allowed: one of %s", Instruments()))
	case !g.reading.temp.Given():
		return b.LackOfTemperature(s, fault.Refuse("--temp is missing: a glass means nothing without the temperature that it floats at; allowed: like --temp 58F"))
	}
	return nil
}

// take finds the instrument, and what it showed.
func (g *GlassTest) take(b *Set, s *Scope) (err error) {
	k, sample := &g.reading.instruments, &g.Test.Sample
	g.Glass = yard.Glass{}
	if g.OfThermometer {
		sample.Thermometer = k.reads(s)
		return nil
	}
	y := s.yardOrNone()
	scale, text := gauge.PercentSalt, g.water.text
	if named, known := y.GlassNamed(k.name); known {
		scale = named.Scale
	}
	if used, _ := g.reading.used(); used != nil {
		scale, text = used.scale, used.texts[0]
		if len(used.texts) > 1 {
			return fault.Refuse("--%s: a test takes one reading; allowed: once", scale.Name())
		}
	}
	if sample.Instrument, err = k.take(b, s, scale); err != nil {
		return err
	}
	if g.Glass, _ = y.UsualGlass(scale); k.glass.Given() {
		g.Glass, _ = y.GlassNamed(k.name)
	}
	if sample.Reading, err = g.shown(s, scale, text); err != nil {
		return err
	}
	sample.Thermometer = k.reads(s)
	sample.Temperature = sample.Thermometer.True(sample.Temperature)
	return nil
}

// shown reads what the instrument showed: a reading, or in water a step from nothing, since a reading
// may lie below what brine shows.
func (g *GlassTest) shown(s *Scope, scale gauge.Scale, text string) (float64, error) {
	if !g.water.given {
		reading, _, err := Shown(scale, s.System, text)
		return reading, err
	}
	reading, _, err := Shown(scale, s.System, text)
	if err != nil {
		reading, _, err = scale.ParseStep(s.System, text)
	}
	if err != nil {
		return 0, fault.Refuse("--water %s: %v", words.Quoted(text), err)
	}
	return reading, nil
}
