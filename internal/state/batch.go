package state

import (
	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// heelAtMost is the part of a batch up to which what stood in the tank passes for its heel.
// Common practice, no source.
const heelAtMost = 0.5

// batch takes the tank to what was measured in it; where nothing was measured, it adds what
// was put in.
func (s *State) batch(e *journal.Entry) {
	l, known := s.liquidOf(e)
	measured := e.Volume != nil && known
	switch {
	case e.Tank == "":
		s.leaveOut(e, "a batch without its tank: left out")
		return
	case !measured && e.Salt == nil && e.Water == nil:
		s.leaveOut(e, "a batch without volume and strength, or salt and water: left out")
		return
	}
	t := s.tank(e.Tank)
	s.touch(&t.Stock)
	if t.First.IsZero() {
		t.First = e.Time
	}
	var made balance.Masses
	if measured {
		made = s.measured(e, t, l)
	} else {
		made = s.putInto(e, t, Made)
	}
	f := &s.effect
	f.Liquid = t.Liquid.Name
	t.Made += max(0, f.Volume)
	t.MadeInAll += max(0, f.Volume)
	if measured {
		s.ingredients(e, t, made)
		t.passed(e)
	}
	t.settled()
	t.open = openBatch{entry: e.Number, since: e.Time, mixed: e.Time, salted: e.Salt != nil}
	s.fits(e, &t.Stock)
}

// measured makes the tank hold what was measured, and returns what was made.
func (s *State) measured(e *journal.Entry, t *Tank, l balance.Liquid) balance.Masses {
	before, had := t.Masses(), t.Volume()
	if had > heelAtMost**e.Volume {
		s.problem(e, t.Name+" still held %v by the entries, too much for a heel: taken as gone, by a transfer or a load that was not recorded", had)
		s.part(Gone, t.Liquid.Name, -had, before.Times(-1))
		before, had = balance.Masses{}, 0
	}
	t.set(l, *e.Volume)
	made := t.Masses().Minus(before)
	s.effect.Volume = *e.Volume - had
	s.part(Made, l.Name, s.effect.Volume, made)
	return made
}

// ingredients takes the rock salt of a measured batch off the pile, and the fresh water out of
// the supply: as recorded, else by the masses of what was made. The moisture of the salt is water
// that was not run in. Salt that was put in and is not in the brine lies on the bed; brine
// that holds more salt took it off the bed.
func (s *State) ingredients(e *journal.Entry, t *Tank, made balance.Masses) {
	perKg := s.PileSalt.SodiumChloride()
	inBrine := max(0, made.NaCl)
	salt := quantity.Mass(inBrine / perKg)
	if e.Salt != nil {
		salt = *e.Salt
		s.ontoBed(e, t, salt-quantity.Mass(inBrine/perKg))
	}
	s.effect.NaCl = quantity.Mass(inBrine)
	s.usePile(e, t, salt)
	if e.Water != nil {
		s.effect.Water = *e.Water
		return
	}
	runIn := made.Water - float64(salt.Times(s.PileSalt.Moisture))
	s.effect.Water = quantity.Mass(max(0, runIn)).Volume(s.fresh)
}

// ontoBed adds salt to the bed of a tank, or takes it off; there is never less than none.
func (s *State) ontoBed(e *journal.Entry, t *Tank, salt quantity.Mass) {
	before := t.OnFloor
	if t.OnFloor = max(0, before+salt); t.OnFloor != before {
		t.FloorSaid = saidBy(e)
	}
	s.effect.Bed += quantity.Mass(float64(t.OnFloor-before) * s.PileSalt.SodiumChloride())
	if most := t.floorTakes; most > 0 && t.OnFloor > most && before <= most {
		s.problem(e, "the bed of "+t.Name+" would hold %v of salt by the entries, and takes %v; a count of it would tell", t.OnFloor, most)
	}
}

// usePile takes salt off the pile into a tank. Its insoluble part stays there.
func (s *State) usePile(e *journal.Entry, t *Tank, salt quantity.Mass) {
	t.Insolubles += quantity.Mass(float64(salt) * s.PileSalt.Insoluble())
	s.movePile(e, Made, -salt)
}
