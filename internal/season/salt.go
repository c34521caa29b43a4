package season

import (
	"brineyard/internal/quantity"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

// SaltBalance sets the salt that left the pile against the salt in the brine made.
type SaltBalance struct {
	Rock                        yard.RockSalt // the mean of what was gone
	Opening, Delivered, Closing quantity.Mass // of the pile, as delivered
	Gone                        quantity.Mass // opening + delivered - closing
	// Counted is set when two counts of the pile bound the period. Otherwise opening and closing
	// are what the entries lead to. Where nothing was known of the pile before its first count,
	// the opening is reckoned back from that.
	Counted bool
	InBrine quantity.Mass // NaCl in the brine made and added in corrections
	// Elsewhere is NaCl that went neither into brine nor astray: spread dry, spilled, sold, lent,
	// given, or OnBeds.
	Elsewhere quantity.Mass
	OnBeds    quantity.Mass // NaCl that was put in and did not dissolve; negative for what did since
	// Moisture is water in the salt, and Insolubles do not dissolve: both explain a part.
	Moisture, Insolubles quantity.Mass
	// Unexplained is what is left; below nothing when the brine holds more salt than left
	// the pile.
	Unexplained quantity.Mass
}

// saltAllowed is the part of the salt gone that may stay unexplained: a loader's bucket
// is known no better. Common practice, no source.
const saltAllowed = 0.05

// Explains reports whether what is not explained means anything: not where there was more salt
// than was ever counted or delivered.
func (b SaltBalance) Explains() bool { return b.Counted || b.Closing >= 0 }

// Notable reports whether the unexplained part is worth a search.
func (b SaltBalance) Notable() bool {
	most := saltAllowed * b.Gone
	return b.Unexplained > most || b.Unexplained < -most
}

// saltTally collects the balance.
type saltTally struct {
	opening              quantity.Mass // before the first entry
	delivered, inBrine   quantity.Mass
	onBeds, elsewhere    quantity.Mass
	water, pure          quantity.Mass // in the salt gone
	gone                 quantity.Mass
	moved                bool // salt came or left
	counts               int
	countFirst, countEnd bool // a count came before, or after, all that moved
}

func (t *saltTally) add(f *state.Effect) {
	t.inBrine += max(0, f.NaCl)
	t.onBeds += f.Bed
	switch m := f.Pile; {
	case m.Counted:
		t.count(m)
	case m.Mass == 0:
	case m.Class == state.Delivered:
		t.delivered += m.Mass
		t.moved, t.countEnd = true, false
	default:
		t.leave(m)
		t.moved, t.countEnd = true, false
		if m.Class != state.Made {
			t.elsewhere -= quantity.Mass(sodiumChloride(m))
		}
	}
}

// count heeds a count. What it finds against the entries is gone; but the first of the period,
// and the first of all, tell what there was before.
func (t *saltTally) count(m state.PileMove) {
	if first := t.counts == 0 && !t.moved; first || !m.Known {
		t.countFirst = t.countFirst || first
		t.opening += m.Mass
	} else {
		t.leave(m)
	}
	t.counts++
	t.countEnd = true
}

// leave notes salt that left the pile, with the quality that it had then.
func (t *saltTally) leave(m state.PileMove) {
	t.gone -= m.Mass
	t.water -= m.Mass.Times(m.Salt.Moisture)
	t.pure -= quantity.Mass(sodiumChloride(m))
}

// balance closes it with the pile as the entries leave it.
func (t *saltTally) balance(rock yard.RockSalt, pile quantity.Mass) SaltBalance {
	b := SaltBalance{
		Rock: rock, Opening: t.opening, Delivered: t.delivered, Closing: pile, InBrine: t.inBrine, OnBeds: t.onBeds,
		Elsewhere: t.elsewhere + t.onBeds, Counted: t.counts >= 2 && t.countFirst && t.countEnd,
	}
	b.Gone = b.Opening + b.Delivered - b.Closing
	b.Moisture, b.Insolubles = t.water, t.gone-t.water-t.pure
	if mean := t.mean(); mean.Check() == nil {
		b.Rock = mean
	}
	b.Unexplained = b.Gone - b.Moisture - b.Insolubles - b.InBrine - b.Elsewhere
	return b
}

// mean is the quality of the salt gone.
func (t *saltTally) mean() yard.RockSalt {
	if t.gone == 0 {
		return yard.RockSalt{}
	}
	return yard.RockSalt{
		Purity:   quantity.Strength(t.pure / (t.gone - t.water)),
		Moisture: quantity.Strength(t.water / t.gone),
	}
}
