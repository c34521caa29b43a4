package bind

import (
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Tank is the tank that a request is about: one of the yard's by name, or volumes alone.
type Tank struct {
	Name string
	Is   yard.Tank // zero unless named
	name *Text
}

// Given reports whether the tank was named.
func (t *Tank) Given() bool { return t.name.Given() }

// Known reports whether the tank was named, for --record.
func (t *Tank) Known(*Scope) bool { return t.name.Given() }

// Bind binds the tank with the volume in it, and with what it can hold (0 when not known).
// It refuses a tank that holds something else than plain salt brine.
func (t *Tank) Bind(b *Set, volume, capacity *quantity.Volume, usage string) {
	t.name = Name(b, &t.Name, "tank", "`name` of a tank in the yard file", TankNames)
	b.Then(func(s *Scope) (err error) {
		if t.Is = (yard.Tank{}); !t.Given() {
			return nil
		}
		if t.Is, err = s.Tank("tank", t.Name); err != nil {
			return err
		}
		return s.holdsBrine(t.Is)
	})
	key := func() string { return "tank " + t.name.Quoted() }
	var typed *Value[quantity.Volume]
	b.Then(func(*Scope) error {
		switch {
		case typed.Given() || t.Is.Usual() > 0:
			return nil
		case t.Given():
			return fault.Refuse("--volume is missing, and the yard file does not say what tank %s holds; allowed: like --volume 500gal", t.name.Quoted())
		}
		return fault.Refuse("no volume; allowed: --volume, like --volume 500gal, or --tank with a name from the yard file")
	})
	typed = Of(b, Volume, volume, "volume", usage, KeyNamed(key, func() quantity.Volume { return t.Is.Usual() }))
	most := Of(b, Volume, capacity, "capacity", "what the tank can hold", KeyNamed(key, func() quantity.Volume { return t.Is.Capacity }))
	most.NotZero(b, "nothing", "above 0")
}

// Tank finds a tank of the yard file; flag is what named it.
func (s *Scope) Tank(flag, name string) (yard.Tank, error) {
	if s.Yard == nil {
		return yard.Tank{}, fault.Refuse("--%s %s: there is no yard file; allowed: --yard with a file", flag, words.Quoted(name))
	}
	if t, ok := s.Yard.Tank(name); ok {
		return t, nil
	}
	for _, t := range s.Yard.Tanks {
		if strings.EqualFold(t.Name, name) {
			return t, nil
		}
	}
	return yard.Tank{}, fault.Refuse("--%s %s: no such tank in %s; %s", flag, words.Quoted(name), s.Yard.Path, words.Allowed(name, TankNames(s.Yard)))
}

// IsTank reports whether the yard has a tank of that name.
func (s *Scope) IsTank(name string) bool {
	if s.Yard == nil {
		return false
	}
	_, ok := s.Yard.Tank(name)
	return ok
}

func (s *Scope) holdsBrine(t yard.Tank) error {
	if t.HoldsBrine() {
		return nil
	}
	view := show.View{System: s.System}
	return fault.Refuse("--tank %s: %s says it holds %s (%s), which a reading in salt does not judge; allowed: a tank of salt brine, or blend and store",
		words.Quoted(t.Name), s.Yard.Path, t.Liquid.Name, view.CompositionText(*t.Liquid))
}
