package brine

import (
	"cmp"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/sure"
)

// More parts of what makes a test of an instrument unsure.
const (
	PartTapWater     = "what is dissolved in tap water"
	PartSaltWeighed  = "the scale with the salt, read to its nearest mark"
	PartWaterWeighed = "the scale with the water, read to its nearest mark"
	PartIceBath      = "the ice bath"
)

// tapWater is by how much water from the tap may be taken for brine, as a mass fraction of NaCl: 0.03 %.
// Common practice, no source.
const tapWater = 0.0003

// iceBath is by how much melting ice that is stirred in water may be off 0 C, in K. Common practice, no
// source.
const iceBath = 0.1

// GlassTest is an instrument in a liquid of a known strength: fresh water, or salt that was weighed into
// water.
type GlassTest struct {
	Sample Sample // what it showed; an offset of the instrument's own is left aside
	// Salt and Water were weighed to the nearest WeighedTo; no salt for water alone.
	Salt, Water, WeighedTo quantity.Mass
}

// GlassResult says what an instrument shows too much, in the unit of its readings.
type GlassResult struct {
	Strength quantity.Strength // of the liquid
	Density  quantity.Density
	Expected float64 // what a true instrument shows
	Offset   float64
	Sure     sure.Budget // of Offset
}

// Low and High are the range that holds the offset 95 times in 100.
func (g GlassResult) Low() float64  { return g.Offset - g.Sure.Half() }
func (g GlassResult) High() float64 { return g.Offset + g.Sure.Half() }

// Told reports whether there is an offset: no range that holds none.
func (g GlassResult) Told() bool { return math.Abs(g.Offset) > g.Sure.Half() }

// OffsetSure is the even spread whose 95 % range is that of the offset, as an instrument keeps it.
func (g GlassResult) OffsetSure() float64 { return g.Sure.Half() / sure.Inside }

// CheckGlass compares what an instrument showed with what a true one shows. The test has a reading error of
// its own: that of the marks, the thermometer, and the liquid. Errors: InputError for a temperature of no
// brine, salt that does not dissolve, and a liquid beyond the marks.
func CheckGlass(r GlassTest) (GlassResult, error) {
	s := r.Sample
	i := s.Instrument
	i.Offset = 0
	if err := cmp.Or(
		fault.CheckTemperature(fault.FieldTemperature, s.Temperature),
		fault.CheckTemperature(fault.FieldCalibration, quantity.Temperature(i.Calibration)),
		fault.If(r.Salt < 0 || r.Salt > 0 && !(r.Water > 0), fault.FieldSalt, "no brine is made of that; allowed: salt and water above 0"),
	); err != nil {
		return GlassResult{}, err
	}
	w := quantity.Strength(0)
	if r.Salt > 0 {
		w = quantity.Strength(r.Salt / (r.Salt + r.Water))
	}
	known, err := balance.Know(fault.FieldSalt, w, s.Temperature)
	if err != nil {
		return GlassResult{}, err
	}
	g := GlassResult{Strength: w, Density: known.Density}
	// At its calibration a glass floats at its lowest mark in water, rounding aside.
	const rounding = 1 + 1e-9
	expected, ok := i.Reading(float64(known.Density)*rounding, float64(s.Temperature))
	if !ok {
		return GlassResult{}, fault.Input(fault.FieldTemperature,
			"a true instrument sinks below its first mark in that; allowed: up to the %v that it is marked for", quantity.Temperature(i.Calibration))
	}
	g.Expected, g.Offset = expected, s.Reading-expected
	g.Sure = r.sureness(i, w)
	return g, nil
}

// sureness is what makes the offset unsure, in the unit of a reading.
func (r GlassTest) sureness(i gauge.Instrument, w quantity.Strength) sure.Budget {
	t := r.Sample.Temperature
	rho := balance.BrineDensity(w, t)
	perStrength, perKelvin := densitySlopes(w, t, rho)
	// The reading changes with the density: over what half a percent of strength makes of it.
	step := perStrength * 0.005
	here, _ := i.Reading(float64(rho), float64(t))
	there, ok := i.Reading(float64(rho)+step, float64(t))
	if !ok {
		step = -step
		there, _ = i.Reading(float64(rho)+step, float64(t))
	}
	perDensity := math.Abs((there - here) / step)
	perDegree := perDensity * floating(i, perKelvin, rho)
	perW := perDensity * perStrength
	liquid := []sure.Part{{Name: PartTapWater, Half: perW * tapWater}}
	if r.Salt > 0 {
		// w = salt / (salt + water), so that it changes with the salt by water / all^2, and with the water by
		// salt / all^2.
		all := float64(r.Salt + r.Water)
		each := perW * float64(r.WeighedTo) / 2 / (all * all)
		liquid = []sure.Part{{Name: PartSaltWeighed, Half: each * float64(r.Water)}, {Name: PartWaterWeighed, Half: each * float64(r.Salt)}}
	}
	return sure.Budget{}.And(
		sure.Part{Name: PartMark, Half: i.Division / 2},
		sure.Part{Name: PartThermometer, Half: perDegree * r.Sample.Thermometer.Division / 2},
		sure.Part{Name: PartThermOffset, Half: perDegree * r.Sample.Thermometer.OffsetSure},
	).And(liquid...)
}

// CheckThermometer says what a thermometer shows too much (K) that shows t in melting ice stirred in water, and
// what makes that unsure. Errors: InputError for what is no ice bath.
func CheckThermometer(shown quantity.Temperature, with gauge.Thermometer) (GlassResult, error) {
	const furthest = 5 // K: beyond that it is another bath, or broken
	ice := quantity.Celsius(0)
	if off := float64(shown - ice); off > furthest || off < -furthest {
		return GlassResult{}, fault.Input(fault.FieldTemperature, "melting ice is at %v; allowed: %v to %v, else stir it, or take another thermometer",
			ice, ice-furthest, ice+furthest)
	}
	return GlassResult{
		Offset: float64(shown - ice),
		Sure:   sure.Budget{}.And(sure.Part{Name: PartMark, Half: with.Division / 2}, sure.Part{Name: PartIceBath, Half: iceBath}),
	}, nil
}
