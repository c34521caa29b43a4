// Package yard holds what a yard has and how it works, one type each. Package yard/file
// reads it from a file. Zero means unknown; a field of which 0 is a value is a pointer, and
// nil means unknown there.
package yard

import (
	"slices"
	"time"

	"brineyard/internal/quantity"
)

// Yard is all that a yard has.
type Yard struct {
	Path        string // of the file
	Journal     string // path of what says how it stands; empty for the file alone
	Name        string
	Units       *quantity.System
	Target      Target
	Calibration quantity.Temperature // for which the hydrometer is marked; see HydrometerCalibration
	Checked     time.Time            // when the hydrometer was last checked; zero for never
	Glasses     []Glass
	Thermometer Thermometer
	Pile        Pile
	Supply      Supply
	Pump        Pump
	CleanEvery  quantity.Volume // of brine made, between cleanings of a mixing tank
	Tanks       []Tank          // mixing tanks first
	Liquids     []Liquid
	Blends      []Blend
	Prices      Prices
	Trucks      []Truck
	Routes      []Route
	Plumbing    Plumbing
	Reaches     []Reach
	WeakLines   []WeakLine // as the journal has them
}

// Target is the true strength wanted and the band that may be pumped. Band fills in what the
// file does not say.
type Target struct {
	Strength, Low, High *quantity.Strength
}

// Pile is the rock salt of the yard.
type Pile struct {
	Quality RockSalt             // as the file has it; RockSalt fills in the rest
	Bucket  quantity.Mass        // one load of the loader
	Bulk    quantity.BulkDensity // of loose salt; 0 where not known
	Angle   quantity.Angle       // of repose; 0 where not known
	OnHand  *quantity.Mass       // nil means unknown
	Said    Said                 // of OnHand
	// QualitySaid is of Quality: the last delivery that changed it.
	QualitySaid Said
}

// Supply is the fresh water.
type Supply struct {
	Flow        quantity.Flow
	Temperature quantity.Temperature
	Tank        quantity.Volume // of the fresh-water tank, which the supply refills; 0 for none
	TankFlow    quantity.Flow   // out of it; 0 for that of the pump
}

// Reach is what the pump moves to a place.
type Reach struct {
	To   string          // a tank or an outlet
	Flow quantity.Flow   // measured there; 0 where it was not
	Lift quantity.Length // from the level that is drawn from to the place; nothing where HasLift is not set
	// HasLift tells whether the file says the lift.
	HasLift bool
	Trucks  bool // whether trucks are loaded there
}

// Reach finds what the pump moves to a place.
func (y *Yard) Reach(to string) (Reach, bool) {
	return named(y.Reaches, to, func(r Reach) string { return r.To })
}

// LoadingPoint is where trucks are loaded: the destination that the file says so of, else the only outlet that is one;
// empty where there is none.
func (y *Yard) LoadingPoint() string {
	only, outlets := "", 0
	for _, r := range y.Reaches {
		if r.Trucks {
			return r.To
		}
		if slices.Contains(y.Plumbing.Outlets, r.To) {
			only, outlets = r.To, outlets+1
		}
	}
	if outlets != 1 {
		return ""
	}
	return only
}

// Prices are what the yard pays; nil means unknown.
type Prices struct {
	Salt    *quantity.PricePerMass
	Water   *quantity.PricePerVolume
	Labour  *quantity.PricePerTime
	Driving *quantity.PricePerLength
	DrySalt quantity.MassPerLength // rate of dry salt to compare with; 0 for none
}
