package ready

import (
	"cmp"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/root"
	"brineyard/internal/yard"
)

// Charge is rock salt that was weighed into measured water.
type Charge struct {
	Salt    quantity.Mass // as delivered
	Quality yard.RockSalt
	Water   quantity.Volume
	Full    quantity.Volume      // of brine that it makes; in the place of Water
	Warm    quantity.Temperature // the water
}

// FieldCharge and FieldWater are the fields of its refusals.
const (
	FieldCharge = "charge"
	FieldWater  = "water"
)

// End is the strength of the brine when all of it has dissolved, by mass: salt / (salt + water), with the moisture of
// the salt among the water and its insoluble part left on the floor. Errors: fault.InputError.
func (c Charge) End() (quantity.Strength, error) {
	if err := cmp.Or(
		fault.If(!(c.Salt > 0), FieldCharge, "no salt; allowed: above 0 lb"),
		fault.If(!(c.Water > 0 || c.Full > 0), FieldWater, "no water; allowed: above 0 gal"),
	); err != nil {
		return 0, err
	}
	rho, err := (balance.Liquid{}).Density(c.Warm)
	if err != nil {
		return 0, err
	}
	salt := float64(c.Salt) * c.Quality.SodiumChloride()
	if c.Water == 0 {
		return c.endOf(salt)
	}
	water := float64(c.Water.Mass(rho)) + float64(c.Salt.Times(c.Quality.Moisture))
	return quantity.Strength(salt / (salt + water)), nil
}

// endOf is the strength of a full volume that holds so much NaCl (kg): salt = strength x density x volume.
func (c Charge) endOf(salt float64) (quantity.Strength, error) {
	most, err := balance.Saturation(c.Warm)
	if err != nil {
		return 0, err
	}
	lacks := func(w float64) float64 {
		return w*float64(balance.BrineDensity(quantity.Strength(w), c.Warm))*float64(c.Full) - salt
	}
	w, ok := root.Between(lacks, 0, float64(most), lacks(0), lacks(float64(most)), 1e-12)
	if !ok {
		return most, nil // a bed in excess
	}
	return quantity.Strength(w), nil
}

// Rise is the volume (m3) that brine takes when salt has brought it from one strength to another: its water stays,
//
//	V' = V rho(from) (1 - from) / (rho(to) (1 - to)),
//
// which is the balance of masses. The bed that it lies in is not in it.
func Rise(v quantity.Volume, from, to quantity.Strength, t quantity.Temperature) quantity.Volume {
	water := float64(v) * float64(balance.BrineDensity(from, t)) * float64(1-from)
	return quantity.Volume(water / float64(balance.BrineDensity(to, t)) / float64(1-to))
}
