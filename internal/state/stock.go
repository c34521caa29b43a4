package state

import (
	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
	"math"
)

// Stock is what stands in one place as the entries so far leave it: in a tank, on a truck, or
// of one liquid beside the tanks.
type Stock struct {
	Name string
	balance.Vessel
	// Known is set once the yard file, a count, a measured batch or a cleaning has said how
	// much there is. Until then Mass is what the entries brought: there is at least so much.
	Known bool
	Sure  bool // the same of what liquid it is
	Said  yard.Said

	told   bool             // Liquid is what once stood here, and no mere beginning
	beside bool             // no vessel: it takes any volume
	takes  quantity.Volume  // to the brim; 0 for unknown
	rho    quantity.Density // of Liquid; 0 where it is to be worked out
}

// Volume returns how much there is at the temperature of measured volumes.
func (t *Stock) Volume() quantity.Volume {
	if t.Mass == 0 {
		return 0
	}
	return t.Mass.Volume(t.density())
}

func (t *Stock) density() quantity.Density {
	if t.rho == 0 {
		rho, err := t.Liquid.Density(measuredAt)
		if err != nil {
			panic(err) // a check is missing; TestAnyEntry draws entries against that
		}
		t.rho = rho
	}
	return t.rho
}

// set makes the stock a volume of a liquid, which is known then.
func (t *Stock) set(l balance.Liquid, v quantity.Volume) {
	t.Liquid, t.rho = l, 0
	t.Mass = v.Mass(t.density())
	t.Known, t.Sure, t.told = true, true, true
}

// setVolume makes the stock a volume of what it is. It keeps whether that is sure.
func (t *Stock) setVolume(v quantity.Volume) {
	t.Mass, t.Known = v.Mass(t.density()), true
}

// setLiquid makes the stock another liquid of the same volume.
func (t *Stock) setLiquid(l balance.Liquid) {
	v := t.Volume()
	t.Liquid, t.rho = l, 0
	t.Mass = v.Mass(t.density())
	t.Sure, t.told = true, true
}

// add mixes in what another vessel holds; sure tells whether it is known what liquid that is. A
// liquid that meets an unknown amount of another makes nobody knows what.
func (t *Stock) add(v balance.Vessel, sure bool) {
	if v.Mass == 0 {
		return
	}
	same := alike(t.Liquid, v.Liquid)
	switch {
	case t.Mass == 0 && t.Known:
		t.Sure = sure
	case same:
		t.Sure = t.Sure && sure
	default:
		t.Sure = t.Sure && sure && t.Known
	}
	t.Add(v.Liquid, v.Mass)
	t.told = true
	if !same {
		t.rho = 0
	}
}

// alike tells whether two liquids are one, but for what rounding leaves.
func alike(a, b balance.Liquid) bool {
	const rounding = 1e-12
	if len(a.Products)+len(b.Products) > 0 {
		return false
	}
	x, y := a.Composition, b.Composition
	for _, d := range [...]float64{x.NaCl - y.NaCl, x.KCl - y.KCl, x.CaCl2 - y.CaCl2, x.MgCl2 - y.MgCl2} {
		if math.Abs(d) > rounding {
			return false
		}
	}
	return true
}

// sound tells whether a liquid is one that can stand in a tank: the state must hold none that a
// later calculation cannot handle.
func sound(l balance.Liquid) bool {
	const strongest = 0.28 // beyond what salt brine holds in the warm
	if l.Composition.Check() != nil || l.Composition.NaCl > strongest {
		return false
	}
	rho, err := l.Density(measuredAt)
	return err == nil && rho > 0
}

// liquidOf returns what a row says a liquid is: its composition, else the liquid of its name
// that the yard file knows, or that stands beside the tanks.
func (s *State) liquidOf(e *journal.Entry) (balance.Liquid, bool) {
	if !composed(e) {
		l, ok := s.liquids[e.Liquid]
		if stock := s.beside[e.Liquid]; !ok && stock != nil {
			return stock.Liquid, true
		}
		return l, ok
	}
	share := func(p *quantity.Strength) float64 {
		if p == nil {
			return 0
		}
		return float64(*p)
	}
	l := balance.Liquid{Name: e.Liquid, Composition: solution.Composition{
		NaCl: share(e.NaCl), KCl: share(e.KCl), CaCl2: share(e.CaCl2), MgCl2: share(e.MgCl2),
	}}
	if _, plain := l.Strength(); plain && l.Name == "" {
		l.Name = balance.BrineName
	}
	return l, sound(l)
}

// composed tells whether a row says what a liquid consists of.
func composed(e *journal.Entry) bool {
	return e.NaCl != nil || e.KCl != nil || e.CaCl2 != nil || e.MgCl2 != nil
}

// besideOf finds a liquid beside the tanks, or begins it: how much there is is not known.
func (s *State) besideOf(name string, l balance.Liquid) *Stock {
	stock := s.beside[name]
	if stock == nil {
		stock = &Stock{Name: name, Vessel: balance.Vessel{Liquid: l.Named(name)}, Sure: true, told: true, beside: true}
		s.beside[name] = stock
	}
	return stock
}

// source finds where a row takes its volume from: the tank that it names, else the liquid beside
// the tanks; nil where it names neither, or a liquid of which nothing says what it is.
func (s *State) source(e *journal.Entry) *Stock {
	if e.From != "" {
		return &s.tank(e.From).Stock
	}
	if stock := s.beside[e.Liquid]; stock != nil {
		return stock
	}
	l, known := s.liquidOf(e)
	if e.Liquid == "" || !known {
		return nil
	}
	return s.besideOf(e.Liquid, l)
}

// countUsed notes what is taken of a liquid, if the yard buys it.
func (s *State) countUsed(liquid string, v quantity.Volume) {
	if _, bought := s.liquids[liquid]; bought && liquid != balance.BrineName {
		s.effect.Used, s.effect.UsedLiquid = v, liquid
	}
}
