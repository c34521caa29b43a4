package bind

import (
	"strconv"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Reading is what one of the instruments showed: a flag for each, of which a command takes
// one.
type Reading struct {
	flags []*shown
	temp  *Value[quantity.Temperature]
	cal   *Value[quantity.Temperature]
	named bool // a strength was typed or read
}

// shown is the flag of an instrument.
type shown struct {
	scale   gauge.Scale
	reading float64
	text    string
	given   bool
	bare    bool
}

// BindSample binds exactly one reading with its instrument and its temperature.
func (r *Reading) BindSample(b *Set, to *brine.Sample, usage string) {
	r.bind(b)
	b.Then(func(*Scope) error {
		used, err := r.used()
		switch {
		case err != nil:
			return err
		case used == nil:
			return fault.Refuse("no reading; allowed: one of %s", Instruments())
		}
		return r.complete(used)
	})
	r.bindCalibration(b, &to.Instrument)
	r.temp = Of(b, Temperature, &to.Temperature, "temp", usage)
	b.Then(func(s *Scope) error {
		used, err := r.used()
		if err != nil {
			return err
		}
		return r.take(b, s, used, to)
	})
}

// BindStrength binds a strength that is typed, or read: then the sample holds the reading, and
// the strength is 0; else it is what stands. Temperature and instrument of the sample are there
// either way.
func (r *Reading) BindStrength(b *Set, strength *quantity.Strength, to *brine.Sample, stands Source[quantity.Strength]) {
	r.bind(b)
	var typed *Value[quantity.Strength]
	b.Then(func(s *Scope) error {
		used, err := r.used()
		r.named = typed.Given() || used != nil
		_, _, known := stands("strength", s)
		switch {
		case typed.Given() && used != nil:
			return fault.Refuse("--strength and --%s: two strengths; allowed: one of them", used.scale.Name())
		case typed.Given() || err != nil || used == nil && known:
			return err
		case used == nil:
			return fault.Refuse("no strength; allowed: --strength, or --temp with one of %s", Instruments())
		}
		return r.complete(used)
	})
	r.bindCalibration(b, &to.Instrument)
	r.temp = Of(b, Temperature, &to.Temperature, "temp", "temperature of the brine; 60F unless given with --strength", Default(quantity.Fahrenheit(60)))
	typed = Of(b, Strength, strength, "strength", "true strength of the brine, instead of a reading", stands)
	b.Then(func(s *Scope) error {
		to.Instrument.Scale, to.Reading = gauge.PercentSalt, 0
		used, err := r.used()
		if used != nil {
			return r.take(b, s, used, to)
		}
		return err
	})
}

// bind binds a flag for each instrument.
func (r *Reading) bind(b *Set) {
	for _, scale := range gauge.Scales() {
		f := &shown{scale: scale}
		r.flags = append(r.flags, f)
		b.flags.Var(f, scale.Name(), scale.Help())
	}
}

// used is the instrument that showed something; nil for none.
func (r *Reading) used() (used *shown, err error) {
	for _, f := range r.flags {
		switch {
		case f.given && used != nil:
			return used, fault.Refuse("--%s and --%s: two readings; allowed: one of %s", used.scale.Name(), f.scale.Name(), Instruments())
		case f.given:
			used = f
		}
	}
	return used, nil
}

// complete refuses a reading without its temperature, and a calibration of no glass.
func (r *Reading) complete(f *shown) error {
	switch {
	case !r.temp.Given():
		return fault.Refuse("--temp is missing: --%s %s means nothing without the sample's temperature; allowed: like --temp 41F",
			f.scale.Name(), words.Quoted(f.text))
	case !f.scale.Floats() && r.cal.Given():
		return fault.Refuse("--cal goes with a hydrometer, not with --%s; allowed: one of them", f.scale.Name())
	}
	return nil
}

// heavierThan is the bare density above which a metric crew means kg/m3, and below which kg/L.
const heavierThan = 10

// Shown reads what an instrument shows. A bare weight of a volume is that of the crew: lb/gal, or kg/L
// or kg/m3 by its size.
func Shown(scale gauge.Scale, sys quantity.System, text string) (reading float64, bare bool, err error) {
	x, number := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if number != nil || scale.Floats() || sys == quantity.US {
		return scale.Parse(text)
	}
	unit := "kg/L"
	if x > heavierThan {
		unit = "kg/m3"
	}
	reading, _, err = scale.Parse(text + unit)
	return reading, true, err
}

// take makes a sample of a reading.
func (r *Reading) take(b *Set, s *Scope, f *shown, to *brine.Sample) error {
	reading, bare, err := Shown(f.scale, s.System, f.text)
	if err != nil {
		return fault.Refuse("--%s %s: %v", f.scale.Name(), words.Quoted(f.text), err)
	}
	f.reading, f.bare = reading, bare
	to.Instrument.Scale, to.Reading = f.scale, f.reading
	if !f.scale.Floats() {
		to.Instrument.Calibration = gauge.DefaultCalibration
	}
	b.typed(s, fault.FieldReading, f.scale.Name(), f.text, f.bare && !f.scale.Floats(), f.scale.Quantity(f.reading))
	return nil
}

// bindCalibration binds the temperature for which the glass is marked: the flag's, else the
// yard file's, else 60 F.
func (r *Reading) bindCalibration(b *Set, i *gauge.Instrument) {
	var cal quantity.Temperature
	r.cal = Of(b, Temperature, &cal, "cal", "temperature for which the hydrometer is marked; 60F unless given",
		calibration, Default(quantity.Temperature(gauge.DefaultCalibration)))
	b.Then(func(*Scope) error { i.Calibration = float64(cal); return nil })
}

// Glass binds the calibration of a percent hydrometer, for what it will show.
func Glass(b *Set, i *gauge.Instrument) {
	Calibration(b, i, func() gauge.Scale { return gauge.PercentSalt })
}

// YardGlass is Glass without a flag.
func YardGlass(b *Set, i *gauge.Instrument) {
	var cal quantity.Temperature
	Kept(b, &cal, "cal", calibration, Default(quantity.Temperature(gauge.DefaultCalibration)))
	b.Then(func(*Scope) error {
		*i = gauge.Instrument{Scale: gauge.PercentSalt, Calibration: float64(cal)}
		return nil
	})
}

var calibration = Key("hydrometer.calibration", func(y *yard.Yard) quantity.Temperature { return y.Calibration })

// Calibration binds an instrument whose scale is known without a reading.
func Calibration(b *Set, i *gauge.Instrument, scale func() gauge.Scale) {
	r := new(Reading)
	b.Then(func(*Scope) error {
		if i.Scale = scale(); !i.Scale.Floats() && r.cal.Given() {
			return fault.Refuse("--cal goes with a hydrometer, not with --%s; allowed: one of them", i.Scale.Name())
		}
		return nil
	})
	r.bindCalibration(b, i)
	b.Then(func(*Scope) error {
		if !i.Scale.Floats() {
			i.Calibration = gauge.DefaultCalibration
		}
		return nil
	})
}

// Instruments lists the instruments' flags for messages.
func Instruments() string {
	var flags []string
	for _, scale := range gauge.Scales() {
		flags = append(flags, "--"+scale.Name())
	}
	last := len(flags) - 1
	return strings.Join(flags[:last], ", ") + " or " + flags[last]
}

// Set reads the flag's value.
func (f *shown) Set(text string) (err error) {
	reading, bare, err := f.scale.Parse(text)
	if err != nil {
		reading, bare, err = Shown(f.scale, quantity.Metric, text) // for a metric crew, which take tells
	}
	if err == nil {
		f.reading, f.bare, f.text, f.given = reading, bare, text, true
	}
	return err
}

// Reset takes back what was typed.
func (f *shown) Reset() { f.reading, f.text, f.given, f.bare = 0, "", false, false }

// String returns the words typed.
func (f *shown) String() string { return f.text }

// Type names the kind of value in help.
func (f *shown) Type() string { return f.scale.Kind() }

// Named reports whether a strength was typed or read.
func (r *Reading) Named() bool { return r.named }

// Given reports whether an instrument was used.
func (r *Reading) Given() bool {
	used, _ := r.used()
	return used != nil
}
