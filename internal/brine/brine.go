// Package brine holds the calculators of the yard, one file each: a request in,
// a result and an error out. They know no flags, no files and no units but SI.
package brine

import (
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// The fields of the requests, for InputError.
const (
	FieldReading     = "reading"
	FieldTemperature = "temp"
	FieldCalibration = "cal"
	FieldVolume      = "volume"
	FieldCapacity    = "capacity"
	FieldStrength    = "strength"
	FieldTarget      = "to"
	FieldLow         = "low"
	FieldHigh        = "high"
	FieldWith        = "with"
	FieldStock       = "stock"
	FieldPurity      = "purity"
	FieldMoisture    = "moisture"
	FieldHeelVolume  = "heel-volume"
	FieldHeelStrong  = "heel-strength"
	FieldHeelTemp    = "heel-temp"
	FieldWaterTemp   = "water-temp"
	FieldBed         = "bed"
	FieldSupply      = "supply"
	FieldLiquid      = "liquid"
	FieldParts       = "parts"
	FieldIceAt       = "ice-at"
	FieldKeepClear   = "keep-clear"
	FieldAt          = "at"
	FieldPavement    = "pavement"
	FieldBatches     = "batches"
	FieldReadings    = "readings"
	FieldGross       = "gross"
	FieldEmpty       = "empty"
	FieldRate        = "rate"
	FieldWidth       = "width"
	FieldSpeed       = "speed"
	FieldOver        = "over"
	FieldOpen        = "open"
	FieldFrom        = "from"
	FieldMoveTo      = "to"
	FieldRinse       = "rinse"
	FieldStart       = "start"
	FieldRoutes      = "routes"
	FieldPump        = "pump"
	FieldReserve     = "reserve"
)

// InputError is a request that cannot be answered. Reason is a format with a %v
// for each of Args, so that quantities can be shown in the user's units; it says
// what is wrong and what is allowed.
type InputError struct {
	Field  string
	Reason string
	Args   []quantity.Quantity
}

func (e *InputError) Error() string {
	return e.Field + ": " + Sentence(e.Reason, e.Args, quantity.US)
}

func bad(field, reason string, args ...quantity.Quantity) error {
	return &InputError{Field: field, Reason: reason, Args: args}
}

// The temperatures at which brine in a tank or in a sample jar is considered.
var (
	coldest = quantity.Celsius(-25)
	hottest = quantity.Celsius(50)
)

// within tells whether a temperature lies between two, ends included: 122 F comes out
// a digit above 50 C.
func within(t, low, high quantity.Temperature) bool {
	const slack = 1e-9
	return t >= low-slack && t <= high+slack
}

func checkLiquid(field string, t quantity.Temperature) error {
	if !within(t, coldest, hottest) {
		return bad(field, "outside what liquid brine is reckoned for; allowed: %v to %v", coldest, hottest)
	}
	return nil
}

// percentGlass is the trade's percent hydrometer, marked for 60 F.
var percentGlass = gauge.Instrument{Scale: gauge.PercentSalt, Calibration: gauge.DefaultCalibration}

// saturation returns the strength of saturated NaCl brine.
func saturation(t quantity.Temperature) (quantity.Strength, error) {
	w, _, err := solution.Anchored().Solubility(solution.NaCl, float64(t))
	return quantity.Strength(w), err
}

// dropsSalt tells whether salt falls out of a brine at a temperature or above.
func dropsSalt(cold solution.Freezing, t quantity.Temperature) bool {
	return cold.Salt.Found && cold.Salt.Temperature >= float64(t)
}

// checkStrength refuses a strength that does not dissolve at temperature t.
func checkStrength(field string, s quantity.Strength, t quantity.Temperature) error {
	// Where salt falls out of it is found in a twentieth of the time that saturation takes.
	cold, err := solution.Anchored().Freezing(solution.Brine(float64(s)))
	if err == nil && s >= 0 && !dropsSalt(cold, t) {
		return nil
	}
	full, err := saturation(t)
	if err != nil {
		return err
	}
	if !(s >= 0 && s <= full) {
		return bad(field, "no brine at %v is that strong; allowed: 0%% to %v (saturated)", t, full)
	}
	return nil
}

// brineDensity is the density of NaCl brine whose strength and temperature were
// checked before.
func brineDensity(s quantity.Strength, t quantity.Temperature) quantity.Density {
	rho, err := solution.Density(solution.Brine(float64(s)), float64(t))
	if err != nil {
		panic(err) // a check is missing; TestRefusalsAreOfTheInput draws requests against that
	}
	return quantity.Density(rho)
}

// RockSalt is salt as it is delivered. Moisture is the mass of water per mass as
// delivered; Purity is the mass of NaCl per mass of dry salt. What is not NaCl
// is taken not to dissolve.
type RockSalt struct {
	Purity   quantity.Strength
	Moisture quantity.Strength
}

// PureSalt is dry NaCl.
var PureSalt = RockSalt{Purity: 1}

// check refuses what cannot be rock salt.
func (s RockSalt) check() error {
	if !(s.Purity >= 0.5 && s.Purity <= 1) {
		return bad(FieldPurity, "no rock salt is like that; allowed: 50%% to 100%%")
	}
	if !(s.Moisture >= 0 && s.Moisture <= 0.2) {
		return bad(FieldMoisture, "no rock salt is like that; allowed: 0%% to 20%%")
	}
	return nil
}

// SodiumChloride returns the mass of NaCl in one kg as delivered.
func (s RockSalt) SodiumChloride() float64 { return float64((1 - s.Moisture) * s.Purity) }

// Insoluble returns the mass of insoluble matter in one kg as delivered.
func (s RockSalt) Insoluble() float64 { return float64((1 - s.Moisture) * (1 - s.Purity)) }
