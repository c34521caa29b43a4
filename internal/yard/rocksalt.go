package yard

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// RockSalt is salt as it is delivered. Moisture is the mass of water per mass as
// delivered; Purity is the mass of NaCl per mass of dry salt. The rest of the dry salt is
// taken as insoluble.
type RockSalt struct {
	Purity   quantity.Strength
	Moisture quantity.Strength
}

// The limits of rock salt. Common practice, no source.
const (
	LeastPurity  = quantity.Strength(0.5)
	MostMoisture = quantity.Strength(0.2)
)

// PureSalt is dry NaCl.
func PureSalt() RockSalt { return RockSalt{Purity: 1} }

// Check refuses a purity or a moisture beyond those limits.
func (s RockSalt) Check() error {
	if !(s.Purity >= LeastPurity && s.Purity <= 1) {
		return fault.Input(fault.FieldPurity, "no rock salt is like that; allowed: %v to 100%%", LeastPurity)
	}
	if !(s.Moisture >= 0 && s.Moisture <= MostMoisture) {
		return fault.Input(fault.FieldMoisture, "no rock salt is like that; allowed: 0%% to %v", MostMoisture)
	}
	return nil
}

// SodiumChloride returns the mass of NaCl in one kg as delivered.
func (s RockSalt) SodiumChloride() float64 { return float64((1 - s.Moisture) * s.Purity) }

// Insoluble returns the mass of insoluble matter in one kg as delivered.
func (s RockSalt) Insoluble() float64 { return float64((1 - s.Moisture) * (1 - s.Purity)) }

// Addition returns what the salt brings to a tank.
func (s RockSalt) Addition() balance.Addition {
	return balance.RockSalt(s.SodiumChloride(), s.Moisture)
}
