package state

import (
	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// transfer moves a volume from one tank into another.
func (s *State) transfer(e *journal.Entry) Effect {
	if e.Volume == nil || e.From == "" || e.Tank == "" {
		s.problem(e, "a transfer without volume or tanks: left out")
		return Effect{}
	}
	var f Effect
	from, to := s.tank(e.From), s.tank(e.Tank)
	if to.Mass > 0 && to.Liquid.Name != from.Liquid.Name {
		s.countUsed(&f, from.Liquid.Name, *e.Volume)
	}
	to.add(s.draw(e, from))
	s.checkCapacity(e, to)
	return f
}

// load takes a volume out of a tank and out of the yard.
func (s *State) load(e *journal.Entry) Effect {
	if e.Volume == nil {
		s.problem(e, "a load without a volume: left out")
		return Effect{}
	}
	t := s.tank(e.From)
	f := Effect{Volume: min(*e.Volume, t.Volume()), Liquid: e.Liquid}
	if f.Liquid == "" {
		f.Liquid = t.Liquid.Name
	}
	s.countUsed(&f, t.Liquid.Name, f.Volume)
	f.Into = s.draw(e, t).Masses().Times(-1)
	return f
}

// deliver adds salt to the pile, or a liquid to a tank.
func (s *State) deliver(e *journal.Entry) Effect {
	if e.Salt != nil {
		s.Pile += *e.Salt
		s.PileKnown = true
		return Effect{Delivered: *e.Salt}
	}
	l, known := s.liquidOf(e)
	if e.Volume == nil || !known {
		s.problem(e, "a delivery of a liquid of which neither the row nor the yard file says what it is: left out")
		return Effect{}
	}
	v, err := balance.Fill(l, *e.Volume, measuredAt)
	if err != nil {
		return Effect{}
	}
	t := s.tank(e.Tank)
	t.add(v)
	s.checkCapacity(e, t)
	return Effect{Into: v.Masses(), Volume: *e.Volume, Liquid: l.Name}
}

// countUsed notes what is taken of a liquid, if the yard buys it.
func (s *State) countUsed(f *Effect, liquid string, v quantity.Volume) {
	if _, bought := s.liquids[liquid]; bought && liquid != balance.BrineName {
		f.Used, f.UsedLiquid = v, liquid
	}
}

// draw takes the volume of an entry out of a tank, or what the tank holds if that is less.
func (s *State) draw(e *journal.Entry, from *Tank) balance.Vessel {
	had := from.Volume()
	// Gallons are read to whole ones.
	const slack = 1e-3
	switch {
	case !from.Known:
		s.problem(e, "nothing says what was in "+from.Name+"; a count before it would")
		return from.Draw(0)
	case *e.Volume > had*(1+slack):
		s.cannot(e, from.Name+" held %v by the entries, and %v were taken out: only what it held is counted", had, *e.Volume)
		return from.Draw(from.Mass)
	case had == 0:
		return from.Draw(0)
	}
	return from.Draw(from.Mass * quantity.Mass(min(1, float64(*e.Volume/had))))
}

// checkCapacity flags a tank that would have run over.
func (s *State) checkCapacity(e *journal.Entry, t *Tank) {
	const slack = 1.001 // volumes are read to whole gallons
	most := s.capacity[t.Name]
	if most == 0 {
		return
	}
	if v := t.Volume(); v > most*slack {
		s.cannot(e, t.Name+" would hold %v by the entries, and its capacity is %v", v, most)
	}
}

// liquidOf returns what a row says a liquid is: its composition, else the yard's liquid of
// its name.
func (s *State) liquidOf(e *journal.Entry) (balance.Liquid, bool) {
	if e.NaCl == nil && e.KCl == nil && e.CaCl2 == nil && e.MgCl2 == nil {
		l, ok := s.liquids[e.Liquid]
		return l, ok
	}
	share := func(p *quantity.Strength) float64 {
		if p == nil {
			return 0
		}
		return float64(*p)
	}
	l := balance.Liquid{Name: e.Liquid, Composition: solution.Composition{
		NaCl: share(e.NaCl), KCl: share(e.KCl), CaCl2: share(e.CaCl2), MgCl2: share(e.MgCl2),
	}}
	if _, plain := l.Strength(); plain && l.Name == "" {
		l.Name = balance.BrineName
	}
	return l, l.Composition.Check() == nil
}
