package yard

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
)

// Pump is the pump that circulates, pumps off and loads.
type Pump struct {
	Flow  *quantity.Flow
	Power *quantity.Power
}

// Truck is a truck that sprays.
type Truck struct {
	Name        string
	Tank        *quantity.Volume
	EmptyWeight *quantity.Mass
	GrossLimit  *quantity.Mass
	SprayWidth  *quantity.Width
	Nozzles     int
	Speed       *quantity.Speed // while spraying and on the way
}

// Route is what is sprayed: lanes or an area.
type Route struct {
	Name      string
	LaneMiles *quantity.Length
	Area      *quantity.Area
	Rate      *quantity.RatePerLength
	AreaRate  *quantity.RatePerArea
	Prewet    *quantity.VolumePerMass // liquid on salt, instead of a rate
	SaltRate  *quantity.MassPerLength
	Passes    int
	Priority  int    // 1 comes first; 0 when the file does not say
	Liquid    string // empty for salt brine
	Truck     string // the only truck for it; empty for any
}

// Blend is salt brine with an additive metered into it.
type Blend struct {
	Name     string
	Additive string
	Share    *quantity.Strength // of the additive, by volume
}

// Prices are those that no other table holds.
type Prices struct {
	Water   *quantity.PricePerVolume
	Labour  *quantity.PricePerTime
	Driving *quantity.PricePerLength
	DrySalt *quantity.MassPerLength // rate of dry salt to compare with
}

// Cleaning is how often a mixing tank is cleaned out.
type Cleaning struct {
	Every *quantity.Volume // of brine made
}

// Truck finds a truck by name.
func (y *Yard) Truck(name string) (Truck, bool) {
	for _, t := range y.Trucks {
		if t.Name == name {
			return t, true
		}
	}
	return Truck{}, false
}

// Sprays tells what a route can take: brine, a liquid or a blend.
func (y *Yard) Sprays(name string) bool {
	if _, ok := y.Liquid(name); ok || name == balance.BrineName {
		return true
	}
	for _, b := range y.Blends {
		if b.Name == name {
			return true
		}
	}
	return false
}

// RouteNames lists the routes in the order of the file.
func (y *Yard) RouteNames() []string {
	var names []string
	for _, r := range y.Routes {
		names = append(names, r.Name)
	}
	return names
}
