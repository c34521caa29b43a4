package state

import (
	"brineyard/internal/balance"
	"brineyard/internal/journal"
)

// transfer moves a volume from one tank into another.
func (s *State) transfer(e *journal.Entry) {
	if e.Volume == nil || e.From == "" || e.Tank == "" || e.From == e.Tank {
		s.leaveOut(e, "a transfer without volume or tanks: left out")
		return
	}
	from, to := s.tank(e.From), s.tank(e.Tank)
	if to.Mass > 0 && to.Liquid.Name != from.Liquid.Name {
		s.countUsed(from.Liquid.Name, *e.Volume)
	}
	s.touch(&to.Stock)
	from.open.drawn(*e.Volume, from.Volume())
	v := s.draw(e, &from.Stock, *e.Volume)
	s.effect.Moved, s.effect.MovedLiquid = *e.Volume, v.Liquid.Name
	to.add(v, from.Sure)
	s.fits(e, &to.Stock)
}

// gone takes what left the yard otherwise than on the road: salt off the pile, or a volume.
func (s *State) gone(e *journal.Entry, c Class) {
	if e.Salt != nil {
		s.movePile(e, c, -*e.Salt)
		return
	}
	if e.Volume == nil {
		s.leaveOut(e, "a "+string(e.Kind)+" of nothing: left out")
		return
	}
	from := s.source(e)
	if from == nil {
		s.leaveOut(e, "a "+string(e.Kind)+" of which neither the row nor the yard file says what it is: left out")
		return
	}
	s.takeOut(e, from, c, from.Liquid.Name)
}

// takeOut takes the volume of an entry out of the yard, under the name of a liquid.
func (s *State) takeOut(e *journal.Entry, from *Stock, c Class, name string) balance.Vessel {
	if t := s.tanks[e.From]; t != nil {
		t.open.drawn(*e.Volume, t.Volume())
	}
	out := s.draw(e, from, *e.Volume)
	if name == "" {
		name = out.Liquid.Name
	}
	s.part(c, name, -*e.Volume, out.Masses().Times(-1))
	out.Liquid.Name = name
	return out
}

// deliver adds salt to the pile, or a liquid to a tank or to what stands beside the tanks.
func (s *State) deliver(e *journal.Entry) {
	if e.Salt != nil {
		s.deliverSalt(e)
		return
	}
	l, known := s.liquidOf(e)
	if e.Volume == nil || !known || e.Tank == "" && e.Liquid == "" {
		s.leaveOut(e, "a delivery of a liquid of which neither the row nor the yard file says what it is: left out")
		return
	}
	var to *Stock
	if e.Tank != "" {
		to = &s.tank(e.Tank).Stock
	} else {
		to = s.besideOf(e.Liquid, l)
	}
	v := filled(l, *e.Volume)
	s.touch(to)
	to.add(v, true)
	s.part(Delivered, l.Name, *e.Volume, v.Masses())
	s.arrived(e.Liquid, float64(*e.Volume))
	s.fits(e, to)
}

// rinse leaves a line with water in it; the water may have gone into a tank.
func (s *State) rinse(e *journal.Entry) {
	if e.Line == "" {
		s.leaveOut(e, "a rinse without its line: left out")
		return
	}
	s.weaken(e)
	if e.Water == nil {
		return
	}
	s.effect.Water = *e.Water
	if e.Tank == "" {
		return
	}
	t := s.touch(&s.tank(e.Tank).Stock)
	before, had := t.Masses(), t.Volume()
	t.add(balance.Water().Brings(e.Water.Mass(s.fresh)), true)
	s.part(Rinsed, t.Liquid.Name, t.Volume()-had, t.Masses().Minus(before))
	s.fits(e, t)
}
