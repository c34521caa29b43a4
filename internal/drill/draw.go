package drill

import (
	"errors"
	"math"
	"math/rand/v2"

	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// draw draws round numbers in the user's system.
type draw struct {
	Request
	rng *rand.Rand
}

// errUnfit means that the numbers make no problem, and others have to be drawn.
var errUnfit = errors.New("numbers that make no problem")

// in chooses by the system of units.
func (d *draw) in(us, metric float64) float64 {
	if d.System == quantity.Metric {
		return metric
	}
	return us
}

// volumeUnit is the unit that people of the system use, in SI.
func (d *draw) volumeUnit() float64 {
	return d.in(float64(quantity.Gallon), float64(quantity.Liter))
}

func (d *draw) massUnit() float64 {
	return d.in(float64(quantity.Pound), float64(quantity.Kilogram))
}

// multiple draws a multiple of step in a range, both in the same unit.
func (d *draw) multiple(low, high, step float64) float64 {
	first, last := math.Ceil(low/step-1e-9), math.Floor(high/step+1e-9)
	if n := last - first; !(n >= 0 && n < 1e9) {
		return step * math.Max(1, last) // the range holds none, and the problem turns out unfit
	}
	return step * (first + float64(d.rng.IntN(int(last-first)+1)))
}

// volumeStep is the step of round volumes up to v: 50 gal or 200 L at level 1, where one idea
// counts, else 10 gal or 50 L, and less of small volumes.
func (d *draw) volumeStep(v quantity.Volume) float64 {
	switch {
	case v < 50*quantity.Gallon:
		return d.in(5, 10)
	case d.Level > 1 || v < 400*quantity.Gallon:
		return d.in(10, 50)
	}
	return d.in(50, 200)
}

// volume draws a round volume.
func (d *draw) volume(low, high quantity.Volume) quantity.Volume {
	u := d.volumeUnit()
	n := d.multiple(float64(low)/u, float64(high)/u, d.volumeStep(high))
	return quantity.Volume(n * u)
}

// partly draws a round volume between shares of one.
func (d *draw) partly(v quantity.Volume, low, high float64) quantity.Volume {
	return d.volume(quantity.Volume(low*float64(v)), quantity.Volume(high*float64(v)))
}

// roundVolume is the yard's own volume, to 10 gal or 50 L (5 gal or 10 L of a small
// one).
func (d *draw) roundVolume(v quantity.Volume) quantity.Volume {
	step := d.in(10, 50)
	if v < 300*quantity.Gallon {
		step = d.in(5, 10)
	}
	step *= d.volumeUnit()
	return quantity.Volume(step * math.Round(float64(v)/step))
}

// roundMass is the yard's own weight, to 50 lb or 20 kg.
func (d *draw) roundMass(m quantity.Mass) quantity.Mass {
	step := d.in(50, 20) * d.massUnit()
	return quantity.Mass(step * math.Round(float64(m)/step))
}

// mass draws a round weight, to 50 lb or 20 kg.
func (d *draw) mass(low, high quantity.Mass) quantity.Mass {
	u := d.massUnit()
	return quantity.Mass(u * d.multiple(float64(low)/u, float64(high)/u, d.in(50, 20)))
}

// strength draws half percents at level 1, else tenths.
func (d *draw) strength(low, high quantity.Strength) quantity.Strength {
	step := 1.0
	if d.Level == 1 {
		step = 5
	}
	return quantity.Strength(d.multiple(1000*float64(low), 1000*float64(high), step) / 1000)
}

// printedStrength is the yard's own strength as it is printed.
func printedStrength(s quantity.Strength) quantity.Strength {
	return quantity.Strength(math.Round(1e4*float64(s)) / 1e4)
}

// target is the strength that the yard wants.
func (d *draw) target() quantity.Strength { return printedStrength(d.Shop.Band.Target) }

// temperature draws tens of degrees F or fives of C at level 1, else whole degrees.
func (d *draw) temperature(low, high quantity.Temperature) quantity.Temperature {
	step := 1.0
	if d.Level == 1 {
		step = d.in(10, 5)
	}
	if d.System == quantity.Metric {
		return quantity.Celsius(d.multiple(low.Celsius(), high.Celsius(), step))
	}
	return quantity.Fahrenheit(d.multiple(low.Fahrenheit(), high.Fahrenheit(), step))
}

// usual is the temperature that tables are made for: 60 F, or 15 C.
func (d *draw) usual() quantity.Temperature {
	if d.System == quantity.Metric {
		return quantity.Celsius(15)
	}
	return quantity.Fahrenheit(60)
}

// outdoors is usual at level 1, and else draws a temperature that a yard meets.
func (d *draw) outdoors() quantity.Temperature {
	if d.Level == 1 {
		return d.usual()
	}
	return d.temperature(quantity.Fahrenheit(34), quantity.Fahrenheit(85))
}

// instrument is the percent hydrometer, marked for the yard's temperature as that
// is printed.
func (d *draw) instrument() gauge.Instrument {
	t := quantity.Celsius(math.Round(10*d.Shop.Calibration.Celsius()) / 10)
	if d.System == quantity.US {
		t = quantity.Fahrenheit(math.Round(10*d.Shop.Calibration.Fahrenheit()) / 10)
	}
	return gauge.Instrument{Scale: gauge.PercentSalt, Calibration: float64(t)}
}

// rockSalt is pure and dry at level 1, and else about as the yard's.
func (d *draw) rockSalt() yard.RockSalt {
	if d.Level == 1 {
		return yard.PureSalt()
	}
	own := d.Shop.RockSalt
	return yard.RockSalt{
		Purity:   d.strength(max(0.8, own.Purity-0.03), min(0.99, own.Purity+0.01)),
		Moisture: d.strength(max(0.005, own.Moisture-0.01), min(0.15, own.Moisture+0.02)),
	}
}

// num is a quantity as it is printed, the number that a pocket calculator is given:
// strengths as a share, densities in the unit that makes weights of volumes.
func (d *draw) num(q quantity.Quantity) float64 {
	x := digits(q.In(d.System))
	switch q.(type) {
	case quantity.Strength:
		return x / 100
	case quantity.Density:
		return x / d.in(1, 1000)
	}
	return x
}

// oneOf draws one of a list that is not empty.
func oneOf[T any](d *draw, list []T) T { return list[d.rng.IntN(len(list))] }
