// Package yard holds what a yard has and how it works. Package yard/file reads it.
package yard

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Yard is a yard file. A pointer is nil where the file does not say.
type Yard struct {
	Path         string
	Name         string
	Units        *quantity.System
	Target       Target
	Hydrometer   Hydrometer
	Salt         Salt
	Supply       Supply
	Pump         Pump
	Cleaning     Cleaning
	MixingTanks  []MixingTank
	StorageTanks []StorageTank
	Liquids      []Liquid
	Blends       []Blend
	Prices       Prices
	Trucks       []Truck
	Routes       []Route
	Plumbing     Plumbing
}

// Target is the true strength wanted and the band that may be pumped.
type Target struct {
	Strength, Low, High *quantity.Strength
}

// Hydrometer is the yard's own instrument.
type Hydrometer struct {
	Calibration *quantity.Temperature
}

// Salt is the rock salt on the pile.
type Salt struct {
	Purity, Moisture *quantity.Strength
	Price            *quantity.PricePerMass
	Bucket           *quantity.Mass // one load of the loader
	Pile             *quantity.Mass // on hand
}

// Supply is the fresh water.
type Supply struct {
	Flow        *quantity.Flow
	Temperature *quantity.Temperature
}

// MixingTank is a tank in which brine is made.
type MixingTank struct {
	Name          string
	Capacity      *quantity.Volume // to the brim
	WorkingVolume *quantity.Volume // a full batch
	PumpOff       *quantity.Volume // taken out of a full batch; the heel is the rest
	BedCapacity   *quantity.Mass   // salt that the floor can hold
	Bed           *quantity.Mass   // undissolved salt kept on it
	MixTime       *quantity.Duration
}

// StorageTank is a tank in which a liquid is kept.
type StorageTank struct {
	Name       string
	Capacity   *quantity.Volume
	DeadVolume *quantity.Volume // below the suction
	Contents   *quantity.Volume
	Strength   *quantity.Strength // of plain salt brine in it
	Liquid     string             // or the name of the liquid in it
}

// Liquid is one that the yard buys or keeps: a solution of chlorides, or a product
// that its data sheet describes.
type Liquid struct {
	Name                    string
	NaCl, KCl, CaCl2, MgCl2 *quantity.Strength
	Product                 *solution.Product
	Price                   *quantity.PricePerVolume
	OnHand                  *quantity.Volume
}

// Liquid returns what it is, for the calculators.
func (l Liquid) Liquid() balance.Liquid {
	if l.Product != nil {
		return balance.OfProduct(l.Name, l.Product)
	}
	return balance.Liquid{Name: l.Name, Composition: solution.Composition{
		NaCl: float64(Or(l.NaCl, 0)), KCl: float64(Or(l.KCl, 0)),
		CaCl2: float64(Or(l.CaCl2, 0)), MgCl2: float64(Or(l.MgCl2, 0)),
	}}
}

// Tank is what any tank has in common.
type Tank struct {
	Name     string
	Capacity quantity.Volume
	// Usual is how much is in it unless told otherwise: a mixing tank's full
	// batch, a storage tank's contents; 0 when the file does not say.
	Usual quantity.Volume
	// PumpOff is what is taken out of a full batch; 0 when the file does not say.
	PumpOff     quantity.Volume
	Bed         quantity.Mass
	BedCapacity quantity.Mass
	Mixing      bool // brine is made in it
	// Contents is the liquid in it; nil when the file does not say.
	Contents *balance.Liquid
}

// Tanks lists mixing and storage tanks in the file's order.
func (y *Yard) Tanks() []Tank {
	var all []Tank
	for _, m := range y.MixingTanks {
		all = append(all, Tank{
			Name: m.Name, Mixing: true, Capacity: Or(m.Capacity, 0), Usual: Or(m.WorkingVolume, 0),
			PumpOff: Or(m.PumpOff, 0), Bed: Or(m.Bed, 0), BedCapacity: Or(m.BedCapacity, 0),
		})
	}
	for _, s := range y.StorageTanks {
		all = append(all, Tank{Name: s.Name, Capacity: Or(s.Capacity, 0), Usual: Or(s.Contents, 0), Contents: y.contents(s)})
	}
	return all
}

// contents is the liquid in a storage tank.
func (y *Yard) contents(s StorageTank) *balance.Liquid {
	if s.Strength != nil {
		l := balance.SaltBrine(*s.Strength)
		return &l
	}
	if l, ok := y.Liquid(s.Liquid); ok {
		liquid := l.Liquid()
		return &liquid
	}
	return nil
}

// Tank finds a tank by name.
func (y *Yard) Tank(name string) (Tank, bool) {
	for _, t := range y.Tanks() {
		if t.Name == name {
			return t, true
		}
	}
	return Tank{}, false
}

// Liquid finds a liquid by name.
func (y *Yard) Liquid(name string) (Liquid, bool) {
	for _, l := range y.Liquids {
		if l.Name == name {
			return l, true
		}
	}
	return Liquid{}, false
}

// Or returns what p points to, or a default.
func Or[T any](p *T, otherwise T) T {
	if p == nil {
		return otherwise
	}
	return *p
}
