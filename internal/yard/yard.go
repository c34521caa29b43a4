// Package yard holds what a yard has and how it works, one type each. Package yard/file
// reads it from a file. What is 0 is not known, unless a pointer says otherwise.
package yard

import "brineyard/internal/quantity"

// Yard is all that a yard has.
type Yard struct {
	Path        string // of the file
	Name        string
	Units       *quantity.System
	Target      Target
	Calibration quantity.Temperature // for which the yard's hydrometer is marked
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
}

// Target is the true strength wanted and the band that may be pumped; nil where the file
// does not say.
type Target struct {
	Strength, Low, High *quantity.Strength
}

// Pile is the rock salt of the yard.
type Pile struct {
	Quality RockSalt       // as far as the file says
	Bucket  quantity.Mass  // one load of the loader
	OnHand  *quantity.Mass // nil where the file does not say
}

// Supply is the fresh water.
type Supply struct {
	Flow        quantity.Flow
	Temperature quantity.Temperature
}

// Pump is the pump that circulates, pumps off and loads.
type Pump struct {
	Flow  quantity.Flow
	Power quantity.Power
}

// Prices are what the yard pays; nil where not known.
type Prices struct {
	Salt    *quantity.PricePerMass
	Water   *quantity.PricePerVolume
	Labour  *quantity.PricePerTime
	Driving *quantity.PricePerLength
	DrySalt quantity.MassPerLength // rate of dry salt to compare with; 0 for none
}
