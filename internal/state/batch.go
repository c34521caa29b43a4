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
func (s *State) batch(e *journal.Entry) Effect {
	t := s.tank(e.Tank)
	if t.First.IsZero() {
		t.First = e.Time
	}
	before, had := t.Masses(), t.Volume()
	l, known := s.liquidOf(e)
	measured := e.Volume != nil && known
	switch {
	case measured:
		t.set(l, *e.Volume)
	case e.Salt != nil || e.Water != nil:
		s.addPutIn(t, e)
	default:
		s.problem(e, "a batch without volume and strength, or salt and water: left out")
		return Effect{}
	}
	f := Effect{Into: t.Masses().Minus(before), Volume: t.Volume() - had, Liquid: t.Liquid.Name}
	made := f.Into
	if measured && had > heelAtMost**e.Volume {
		s.problem(e, t.Name+" still held %v by the entries, too much for a heel: taken as gone, by a transfer or a load that was not recorded", had)
		made, f.Volume = t.Masses(), t.Volume()
	}
	f.NaCl = quantity.Mass(made.NaCl)
	f.Salt, f.Water = s.ingredients(e, made)
	s.usePile(t, f.Salt)
	t.Made += max(0, f.Volume)
	s.checkCapacity(e, t)
	return f
}

// ingredients returns the rock salt and the fresh water of what was made: as recorded, else
// by its masses. The moisture of the salt is water that was not run in.
func (s *State) ingredients(e *journal.Entry, made balance.Masses) (quantity.Mass, quantity.Volume) {
	salt := quantity.Mass(max(0, made.NaCl) / s.rock.SodiumChloride())
	if e.Salt != nil {
		salt = *e.Salt
	}
	if e.Water != nil {
		return salt, *e.Water
	}
	if s.fresh == 0 {
		return salt, 0
	}
	runIn := made.Water - float64(salt.Times(s.rock.Moisture))
	return salt, quantity.Mass(max(0, runIn)).Volume(s.fresh)
}

// correct adds salt, water or a volume of a liquid to a tank.
func (s *State) correct(e *journal.Entry) Effect {
	t := s.tank(e.Tank)
	before := t.Masses()
	f := Effect{Liquid: t.Liquid.Name}
	s.addPutIn(t, e)
	if e.Salt != nil {
		f.Salt = *e.Salt
		f.NaCl = quantity.Mass(float64(f.Salt) * s.rock.SodiumChloride())
		s.usePile(t, f.Salt)
	}
	if e.Water != nil {
		f.Water = *e.Water
	}
	if e.From == "" && e.Volume != nil {
		s.addOutside(t, e)
		s.countUsed(&f, e.Liquid, *e.Volume)
	}
	f.Into = t.Masses().Minus(before)
	if e.From != "" && e.Volume != nil {
		from := s.tank(e.From)
		s.countUsed(&f, from.Liquid.Name, *e.Volume)
		t.add(s.draw(e, from))
	}
	s.checkCapacity(e, t)
	return f
}

// addPutIn adds the salt and the water of an entry to a tank.
func (s *State) addPutIn(t *Tank, e *journal.Entry) {
	if e.Salt != nil {
		t.add(s.rock.Addition().Brings(*e.Salt))
	}
	if e.Water != nil {
		t.add(balance.Water().Brings(e.Water.Mass(s.fresh)))
	}
}

// usePile takes salt off the pile. Its insoluble part stays in the tank.
func (s *State) usePile(t *Tank, salt quantity.Mass) {
	s.Pile -= salt
	t.Insolubles += quantity.Mass(float64(salt) * s.rock.Insoluble())
}

// addOutside adds a liquid that comes from no tank of the yard.
func (s *State) addOutside(t *Tank, e *journal.Entry) {
	l, known := s.liquidOf(e)
	v, err := balance.Fill(l, *e.Volume, measuredAt)
	if !known || err != nil {
		s.problem(e, "a correction with a liquid of which neither the row nor the yard file says what it is: left out")
		return
	}
	t.add(v)
}
