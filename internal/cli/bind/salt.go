package bind

import (
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// RockSalt binds the quality of the rock salt: the flags', else the yard file's, else pure.
func RockSalt(b *Set, to *yard.RockSalt) {
	Of(b, purities, &to.Purity, "purity", "NaCl in the dry rock salt; 100% unless given", pilePurity, purity, Default(yard.PureSalt().Purity))
	Of(b, moistures, &to.Moisture, "moisture", "water in the rock salt as delivered; 0% unless given", pileMoisture, moisture)
}

// YardRockSalt is RockSalt without flags.
func YardRockSalt(b *Set, to *yard.RockSalt) {
	Kept(b, &to.Purity, "purity", pilePurity, purity, Default(yard.PureSalt().Purity))
	Kept(b, &to.Moisture, "moisture", pileMoisture, moisture)
}

var (
	purity   = Key("salt.purity", func(y *yard.Yard) quantity.Strength { return y.Pile.Quality.Purity })
	moisture = Key("salt.moisture", func(y *yard.Yard) quantity.Strength { return y.Pile.Quality.Moisture })

	// What was delivered since the file was written is part of the pile.
	pilePurity   = Entered(func(y *yard.Yard) (*quantity.Strength, yard.Said) { return &y.Pile.Quality.Purity, y.Pile.QualitySaid })
	pileMoisture = Entered(func(y *yard.Yard) (*quantity.Strength, yard.Said) {
		return &y.Pile.Quality.Moisture, y.Pile.QualitySaid
	})
)

// Additive binds what a tank is corrected with, and of what quality.
func Additive(b *Set, with *brine.Additive, stock *quantity.Strength, rock *yard.RockSalt) {
	var said brine.Additive
	choice := OneOf(b, &said, "with", "what to add: water, salt or stock (default water or salt, as it needs)", "",
		Option[brine.Additive]{"water", brine.AddWater}, Option[brine.Additive]{"salt", brine.AddSalt}, Option[brine.Additive]{"stock", brine.AddStock})
	var typed *Value[quantity.Strength]
	b.Then(func(s *Scope) error {
		*with = said
		switch {
		case typed.Given() && !choice.Given():
			*with = brine.AddStock
		case typed.Given() && said != brine.AddStock:
			return fault.Refuse("--stock %s and --with %s: two things to add; allowed: --stock with --with stock", typed.Quoted(), choice)
		case said == brine.AddStock && !typed.Given() && s.Yard == nil:
			return fault.Refuse("--with stock: needs the stored brine's strength; allowed: like --stock 18%%")
		}
		return nil
	})
	b.SaysOf(fault.FieldWith, func() string { return "--with " + choice.String() })
	typed = Of(b, Strength, stock, "stock", "strength of the stored brine, for --with stock; that of a storage tank which serves unless given")
	RockSalt(b, rock)
}
