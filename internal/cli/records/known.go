package records

import (
	"fmt"
	"slices"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// knownNames refuses names that the yard file does not have. A nil yard has no file.
func knownNames(y *yard.Yard, e *journal.Entry) error {
	if y == nil {
		return nil
	}
	tanks := bind.TankNames(y)
	if e.Kind == journal.Count {
		tanks = append(tanks, journal.Pile)
	}
	for _, n := range []struct {
		flag, name string
		known      []string
	}{
		{"tank", e.Tank, tanks}, {"from", e.From, tanks},
		{"truck", e.Truck, bind.TruckNames(y)}, {"route", e.Route, bind.RouteNames(y)}, {"liquid", e.Liquid, bind.LiquidNames(y)},
	} {
		if n.name != "" && !slices.Contains(n.known, n.name) {
			return fmt.Errorf("%s %s: not in %s; %s", n.flag, words.Quoted(n.name), y.Path, words.Allowed(n.name, n.known))
		}
	}
	return nil
}

// fits refuses what is to come, and what the yard file contradicts.
func fits(s *run.Session, e *journal.Entry) error {
	switch {
	case toCome(e.Time, s.Env.Now()):
		return fault.Refuse("--at %s: that is to come; allowed: up to now", e.Time.Format(minuteLayout))
	case s.Yard == nil:
		return nil
	case e.Kind == journal.Load:
		return fitsTruck(s, e)
	case e.Kind == journal.Batch:
		return fitsMixingTank(s, e)
	case e.Kind == journal.Count && e.Salt != nil && e.Tank != "" && e.Tank != journal.Pile:
		return fitsBed(s, e)
	}
	return nil
}

// fitsTruck refuses a load larger than the truck's tank.
func fitsTruck(s *run.Session, e *journal.Entry) error {
	for _, t := range s.Yard.Trucks {
		if t.Name == e.Truck && e.Volume != nil && t.Tank > 0 && *e.Volume > t.Tank {
			return fault.Refuse("--volume: more than the tank of truck %s can hold; allowed: up to %v", words.Quoted(e.Truck), t.Tank.In(s.View.System))
		}
	}
	return nil
}

// fitsBed refuses a count of salt in a tank that has no bed.
func fitsBed(s *run.Session, e *journal.Entry) error {
	if t, known := s.Yard.Tank(e.Tank); known && !t.Mixing {
		return fault.Refuse("--tank %s: no mixing tank, so no bed lies in it: a count of salt is that of the pile, or of a bed; allowed: no tank, pile, or a mixing tank", words.Quoted(e.Tank))
	}
	return nil
}

// fitsMixingTank refuses a batch in a tank in which none is made, or more than it holds.
func fitsMixingTank(s *run.Session, e *journal.Entry) error {
	t, known := s.Yard.Tank(e.Tank)
	switch {
	case !known:
		return nil
	case !t.Mixing:
		return fault.Refuse("--tank %s: no mixing tank, and a batch is made in one; allowed: a mixing tank of the yard file", words.Quoted(e.Tank))
	case e.Volume != nil && t.Capacity > 0 && *e.Volume > t.Capacity:
		return fault.Refuse("--volume: more than tank %s can hold; allowed: up to %v", words.Quoted(e.Tank), t.Capacity.In(s.View.System))
	}
	return nil
}
