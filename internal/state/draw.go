package state

import (
	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// slack is by what part of a vessel's content a volume may be off: gallons are read to whole
// ones. Common practice, no source.
const slack = 1e-3

// draw takes a volume out of a stock. All of it comes out: what the stock did not hold by the
// entries is not explained, and is of the liquid that stood there last, or brine on target.
func (s *State) draw(e *journal.Entry, from *Stock, v quantity.Volume) balance.Vessel {
	s.touch(from)
	had := from.Volume()
	if v <= had*(1+1e-12) {
		if had == 0 {
			return balance.Vessel{Liquid: from.Liquid}
		}
		return from.Draw(from.Mass * quantity.Mass(min(1, float64(v/had))))
	}
	class := Unexplained
	switch {
	case from.beside && !from.Known:
		class = Outside // as it was before anybody counted it
	case !from.Known:
		s.problem(e, "nothing says what was in "+from.Name+"; a count before it would")
	case v > had*(1+slack):
		s.cannot(e, from.Name+" held %v by the entries, and %v were taken out: the difference is not explained", had, v)
	}
	if !from.told {
		from.setLiquid(balance.SaltBrine(s.yard.Band().Target))
		from.Sure = false
	}
	out := from.Draw(from.Mass)
	lacking := balance.Vessel{Liquid: from.Liquid, Mass: (v - had).Mass(from.density())}
	s.part(class, from.Liquid.Name, v-had, lacking.Masses())
	out.Mass += lacking.Mass
	return out
}

// fits flags a vessel that would have run over.
func (s *State) fits(e *journal.Entry, t *Stock) {
	if t.takes == 0 {
		return
	}
	if v := t.Volume(); v > t.takes*(1+slack) {
		s.cannot(e, t.Name+" would hold %v by the entries, and its capacity is %v", v, t.takes)
	}
}
