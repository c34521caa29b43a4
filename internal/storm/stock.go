package storm

import (
	"cmp"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// stormYard is the yard while the plan is made: what stands where.
type stormYard struct {
	r      Request
	tanks  []*vessel // of salt brine in the band
	held   []*vessel // mixing tanks that keep finished brine, the first first
	others []*bought // by name, so that what goes through them does so in one order
	lines  []SupplyLine
	// outOfBand counts brine tanks that are not used until they are corrected.
	outOfBand int
	fixable   []fixable

	start, made, loaded balance.Masses
}

// bought is a liquid that is not made in the yard.
type bought struct {
	name         string
	liquid       balance.Liquid
	price        *quantity.PricePerVolume
	left, loaded quantity.Volume
}

// SupplyLine is what stands in a tank or on hand.
type SupplyLine struct {
	Where    string
	Liquid   string
	Usable   quantity.Volume
	Strength quantity.Strength // of salt brine; 0 for others
	// First is what forms first in it on cooling. Clear is true if nothing forms in it down
	// to the storm's low.
	First solution.Onset
	Clear bool
	// Fix brings salt brine out of the band back to target; nil for what needs
	// none. Until then it is not counted.
	Fix *brine.Correction
	// Edge is set where the last reading leaves open whether it is in the band: a better reading decides,
	// and until then it is not counted.
	Edge bool
}

// takeStock counts what stands in the yard.
func takeStock(r Request) (*stormYard, error) {
	y := &stormYard{r: r}
	for _, l := range r.Others {
		y.buy(l, l.OnHand)
		if l.OnHand > 0 {
			y.lines = append(y.lines, SupplyLine{Where: "on hand", Liquid: l.Name, Usable: l.OnHand})
		}
	}
	for _, t := range r.Tanks {
		if err := y.count(t); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(y.others, func(a, b *bought) int { return cmp.Compare(a.name, b.name) })
	return y, nil
}

// bought finds a liquid that is not made in the yard; nil where there is none of the name.
func (y *stormYard) bought(name string) *bought {
	if at := slices.IndexFunc(y.others, func(o *bought) bool { return o.name == name }); at >= 0 {
		return y.others[at]
	}
	return nil
}

// buy counts what there is of a bought liquid in one place.
func (y *stormYard) buy(l yard.Liquid, usable quantity.Volume) {
	o := y.bought(l.Name)
	if o == nil {
		o = &bought{name: l.Name, liquid: l.Liquid, price: l.Price}
		y.others = append(y.others, o)
	}
	o.left += usable
}

// count counts what stands in a tank.
func (y *stormYard) count(t yard.Tank) error {
	usable := max(0, t.Held()-t.DeadVolume)
	strength, plain := t.Holds().Strength()
	if isBought := t.LiquidName != "" && t.LiquidName != balance.BrineName; isBought || !plain {
		y.buy(yard.Liquid{Liquid: t.Holds().Named(t.LiquidName)}, usable)
		y.lines = append(y.lines, SupplyLine{Where: t.Name, Liquid: t.LiquidName, Usable: usable})
		return nil
	}
	tank := &vessel{tank: t, at: y.r.Temperature}
	if t.Held() > 0 {
		held, err := balance.Know(fault.FieldStrength, strength, y.r.Temperature)
		if err != nil {
			return err
		}
		line := SupplyLine{Where: t.Name, Liquid: balance.BrineName, Usable: usable, Strength: strength}
		switch t.Judge(y.r.Band, strength) {
		case yard.MayPump:
		case yard.OnTheEdge:
			line.Edge = true
			y.outOfBand++
			y.lines = append(y.lines, line)
			return nil
		default:
			return y.setAside(t, line, held)
		}
		y.lines = append(y.lines, line)
		y.start = y.start.Plus(tank.fill(t.Held(), strength))
	}
	y.tanks = append(y.tanks, tank)
	return nil
}

// setAside notes a tank out of the band, with what corrects it.
func (y *stormYard) setAside(t yard.Tank, line SupplyLine, held balance.Known) error {
	fix, err := brine.CorrectKnown(brine.CorrectRequest{
		Volume: t.Held(), Target: y.r.Band.Target, Capacity: t.Capacity, RockSalt: y.r.Pile.Quality, Instrument: gauge.PercentGlass(),
	}, held)
	line.Fix = &fix
	if err == nil && fix.DrawOffFirst == 0 && fix.Additive != brine.AddStock && fix.Final > 0 {
		y.fixable = append(y.fixable, fixable{t, line.Strength, fix})
	}
	y.outOfBand++
	y.lines = append(y.lines, line)
	return err
}

// usable is the brine above the dead volumes.
func (y *stormYard) usable() (v quantity.Volume) {
	for _, t := range append(slices.Clone(y.tanks), y.held...) {
		v += t.usable()
	}
	return v
}

// most lists the brine tanks, the one with most of a volume first.
func (y *stormYard) most(of func(*vessel) quantity.Volume) []*vessel {
	order := slices.Clone(y.tanks)
	slices.SortStableFunc(order, func(a, b *vessel) int { return cmp.Compare(of(b), of(a)) })
	return order
}

// filling lists the brine tanks in the order in which they are filled: first those that hold brine above their suction,
// the one with the most room first, and then those that swallow least below it.
func (y *stormYard) filling() []*vessel {
	order := y.most((*vessel).room)
	slices.SortStableFunc(order, func(a, b *vessel) int { return cmp.Compare(a.gap(), b.gap()) })
	return order
}

// keep puts brine on target into the tanks.
func (y *stormYard) keep(v quantity.Volume) {
	for _, t := range y.filling() {
		if part := min(v, t.room()); part > 0 {
			y.made = y.made.Plus(t.fill(part, y.r.Band.Target))
			v -= part
		}
	}
	if v > 0 && len(y.tanks) > 0 {
		y.made = y.made.Plus(y.filling()[0].fill(v, y.r.Band.Target)) // rounding
	}
}

// hold counts the finished brine that stays in a mixing tank as one more tank to load from.
func (y *stormYard) hold(run *MixerRun, v quantity.Volume) {
	t := &vessel{tank: yard.Tank{Name: run.Mixer.Name}, at: y.r.Temperature}
	y.made = y.made.Plus(t.fill(v, y.r.Band.Target))
	y.held = append(y.held, t)
}

// draw takes brine from the fullest tanks, down to their dead volumes.
func (y *stormYard) draw(v quantity.Volume) {
	for _, t := range append(slices.Clone(y.held), y.most((*vessel).volume)...) {
		if part := min(v, t.usable()); part > 0 {
			y.loaded = y.loaded.Plus(t.draw(part))
			v -= part
		}
	}
}
