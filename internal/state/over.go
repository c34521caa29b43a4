package state

import (
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/yard"
)

// Over is the yard as it stands: what the file says of it, with what the entries have made of
// that. What they leave open is unknown, be it in the file or not. The yard itself is left alone;
// nil stands for one without a file.
func (s *State) Over(y *yard.Yard) *yard.Yard {
	if y == nil {
		return &yard.Yard{}
	}
	now := *y
	now.Tanks = slices.Clone(y.Tanks)
	for i := range now.Tanks {
		if t, named := s.tanks[now.Tanks[i].Name]; named && t.Said.ByJournal() {
			t.over(&now.Tanks[i])
			now.Tanks[i].Said.MayReach = s.mayReach(t)
			now.Tanks[i].LiquidName = s.liquidName(t)
		}
	}
	now.Liquids = slices.Clone(y.Liquids)
	for i := range now.Liquids {
		l := &now.Liquids[i]
		if stock, named := s.beside[l.Name]; named && stock.Said.ByJournal() {
			l.OnHand, l.Said = stock.Volume(), stock.Said
		}
	}
	now.Trucks = slices.Clone(y.Trucks)
	for i := range now.Trucks {
		if k, named := s.trucks[now.Trucks[i].Name]; named {
			now.Trucks[i].Aboard = k.aboard()
		}
	}
	if s.PileSaid.ByJournal() {
		s.overPile(&now.Pile)
	}
	now.WeakLines = s.WeakLines()
	return &now
}

// liquidName is what the yard calls what stands in a tank: nothing for its salt brine, or for nobody
// knows what.
func (s *State) liquidName(t *Tank) string {
	_, named := s.liquids[t.Liquid.Name]
	_, plain := t.Liquid.Strength()
	if !t.Sure || t.Liquid.Name == balance.BrineName || plain && !named {
		return ""
	}
	return t.Liquid.Name
}

// overPile says what is on the pile. Where more was used than was ever there, nobody knows.
func (s *State) overPile(p *yard.Pile) {
	p.OnHand, p.Quality, p.Said = nil, s.PileSalt, s.PileSaid
	if s.PileKnown && s.Pile >= 0 {
		pile := s.Pile
		p.OnHand = &pile
	}
}

// over says what stands in a tank.
func (t *Tank) over(y *yard.Tank) {
	y.Contents, y.Liquid, y.OnFloor, y.Said = nil, nil, nil, t.Said
	if t.Known {
		v := t.Volume()
		y.Contents = &v
	}
	if t.Sure && t.told {
		l := t.Liquid
		y.Liquid = &l
	}
	y.Run, y.Runs = t.Runs()
	y.Passages = t.passages
	y.Low, y.High = 0, 0
	if span, plain := t.Range(); plain && t.Sure {
		y.Low, y.High = span.Low, span.High
	}
	if t.FloorKnown {
		bed := t.OnFloor
		y.OnFloor = &bed
	}
}
