package season

import (
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// SaltBalance sets the salt that left the pile against the salt in the brine made.
type SaltBalance struct {
	Opening, Delivered, Closing quantity.Mass // of the pile, as delivered
	Gone                        quantity.Mass // opening + delivered - closing
	// Counted is set when two counts of the pile bound the balance; without them Gone is
	// what the entries say was used.
	Counted bool
	InBrine quantity.Mass // NaCl in the brine made and added in corrections
	// What explains the rest: the water in the salt, and what does not dissolve.
	Moisture, Insolubles quantity.Mass
	// Unexplained is what is left; below nothing when the brine holds more salt than left
	// the pile.
	Unexplained quantity.Mass
}

// saltAllowed is the part of the salt gone that may stay unexplained: what a loader's
// bucket is known to. Common practice, no source.
const saltAllowed = 0.05

// Called reports whether the unexplained part is worth a search.
func (b SaltBalance) Called() bool {
	most := saltAllowed * b.Gone
	return b.Unexplained > most || b.Unexplained < -most
}

// saltCount collects the balance between counts of the pile.
type saltCount struct {
	opening            quantity.Mass // before the first entry
	counts             int
	first, last        quantity.Mass
	delivered, inBrine quantity.Mass // since the first count, or the beginning
	atLast             struct{ delivered, inBrine quantity.Mass }
}

func (c *saltCount) add(e *journal.Entry, f Flow) {
	switch {
	case e.Kind == journal.Delivery && e.Salt != nil:
		c.delivered += *e.Salt
	case e.Kind == journal.Batch, e.Kind == journal.Correction:
		c.inBrine += quantity.Mass(max(0, f.OfSalt))
	case e.Kind == journal.Count && e.Salt != nil:
		if c.counts == 0 {
			c.first, c.delivered, c.inBrine = *e.Salt, 0, 0
		}
		c.counts++
		c.last = *e.Salt
		c.atLast.delivered, c.atLast.inBrine = c.delivered, c.inBrine
	}
}

// balance closes it: at the last count, or with the pile as the entries leave it.
func (c *saltCount) balance(shop *Shop, pile quantity.Mass) SaltBalance {
	b := SaltBalance{Opening: c.opening, Delivered: c.delivered, Closing: pile, InBrine: c.inBrine}
	if c.counts >= 2 {
		b = SaltBalance{Opening: c.first, Delivered: c.atLast.delivered, Closing: c.last, InBrine: c.atLast.inBrine, Counted: true}
	} else if c.counts == 1 {
		b.Opening = c.first
	}
	b.Gone = b.Opening + b.Delivered - b.Closing
	b.Moisture = b.Gone.Times(shop.RockSalt.Moisture)
	b.Insolubles = quantity.Mass(float64(b.Gone) * shop.RockSalt.Insoluble())
	b.Unexplained = b.Gone - b.Moisture - b.Insolubles - b.InBrine
	return b
}
