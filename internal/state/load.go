package state

import (
	"slices"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/yard"
)

// Truck is a truck as the entries so far leave it. What it was loaded with stands in it until it
// is unloaded, or loaded anew: then it was laid.
type Truck struct {
	Stock
	Route   string    // that it was loaded for; empty where the row did not say
	Loaded  time.Time // the last row of its truckload; zero for none
	counted bool      // since it was loaded, so that something is left in it
	blend   string
	sources []string // of the truckload
}

// truck finds a truck, or begins one of which nothing is known.
func (s *State) truck(name string) *Truck {
	k := s.trucks[name]
	if k == nil {
		described, _ := s.yard.Truck(name)
		k = &Truck{Stock: Stock{Name: name, takes: described.Tank}}
		s.trucks[name] = k
	}
	return k
}

// loadedWithin is the time within which the rows of one blended truckload, a row for each
// tank, follow one another. Common practice, no source.
const loadedWithin = time.Hour

// continues reports whether a row is a further part of the truckload: the same route and blend
// out of another place. If it is not, a new truckload begins with it.
func (k *Truck) continues(e *journal.Entry) bool {
	from := e.From
	same := len(k.sources) > 0 && e.Liquid != "" && k.blend == e.Liquid && k.Route == e.Route &&
		!slices.Contains(k.sources, from) && e.Time.Sub(k.Loaded) <= loadedWithin
	if !same {
		k.sources = k.sources[:0]
	}
	k.sources = append(k.sources, from)
	k.blend, k.Route, k.Loaded = e.Liquid, e.Route, e.Time
	return same
}

// load takes a volume out of a tank, or dry salt off the pile, and out of the yard. It counts as
// laid until the truck brings it back.
func (s *State) load(e *journal.Entry) {
	if e.Volume == nil && e.Salt == nil {
		s.leaveOut(e, "a load without a volume or salt: left out")
		return
	}
	var from *Stock
	if e.Volume != nil {
		if from = s.source(e); from == nil {
			s.leaveOut(e, "a load of which neither the row nor the yard file says what it is: left out")
			return
		}
	}
	s.effect.Route = e.Route
	if e.Truck != "" {
		s.effect.Continues = s.truck(e.Truck).continues(e)
	}
	if e.Salt != nil {
		s.movePile(e, Laid, -*e.Salt)
	}
	if from == nil {
		return
	}
	s.countUsed(from.Liquid.Name, *e.Volume)
	out := s.takeOut(e, from, Laid, e.Liquid)
	if e.Truck != "" {
		s.fill(e, s.truck(e.Truck), out, from.Sure)
	}
}

// fill puts what was loaded on a truck. What was on it before was laid, but for what a count
// said was left, and for the earlier rows of the truckload.
func (s *State) fill(e *journal.Entry, k *Truck, load balance.Vessel, sure bool) {
	if !k.counted && !s.effect.Continues {
		k.Mass = 0
	}
	k.Known, k.counted = true, false
	k.add(load, sure)
	k.Said = saidBy(e)
	s.fits(e, &k.Stock)
}

// unload takes a volume off a truck back into a tank, and off what was laid. The truck is empty
// then.
func (s *State) unload(e *journal.Entry) {
	if e.Volume == nil || e.Tank == "" || e.Truck == "" {
		s.leaveOut(e, "an unload without volume, tank or truck: left out")
		return
	}
	k := s.truck(e.Truck)
	if !k.told {
		s.leaveOut(e, "nothing says what was on "+k.Name+"; a load or a count before it would: left out")
		return
	}
	t := s.tank(e.Tank)
	s.touch(&t.Stock)
	s.effect.Route = k.Route
	if e.Route != "" {
		s.effect.Route = e.Route
	}
	had, name := k.Volume(), k.Liquid.Name
	back := min(had, *e.Volume)
	off := filled(k.Liquid, back)
	s.part(Laid, name, back, off.Masses())
	if short := *e.Volume - back; short > 0 {
		lacking := filled(k.Liquid, short)
		s.part(Unexplained, name, short, lacking.Masses())
		off.Mass += lacking.Mass
		if *e.Volume > had*(1+slack) {
			s.cannot(e, k.Name+" held %v by the entries, and %v were unloaded: the difference is not explained", had, *e.Volume)
		}
	}
	t.add(off, k.Sure)
	s.fits(e, &t.Stock)
	k.Mass, k.Known, k.counted, k.sources = 0, true, false, k.sources[:0]
	k.Said = saidBy(e)
}

// aboard is what stands on a truck.
func (k *Truck) aboard() *yard.Held {
	if !k.Known || !k.Sure {
		return nil
	}
	return &yard.Held{Volume: k.Volume(), Liquid: k.Liquid, Said: k.Said}
}
