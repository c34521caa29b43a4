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
// one; several readings of it are several samples.
type Reading struct {
	flags       []*shown
	temp        *Value[quantity.Temperature]
	instruments instruments
	named       bool // a strength was typed or read
}

// shown is the flag of an instrument.
type shown struct {
	scale gauge.Scale
	texts []string
}

// BindSample binds exactly one reading with its instrument and its temperature; several of them are
// several samples.
func (r *Reading) BindSample(b *Set, to *brine.Sample, usage string) {
	r.bindRead(b, to, usage, func() error { return b.lackOfReading(fault.Refuse("no reading; allowed: one of %s", Instruments())) })
}

// BindIfRead binds a reading that may be left out; the sample has the temperature either way, and its usage says what
// that is without a reading. Sample.Reading is 0 where nothing was read.
func (r *Reading) BindIfRead(b *Set, to *brine.Sample, usage string) {
	r.bindRead(b, to, usage, func() error { return nil }, Default(quantity.Fahrenheit(60)))
}

// bindRead binds a reading; without says what is wrong where there is none.
func (r *Reading) bindRead(b *Set, to *brine.Sample, usage string, without func() error, temps ...Source[quantity.Temperature]) {
	r.bind(b)
	b.Then(func(s *Scope) error {
		used, err := r.used()
		switch {
		case err != nil:
			return err
		case used == nil:
			return without()
		}
		return r.complete(b, s, used)
	})
	r.instruments.bind(b, true)
	r.temp = Of(b, Temperature, &to.Temperature, "temp", usage, temps...).OfSamples()
	b.Then(func(s *Scope) error {
		used, err := r.used()
		if err != nil || used == nil {
			to.Reading, to.More = 0, nil
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
			return b.Lack(fault.Refuse("no strength; allowed: --strength, or --temp with one of %s", Instruments()),
				"How strong is the brine? e.g. 23.3%", "", "strength")
		}
		return r.complete(b, s, used)
	})
	r.instruments.bind(b, true)
	r.temp = Of(b, Temperature, &to.Temperature, "temp", "temperature of the brine; 60F unless given with --strength", Default(quantity.Fahrenheit(60))).OfSamples()
	typed = Of(b, Strength, strength, "strength", "true strength of the brine, instead of a reading", stands)
	b.Then(func(s *Scope) (err error) {
		used, err := r.used()
		if used != nil {
			return r.take(b, s, used, to)
		}
		to.Reading, to.More = 0, nil
		to.Instrument = s.yardOrNone().Instrument(gauge.PercentSalt)
		r.instruments.calibrate(b, s, yard.Glass{}, &to.Instrument)
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
		case len(f.texts) > 0 && used != nil:
			return used, fault.Refuse("--%s and --%s: two readings; allowed: one of %s", used.scale.Name(), f.scale.Name(), Instruments())
		case len(f.texts) > 0:
			used = f
		}
	}
	return used, nil
}

// complete refuses a reading without its temperature, and a calibration of no glass.
func (r *Reading) complete(b *Set, s *Scope, f *shown) error {
	switch {
	case !r.temp.Given():
		return b.LackOfTemperature(s, fault.Refuse("--temp is missing: --%s %s means nothing without the sample's temperature; allowed: like --temp 41F",
			f.scale.Name(), words.Quoted(f.texts[0])))
	case !f.scale.Floats() && r.instruments.cal.Given():
		return fault.Refuse("--cal goes with a hydrometer, not with --%s; allowed: one of them", f.scale.Name())
	}
	return nil
}

// heavierThan is the bare density above which a metric crew means kg/m3, and below which kg/L.
const heavierThan = 10

// Shown reads what an instrument shows. A bare weight of a volume is that of the crew: lb/gal, or kg/L
// or kg/m3 by its size.
func Shown(scale gauge.Scale, sys quantity.System, text string) (reading float64, bare bool, err error) {
	if err := quantity.Unclear(text, sys); err != nil {
		return 0, false, err
	}
	text = quantity.Plain(text)
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

// take makes samples of readings. Each has the temperature in its place, or the one that was typed for
// all; what the thermometer shows too much is taken off.
func (r *Reading) take(b *Set, s *Scope, f *shown, to *brine.Sample) (err error) {
	if to.Instrument, err = r.instruments.take(b, s, f.scale); err != nil {
		return err
	}
	to.Thermometer = r.instruments.reads(s)
	temps, err := r.temp.All(s)
	if err != nil {
		return err
	}
	if len(temps) > 1 && len(temps) != len(f.texts) {
		return fault.Refuse("--temp: %d temperatures for %d readings; allowed: one for all, or one for each", len(temps), len(f.texts))
	}
	to.More = nil
	for i, text := range f.texts {
		reading, bare, err := Shown(f.scale, s.System, text)
		if err != nil {
			return fault.Refuse("--%s %s: %v", f.scale.Name(), words.Quoted(text), err)
		}
		b.typed(s, fault.FieldReading, f.scale.Name(), text, bare && !f.scale.Floats(), f.scale.Quantity(reading))
		shown := brine.Shown{Reading: reading, Temperature: to.Thermometer.True(temps[min(i, len(temps)-1)])}
		if i == 0 {
			to.Reading, to.Temperature = shown.Reading, shown.Temperature
			continue
		}
		to.More = append(to.More, shown)
	}
	return nil
}

// Glass binds the calibration of the yard's percent hydrometer, for what it will show.
func Glass(b *Set, i *gauge.Instrument) {
	InstrumentOf(b, i, nil, func() gauge.Scale { return gauge.PercentSalt })
}

// YardGlass is Glass without a flag.
func YardGlass(b *Set, i *gauge.Instrument) {
	b.Then(func(s *Scope) error {
		*i = s.yardOrNone().Instrument(gauge.PercentSalt)
		new(instruments).place(b, s, yard.Glass{}, i)
		return nil
	})
}

// InstrumentOf binds an instrument whose scale is known without a reading, and the thermometer, unless
// that is nil: then nothing is read, and only what the instrument will show is asked.
func InstrumentOf(b *Set, i *gauge.Instrument, with *gauge.Thermometer, scale func() gauge.Scale) {
	k := new(instruments)
	b.Then(func(*Scope) error {
		if !scale().Floats() && k.cal.Given() {
			return fault.Refuse("--cal goes with a hydrometer, not with --%s; allowed: one of them", scale().Name())
		}
		return nil
	})
	k.bind(b, with != nil)
	b.Then(func(s *Scope) (err error) {
		if *i, err = k.take(b, s, scale()); with != nil {
			*with = k.reads(s)
		}
		return err
	})
}

// Instruments lists the instruments' flags for messages.
func Instruments() string {
	var flags []string
	for _, scale := range gauge.Scales() {
		flags = append(flags, "--"+scale.Name())
	}
	return words.Or(flags)
}

// Set reads the flag's value.
func (f *shown) Set(text string) error {
	_, _, err := f.scale.Parse(quantity.Plain(text))
	if err != nil {
		if _, _, metric := Shown(f.scale, quantity.Metric, text); metric == nil { // for a metric crew, which take tells
			err = nil
		}
	}
	if err == nil {
		f.texts = append(f.texts, text)
	}
	return err
}

// Reset takes back what was typed.
func (f *shown) Reset() { f.texts = nil }

// String returns the words typed.
func (f *shown) String() string { return strings.Join(f.texts, " ") }

// Texts are the words typed, one for each sample.
func (f *shown) Texts() []string { return f.texts }

// Type names the kind of value in help.
func (f *shown) Type() string { return f.scale.Kind() }

// Named reports whether a strength was typed or read.
func (r *Reading) Named() bool { return r.named }

// Given reports whether an instrument was used.
func (r *Reading) Given() bool {
	used, _ := r.used()
	return used != nil
}
