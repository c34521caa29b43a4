package season

import (
	"brineyard/internal/quantity"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

// SaltBalance sets the salt that left the pile against the salt in the brine made.
type SaltBalance struct {
	Rock                        yard.RockSalt // that the pile is of
	Opening, Delivered, Closing quantity.Mass // of the pile, as delivered
	Gone                        quantity.Mass // opening + delivered - closing
	// Counted is set when two counts of the pile bound the balance; without them Gone is
	// what the entries say was used.
	Counted bool
	InBrine quantity.Mass // NaCl in the brine made and added in corrections
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

// saltTally collects the balance between counts of the pile.
type saltTally struct {
	opening            quantity.Mass // before the first entry
	counts             int
	first, last        quantity.Mass
	delivered, inBrine quantity.Mass // since the first count, or the beginning
	atLast             struct{ delivered, inBrine quantity.Mass }
}

func (t *saltTally) add(f state.Effect) {
	t.delivered += f.Delivered
	t.inBrine += max(0, f.NaCl)
	if f.Counted == nil {
		return
	}
	if t.counts == 0 {
		t.first, t.delivered, t.inBrine = *f.Counted, 0, 0
	}
	t.counts++
	t.last = *f.Counted
	t.atLast.delivered, t.atLast.inBrine = t.delivered, t.inBrine
}

// balance closes it: at the last count, or with the pile as the entries leave it.
func (t *saltTally) balance(rock yard.RockSalt, pile quantity.Mass) SaltBalance {
	b := SaltBalance{Opening: t.opening, Delivered: t.delivered, Closing: pile, InBrine: t.inBrine}
	if t.counts >= 2 {
		b = SaltBalance{Opening: t.first, Delivered: t.atLast.delivered, Closing: t.last, InBrine: t.atLast.inBrine, Counted: true}
	} else if t.counts == 1 {
		b.Opening = t.first
	}
	b.Rock = rock
	b.Gone = b.Opening + b.Delivered - b.Closing
	b.Moisture = b.Gone.Times(rock.Moisture)
	b.Insolubles = quantity.Mass(float64(b.Gone) * rock.Insoluble())
	b.Unexplained = b.Gone - b.Moisture - b.Insolubles - b.InBrine
	return b
}
