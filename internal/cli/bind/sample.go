package bind

import (
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
	b.Then(func(*Scope) error { _, err := r.one(true); return err })
	r.bindCalibration(b, &to.Instrument)
	r.temp = Of(b, Temperature, &to.Temperature, "temp", usage)
	b.Then(func(s *Scope) error {
		f, err := r.one(true)
		if err == nil {
			r.take(b, s, f, to)
		}
		return err
	})
}

// bind binds a flag for each instrument.
func (r *Reading) bind(b *Set) {
	for _, scale := range gauge.Scales() {
		f := &shown{scale: scale}
		r.flags = append(r.flags, f)
		b.flags.Var(f, scale.Name(), scale.Usage())
	}
}

// one is the instrument that was used; nil where none was and none is needed.
func (r *Reading) one(needed bool) (*shown, error) {
	var one *shown
	for _, f := range r.flags {
		switch {
		case f.given && one != nil:
			return nil, fault.Refuse("--%s and --%s: two readings; allowed: one of %s", one.scale.Name(), f.scale.Name(), Instruments())
		case f.given:
			one = f
		}
	}
	switch {
	case one == nil && needed:
		return nil, fault.Refuse("no reading; allowed: one of %s", Instruments())
	case one != nil && !r.temp.Given():
		return nil, fault.Refuse("--temp is missing: --%s %s means nothing without the sample's temperature; allowed: like --temp 41F",
			one.scale.Name(), words.Quoted(one.text))
	case one != nil && !one.scale.Floats() && r.cal.Given():
		return nil, fault.Refuse("--cal goes with a hydrometer, not with --%s; allowed: one of them", one.scale.Name())
	}
	return one, nil
}

// take makes a sample of a reading.
func (r *Reading) take(b *Set, s *Scope, f *shown, to *brine.Sample) {
	to.Instrument.Scale, to.Reading = f.scale, f.reading
	if !f.scale.Floats() {
		to.Instrument.Calibration = gauge.DefaultCalibration
	}
	b.typed(s, fault.FieldReading, f.scale.Name(), f.text, f.bare && !f.scale.Floats(), f.scale.Quantity(f.reading))
}

// bindCalibration binds the temperature for which the glass is marked: the flag's, else the
// yard file's, else 60 F.
func (r *Reading) bindCalibration(b *Set, i *gauge.Instrument) {
	var cal quantity.Temperature
	r.cal = Of(b, Temperature, &cal, "cal", "temperature for which the hydrometer is marked; 60F unless given",
		Key("hydrometer.calibration", func(y *yard.Yard) quantity.Temperature { return y.Calibration }),
		Default(quantity.Temperature(gauge.DefaultCalibration)))
	b.Then(func(*Scope) error { i.Calibration = float64(cal); return nil })
}

// Glass binds the calibration of a percent hydrometer, for what it will show.
func Glass(b *Set, i *gauge.Instrument) {
	i.Scale = gauge.PercentSalt
	new(Reading).bindCalibration(b, i)
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
