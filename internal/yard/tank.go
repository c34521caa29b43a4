package yard

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
)

// Tank is a tank in which brine is made, or one in which a liquid is kept.
type Tank struct {
	Name     string
	Mixing   bool            // brine is made in it
	Capacity quantity.Volume // to the brim
	Shape    Shape           // of its inside
	// A mixing tank:
	WorkingVolume quantity.Volume // a full batch
	PumpOff       quantity.Volume // taken out of a full batch; the heel is the rest
	BedCapacity   quantity.Mass   // salt that the floor can hold
	Bed           quantity.Mass   // undissolved salt kept on it
	MixTime       quantity.Duration
	// A storage tank:
	DeadVolume quantity.Volume // below the suction
	LiquidName string          // of the yard's liquid in it; empty for salt brine
	// As it stands; the file says it of storage tanks alone:
	Contents *quantity.Volume // nil means unknown
	Liquid   *balance.Liquid  // in it; nil means unknown
	OnFloor  *quantity.Mass   // undissolved salt on the bed, as delivered; nil means unknown
	// Low and High are the range of the strength of plain brine, as it was last read; both 0 where it was
	// not.
	Low, High quantity.Strength
	Said      Said
	Run       Run   // that goes on, by the readings of the journal
	Runs      []Run // before it, the oldest first
	Passages  []Passage
}

// Usual is the volume in the tank where the user gives none: a mixing tank's full batch, a
// storage tank's contents. 0 means unknown.
func (t Tank) Usual() quantity.Volume {
	if t.Mixing {
		return t.WorkingVolume
	}
	return t.Held()
}

// Judge decides whether what stands in the tank, plain brine of a strength, may be pumped.
func (t Tank) Judge(b Band, w quantity.Strength) Decision {
	if t.High == 0 {
		return b.Judge(w)
	}
	return b.JudgeRange(w, t.Low, t.High)
}

// Held is the volume in a storage tank by the file; 0 where it does not say.
func (t Tank) Held() quantity.Volume {
	if t.Contents == nil {
		return 0
	}
	return *t.Contents
}

// Holds is the liquid in the tank. Where the file does not say it is a zero liquid, which is
// water.
func (t Tank) Holds() balance.Liquid {
	if t.Liquid == nil {
		return balance.Liquid{}
	}
	return *t.Liquid
}

// HoldsBrine reports whether the tank holds salt brine, as it does where the file does not
// say.
func (t Tank) HoldsBrine() bool {
	if t.Liquid == nil {
		return true
	}
	_, plain := t.Liquid.Strength()
	return plain
}

// Tank finds a tank by name.
func (y *Yard) Tank(name string) (Tank, bool) {
	return named(y.Tanks, name, func(t Tank) string { return t.Name })
}

// MixingTanks lists the tanks in which brine is made.
func (y *Yard) MixingTanks() []Tank { return y.tanks(true) }

// StorageTanks lists the tanks in which a liquid is kept.
func (y *Yard) StorageTanks() []Tank { return y.tanks(false) }

func (y *Yard) tanks(mixing bool) []Tank {
	var some []Tank
	for _, t := range y.Tanks {
		if t.Mixing == mixing {
			some = append(some, t)
		}
	}
	return some
}

// named returns the one of a list that has a name.
func named[T any](all []T, name string, of func(T) string) (T, bool) {
	for _, x := range all {
		if of(x) == name {
			return x, true
		}
	}
	var none T
	return none, false
}
