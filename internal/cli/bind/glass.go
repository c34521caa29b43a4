package bind

import (
	"slices"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// instruments are the glass and the thermometer that a strength is read with: the yard's, the flags', else
// the usual ones.
type instruments struct {
	name                      string
	glass                     *Text
	cal                       *Value[quantity.Temperature]
	typedCal                  quantity.Temperature
	division, offset, offSure *stepText
	thermometer               *Value[quantity.Difference]
	degrees                   quantity.Difference
}

// Difference is that of two temperatures.
var Difference = Kind[quantity.Difference]{"difference", "F or C", quantity.ParseDifference}

// bind binds the flags of an instrument; more binds those that say how finely it is read, too.
func (k *instruments) bind(b *Set, more bool) {
	k.cal = Of(b, Temperature, &k.typedCal, "cal", "temperature for which the hydrometer is marked; 60F unless given", Default(quantity.Temperature(gauge.DefaultCalibration)))
	b.Then(k.askAboutCalibration)
	if !more {
		return
	}
	k.glass = Name(b, &k.name, "glass", "`name` of an instrument in the yard file", GlassNames)
	k.division = bindStep(b, "glass-division", "what lies between the marks of the instrument; the usual one's unless given")
	k.offset = bindStep(b, "offset", "what the instrument shows too much, by a test of it")
	k.offSure = bindStep(b, "offset-sure", "within what --offset is known, either way")
	k.thermometer = Of(b, Difference, &k.degrees, "thermometer-division", "what lies between the marks of the thermometer; 2F unless given")
	b.Then(func(*Scope) error {
		if k.thermometer.Given() && !(k.degrees > 0) {
			return fault.Refuse("--thermometer-division %s: marks lie apart; allowed: above 0", k.thermometer.Quoted())
		}
		return nil
	})
}

// askAboutCalibration asks which unit was meant where no glass is marked for what was typed.
func (k *instruments) askAboutCalibration(s *Scope) error {
	switch {
	case !k.cal.Given() || gauge.MarkedFor(k.typedCal):
		return nil
	case k.cal.bare:
		_, _, err := gauge.ParseCalibration(s.System, k.cal.text)
		return fault.Refuse("--cal %s: %v", k.cal.Quoted(), err)
	}
	s.note(show.View{System: s.System}.Say("Hydrometers are marked for 50 to 100 F (10 to 38 C); is yours for %v?", k.typedCal))
	return nil
}

// GlassNames lists the instruments of a yard.
func GlassNames(y *yard.Yard) []string {
	var all []string
	for _, g := range y.Glasses {
		all = append(all, g.Name)
	}
	return all
}

// take finds the instrument of a scale.
func (k *instruments) take(b *Set, s *Scope, scale gauge.Scale) (i gauge.Instrument, err error) {
	y := s.yardOrNone()
	g, described := y.UsualGlass(scale)
	if k.glass != nil && k.glass.Given() {
		if g, described = y.GlassNamed(k.name); !described {
			return i, fault.Refuse("--glass %s: no such instrument in the yard file; %s", k.glass.Quoted(), words.Allowed(k.name, GlassNames(y)))
		}
		if g.Scale != scale {
			return i, fault.Refuse("--glass %s: it is read with --%s, and --%s was given; allowed: one of that scale", k.glass.Quoted(), g.Scale.Name(), scale.Name())
		}
	}
	g.Scale = scale
	i = y.Complete(g)
	k.calibrate(b, s, g, &i)
	if k.division == nil {
		return i, nil
	}
	for _, t := range []struct {
		from *stepText
		to   *float64
	}{{k.division, &i.Division}, {k.offset, &i.Offset}, {k.offSure, &i.OffsetSure}} {
		if err = t.from.take(s, scale, t.to); err != nil {
			return i, err
		}
	}
	if k.division.given && !(i.Division > 0) {
		return i, fault.Refuse("--glass-division %s: marks lie apart; allowed: above 0", words.Quoted(k.division.text))
	}
	if i.OffsetSure < 0 {
		return i, fault.Refuse("--offset-sure %s: less than zero; allowed: 0 and above", words.Quoted(k.offSure.text))
	}
	k.tell(s, g, described)
	return i, nil
}

// calibrate sets the temperature of the marks: the flag's, else that of the glass or the yard.
func (k *instruments) calibrate(b *Set, s *Scope, g yard.Glass, i *gauge.Instrument) {
	if k.cal.Given() && i.Floats() {
		i.Calibration = float64(k.typedCal)
		return
	}
	k.place(b, s, g, i)
}

// place names where the calibration was said.
func (*instruments) place(b *Set, s *Scope, g yard.Glass, i *gauge.Instrument) {
	key := "hydrometer.calibration"
	if g.Calibration != 0 {
		key = "glass " + words.Quoted(g.Name)
	}
	if s.Yard != nil && (g.Calibration != 0 || s.Yard.Calibration != 0) {
		b.places[fault.FieldCalibration] = Place{path: s.Yard.Path, key: key, value: quantity.Temperature(i.Calibration)}
	}
}

// tell notes what was assumed of the instruments, and a check that is overdue.
func (k *instruments) tell(s *Scope, g yard.Glass, described bool) {
	if s.Quiet {
		return
	}
	v, y := show.View{System: s.System}, s.yardOrNone()
	division := k.division.given || described && g.Division != 0
	degrees := k.thermometer.Given() || y.Thermometer.Division != 0
	usual, thermometer := g.Scale.Quantity(g.Scale.Division()), quantity.Difference(gauge.UsualThermometer(s.System).Division)
	switch {
	case !division && !degrees:
		s.note(v.Say("Marks %v apart and a thermometer marked every %v were assumed: name yours in the yard file ([[glass]], [thermometer]).", usual, thermometer))
	case !division:
		s.note(v.Say("Marks %v apart were assumed: name yours in the yard file ([[glass]]), or with --glass-division.", usual))
	case !degrees:
		s.note(v.Say("A thermometer marked every %v was assumed: name yours in the yard file ([thermometer]), or with --thermometer-division.", thermometer))
	}
	checked, what := g.Checked, "Instrument "+words.Quoted(g.Name)
	if !described {
		checked, what = y.Checked, "The hydrometer"
	}
	for _, c := range []struct {
		what string
		at   time.Time
	}{{what, checked}, {"The thermometer", y.Thermometer.Checked}} {
		if yard.CheckDue(c.at, s.Now()) {
			s.note(v.Say("%s was last checked on %s, over a season ago: glass checks it.", c.what, c.at.Format(time.DateOnly)))
		}
	}
}

// reads is the thermometer.
func (k *instruments) reads(s *Scope) gauge.Thermometer {
	t := s.yardOrNone().Thermometer.Reads(s.System)
	if k.thermometer != nil && k.thermometer.Given() {
		t.Division = float64(k.degrees)
	}
	if t.Offset != 0 {
		s.note(show.View{System: s.System}.Say("The thermometer shows %v too much (yard file), which was taken off.", quantity.Difference(t.Offset)))
	}
	return t
}

// yardOrNone is the yard, or one of which nothing is said.
func (s *Scope) yardOrNone() *yard.Yard {
	if s.Yard == nil {
		return &yard.Yard{}
	}
	return s.Yard
}

// note adds to the notes, once.
func (s *Scope) note(text string) {
	if !slices.Contains(s.Notes, text) {
		s.Notes = append(s.Notes, text)
	}
}

// stepText is a flag for the difference of two readings. What it means is known once the scale is.
type stepText struct {
	name, text string
	given      bool
}

func bindStep(b *Set, name, usage string) *stepText {
	t := &stepText{name: name}
	b.flags.Var(t, name, usage)
	return t
}

func (t *stepText) take(s *Scope, scale gauge.Scale, to *float64) error {
	if !t.given {
		return nil
	}
	x, _, err := scale.ParseStep(s.System, t.text)
	if err != nil {
		return fault.Refuse("--%s %s: %v", t.name, words.Quoted(t.text), err)
	}
	*to = x
	return nil
}

// Set takes the text.
func (t *stepText) Set(text string) error {
	if t.given {
		return twice(t.text, text)
	}
	t.text, t.given = text, true
	return nil
}

// Reset takes back what was typed.
func (t *stepText) Reset() { t.text, t.given = "", false }

// String returns the words typed.
func (t *stepText) String() string { return t.text }

// Type names the kind of value in help.
func (t *stepText) Type() string { return "difference" }

// twice refuses a flag that was given before, as something else: the same once more changes nothing, and
// completion of a command line reads it twice.
func twice(before, text string) error {
	if before == text {
		return nil
	}
	return fault.Refuse("given twice, as %s and as %s; allowed: once", words.Quoted(before), words.Quoted(text))
}
