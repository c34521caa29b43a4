package bind

import (
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Band binds target and band: the flags', else the yard file's, else common practice, whose
// band moves with another target.
func Band(b *Set, to *yard.Band) {
	Target(b, &to.Target)
	Of(b, Strength, &to.Low, "low", "lowest true strength that may be pumped", low, DefaultOf(func() quantity.Strength { return yard.BandAround(to.Target).Low }))
	Of(b, Strength, &to.High, "high", "highest true strength that may be pumped", high, DefaultOf(func() quantity.Strength { return yard.BandAround(to.Target).High }))
}

// Target binds the target alone.
func Target(b *Set, to *quantity.Strength) {
	Of(b, Strength, to, "to", "target", target, Default(yard.DefaultBand().Target))
}

// YardBand is Band without flags.
func YardBand(b *Set, to *yard.Band) {
	YardTarget(b, &to.Target)
	Kept(b, &to.Low, "low", low, DefaultOf(func() quantity.Strength { return yard.BandAround(to.Target).Low }))
	Kept(b, &to.High, "high", high, DefaultOf(func() quantity.Strength { return yard.BandAround(to.Target).High }))
}

// YardTarget is Target without a flag.
func YardTarget(b *Set, to *quantity.Strength) {
	Kept(b, to, "to", target, Default(yard.DefaultBand().Target))
}

var (
	target = KeyIfAny("target.strength", func(y *yard.Yard) *quantity.Strength { return y.Target.Strength })
	low    = KeyIfAny("target.low", func(y *yard.Yard) *quantity.Strength { return y.Target.Low })
	high   = KeyIfAny("target.high", func(y *yard.Yard) *quantity.Strength { return y.Target.High })
)
