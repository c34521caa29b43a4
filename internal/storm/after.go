package storm

import (
	"math"

	"brineyard/internal/quantity"
)

// After is what is left when the storm is over.
type After struct {
	Brine quantity.Volume // above the suctions, and in mixing tanks
	Pile  *quantity.Mass  // nil where the yard does not say what it holds
	// Liquids are those that are bought, with what is left of each in OnHand, and what this storm took in Wanted.
	Liquids []LiquidNeed
	// Storms is how many more such storms there is enough for, all that they take; infinite where nothing that is known ends.
	// Ends is what ends first: salt, or a liquid's name.
	Storms float64
	Ends   string
}

// after takes stock after the storm.
func (y *stormYard) after(p *Plan, runs []MixerRun) After {
	a := After{Brine: y.usable(), Storms: math.Inf(1)}
	brine, dry := 0.0, 0.0
	for _, r := range p.Routes {
		brine += float64(r.brine)
		dry += float64(r.Route.Salt())
	}
	if y.r.Pile.OnHand != nil {
		a.Pile = new(max(0, *y.r.Pile.OnHand-p.Production.Salt-p.DrySalt))
	}
	rate := saltRate(runs)
	switch {
	case brine+dry == 0:
	case math.IsInf(rate, 1):
		a.last(float64(a.Brine)/brine, "brine")
	case a.Pile != nil:
		a.last((float64(*a.Pile)+rate*float64(a.Brine))/(rate*brine+dry), "salt")
	}
	for _, l := range p.Liquids {
		left := y.bought(l.Name).left
		a.Liquids = append(a.Liquids, LiquidNeed{Name: l.Name, Wanted: l.Wanted, OnHand: left})
		a.last(float64(left/l.Wanted), l.Name)
	}
	return a
}

// last notes how many storms something lasts for.
func (a *After) last(storms float64, what string) {
	if storms < a.Storms {
		a.Storms, a.Ends = max(0, storms), what
	}
}
