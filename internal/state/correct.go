package state

import (
	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// correct adds salt, water or a volume of a liquid to a tank.
func (s *State) correct(e *journal.Entry) {
	var from *Stock
	outside, known := balance.Liquid{}, false
	if e.Volume != nil && e.From == "" && composed(e) {
		outside, known = s.liquidOf(e)
	} else if e.Volume != nil {
		from = s.source(e)
	}
	switch {
	case e.Tank == "" || e.Tank == e.From:
		s.leaveOut(e, "a correction without its tank: left out")
		return
	case e.Salt == nil && e.Water == nil && e.Volume == nil:
		s.leaveOut(e, "a correction with nothing: left out")
		return
	case e.Volume != nil && !known && from == nil:
		s.leaveOut(e, "a correction with a liquid of which neither the row nor the yard file says what it is: left out")
		return
	}
	t := s.tank(e.Tank)
	s.touch(&t.Stock)
	s.effect.Liquid = t.Liquid.Name
	if e.Salt != nil || e.Water != nil {
		s.putInto(e, t, PutIn)
	}
	switch {
	case known:
		v := filled(outside, *e.Volume)
		s.part(Outside, outside.Name, *e.Volume, v.Masses())
		s.countUsed(outside.Name, *e.Volume)
		t.add(v, true)
	case from != nil:
		s.countUsed(from.Liquid.Name, *e.Volume)
		v := s.draw(e, from, *e.Volume)
		t.add(v, from.Sure)
	}
	t.open.correctedAt(e)
	s.fits(e, &t.Stock)
}

// filled is a volume of a sound liquid.
func filled(l balance.Liquid, v quantity.Volume) balance.Vessel {
	vessel, err := balance.Fill(l, v, measuredAt)
	if err != nil {
		panic(err) // a check is missing; TestAnyEntry draws entries against that
	}
	return vessel
}

// putInto adds the salt and the water of an entry to a tank, and returns what they changed in
// it. What does not dissolve lies on the bed.
func (s *State) putInto(e *journal.Entry, t *Tank, c Class) balance.Masses {
	before, had := t.Masses(), t.Volume()
	if e.Water != nil {
		t.add(balance.Water().Brings(e.Water.Mass(s.fresh)), true)
		s.effect.Water = *e.Water
	}
	if e.Salt != nil {
		s.dissolve(e, t, *e.Salt)
	}
	gain := t.Masses().Minus(before)
	v := t.Volume() - had
	if c == Made {
		s.effect.Volume = v
	}
	s.part(c, t.Liquid.Name, v, gain)
	return gain
}

// dissolve puts salt off the pile into a tank.
func (s *State) dissolve(e *journal.Entry, t *Tank, salt quantity.Mass) {
	stands := t.Masses()
	perKg := s.PileSalt.SodiumChloride()
	// NaCl + x perKg = full (water + x moisture)
	most := (s.full*stands.Water - stands.NaCl) / (perKg - s.full*float64(s.PileSalt.Moisture))
	dissolved := max(0, min(salt, quantity.Mass(most)))
	before := t.Stock
	t.add(s.PileSalt.Addition().Brings(dissolved), true)
	if !sound(t.Liquid) { // other salts take up the water
		t.Stock, dissolved = before, 0
	}
	s.effect.NaCl = quantity.Mass(float64(dissolved) * perKg)
	if dissolved < salt {
		s.ontoBed(e, t, salt-dissolved)
	}
	s.usePile(e, t, salt)
}
