package bind

import (
	"fmt"
	"math"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/sure"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Tank is the tank that a request is about: one of the yard's by name, or volumes alone.
type Tank struct {
	Name   string
	Is     yard.Tank // as it stands; zero unless named
	name   *Text
	typed  *Value[quantity.Volume]
	clock  func() time.Time
	byFile bool // the volume is the yard file's
	stands bool // the volume is what stands in the tank, and not what it takes
	Stick  Stick
	Sized  func() bool // whether something else than a volume says how much; nil for nothing
}

// Given reports whether the tank was named.
func (t *Tank) Given() bool { return t.name.Given() }

// TypedVolume reports whether the volume was typed.
func (t *Tank) TypedVolume() bool { return t.typed.Given() }

// Known reports whether the tank was named, for --record.
func (t *Tank) Known(*Scope) bool { return t.name.Given() }

// Bind binds the tank with the volume in it, as the journal has it, else the yard file; and
// with what it can hold (0 when not known). It refuses a tank that holds something else than
// plain salt brine.
func (t *Tank) Bind(b *Set, volume, capacity *quantity.Volume, usage string) {
	t.bind(b, volume, capacity, usage, Entered(func(*yard.Yard) (*quantity.Volume, yard.Said) { return t.Is.Contents, t.Is.Said }))
}

// BindFull is Bind with the volume of a full batch, whatever stands in the tank.
func (t *Tank) BindFull(b *Set, volume, capacity *quantity.Volume, usage string) {
	t.bind(b, volume, capacity, usage)
}

func (t *Tank) bind(b *Set, volume, capacity *quantity.Volume, usage string, stands ...Source[quantity.Volume]) {
	t.stands = len(stands) > 0
	t.name = Name(b, &t.Name, "tank", "`name` of a tank in the yard file", TankNames)
	b.Then(t.find)
	if t.stands {
		t.Stick.Bind(b, "depth of it on the stick, instead of --volume", func() yard.Tank { return t.Is })
		stands = append([]Source[quantity.Volume]{t.Stick.Source()}, stands...)
	}
	key := func() string { return "tank " + t.name.Quoted() }
	file := KeyNamed(key, func() quantity.Volume { return t.Is.Usual() })
	b.Then(func(s *Scope) error {
		switch {
		case t.typed.Given() && t.Stick.Given():
			return fault.Refuse("--volume and --depth: two volumes; allowed: one of them")
		case t.Sized != nil && t.Sized(), t.typed.Given() || t.Stick.Given() || t.Is.Usual() > 0 || len(stands) > 0 && t.Is.Said.ByJournal():
			return nil
		case t.Given():
			return b.lackOfVolume(s, fault.Refuse("--volume is missing, and the yard file does not say what tank %s holds; allowed: like --volume 500gal", t.name.Quoted()))
		}
		none := fault.Refuse("no volume; allowed: --volume, like --volume 500gal, or --tank with a name from the yard file")
		return b.LackOfTank(s, none, b.lackOfVolume(s, none))
	})
	t.typed = Of(b, Volume, volume, "volume", usage, append(stands, file)...)
	b.Then(func(s *Scope) error {
		t.clock = s.Now
		t.byFile = len(stands) == 0 || !t.Is.Said.ByJournal()
		return nil
	})
	most := Of(b, Volume, capacity, "capacity", "what the tank can hold", KeyNamed(key, func() quantity.Volume { return t.Is.Capacity }))
	most.NotZero(b, "nothing", "above 0")
}

// find finds the tank as it stands.
func (t *Tank) find(s *Scope) (err error) {
	if t.Is = (yard.Tank{}); !t.Given() {
		return nil
	}
	if t.Is, err = s.Tank("tank", t.Name); err != nil {
		return err
	}
	t.Name = t.Is.Name
	return s.holdsBrine(t.Is)
}

// Source says behind the volume, in brackets, who said it; nothing where it was typed.
func (t *Tank) Source(v show.View) string {
	switch {
	case t.Stick.Given():
		return t.Stick.Said(v)
	case t.typed.Given() || !t.Given():
		return ""
	case t.byFile:
		return v.Source(yard.Said{}, t.clock())
	}
	return v.Source(t.Is.Said, t.clock())
}

// Strength takes the true strength of what stands in the tank, by the journal or the yard file.
func (t *Tank) Strength() Source[quantity.Strength] {
	return func(_ string, s *Scope) (w quantity.Strength, place Place, found bool) {
		if t.Is.Liquid == nil {
			return w, place, false
		}
		w, found = t.Is.Liquid.Strength()
		return w, Place{words: fmt.Sprintf("tank %s (%s): %v", words.Quoted(t.Name), show.SourceText(t.Is.Said, s.Now()), w.In(s.System))}, found
	}
}

// Sureness is what the last reading leaves open of the strength that stands in the tank; nothing where
// another strength is meant.
func (t *Tank) Sureness(w quantity.Strength) sure.Budget {
	if t.Is.Liquid == nil || t.Is.High == 0 {
		return sure.Budget{}
	}
	if stands, plain := t.Is.Liquid.Strength(); !plain || stands != w {
		return sure.Budget{}
	}
	return sure.Budget{Mixing: float64(t.Is.High-t.Is.Low) / 2}
}

// StrengthSource is Source for the strength of what stands in the tank; typed tells that it was
// typed or read.
func (t *Tank) StrengthSource(v show.View, typed bool) string {
	if typed || !t.Given() {
		return ""
	}
	return t.StandsBy(v)
}

// StandsBy says in brackets, behind a space, who said what stands in the tank.
func (t *Tank) StandsBy(v show.View) string { return v.Source(t.Is.Said, t.clock()) }

// levelAllowed is the part by which a typed volume may depart from the journal's without a word, as
// a count may. Common practice, no source.
const levelAllowed = 0.05

// Doubt says in a sentence why the volume may be wrong; nothing where nothing contradicts it.
func (t *Tank) Doubt(v show.View) string {
	switch {
	case t.typed.Given() || t.Stick.Given():
		return t.otherwise(v)
	case t.byFile:
		return ""
	}
	return v.Doubt(t.Name, t.Is.Said, t.clock())
}

// otherwise tells of a typed volume that the journal contradicts.
func (t *Tank) otherwise(v show.View) string {
	typed, has := t.typed.typed, t.Is.Contents
	if t.Stick.Given() {
		typed = t.Stick.Result.Volume
	}
	if !t.stands || !t.Is.Said.ByJournal() || has == nil || math.Abs(float64(typed-*has)) <= levelAllowed*float64(max(typed, *has)) {
		return ""
	}
	if t.Stick.Given() {
		return v.Say("The stick tells %v, and %s holds %v%s: something was not recorded.", typed, t.Name, *has, t.StandsBy(v))
	}
	return v.Say("%v was typed, and %s holds %v%s: look at the level before you act.", typed, t.Name, *has, t.StandsBy(v))
}

// DoubtBy is Doubt where a reading has just shown the true strength: it may contradict what the
// journal says stands in the tank.
func (t *Tank) DoubtBy(v show.View, read quantity.Strength) string {
	if t.typed.Given() || t.Stick.Given() || t.byFile || t.Is.Liquid == nil {
		return t.Doubt(v)
	}
	if expected, plain := t.Is.Liquid.Strength(); plain && t.Is.Held() > 0 && t.Is.Said.Contradicted(read, expected) {
		return v.Say("The journal has %v brine in %s, and this reading makes it %v: something was not recorded, so look at the level before you act.", expected, t.Name, read)
	}
	return t.Doubt(v)
}

// Tank finds a tank of the yard as it stands; flag is what named it.
func (s *Scope) Tank(flag, name string) (yard.Tank, error) {
	if s.Yard == nil {
		return yard.Tank{}, fault.Refuse("--%s %s: there is no yard file; allowed: --yard with a file", flag, words.Quoted(name))
	}
	if t, ok := s.tank(name); ok {
		return t, nil
	}
	return yard.Tank{}, fault.Refuse("--%s %s: no such tank in %s; %s", flag, words.Quoted(name), s.Yard.Path, words.Allowed(name, TankNames(s.Yard)))
}

// tank finds a tank of the yard as it stands, whatever way its name was typed.
func (s *Scope) tank(name string) (t yard.Tank, ok bool) {
	if s.Yard == nil {
		return t, false
	}
	if name, ok = words.Match(name, TankNames(s.Yard)); !ok {
		return t, false
	}
	return s.Standing().Tank(name)
}

// IsTank reports whether the yard has a tank that can be meant by a name.
func (s *Scope) IsTank(name string) bool {
	if s.Yard == nil {
		return false
	}
	_, ok := words.Match(name, TankNames(s.Yard))
	return ok
}

func (s *Scope) holdsBrine(t yard.Tank) error {
	if t.HoldsBrine() {
		return nil
	}
	view := show.View{System: s.System}
	by := s.Yard.Path
	if t.Said.ByJournal() {
		by = fmt.Sprintf("%s, entry %d,", s.Standing().Journal, t.Said.Entry)
	}
	return fault.Refuse("--tank %s: %s says it holds %s (%s), which a reading in salt does not judge; allowed: a tank of salt brine, or blend and store",
		words.Quoted(t.Name), by, t.Liquid.Name, view.CompositionText(*t.Liquid))
}
