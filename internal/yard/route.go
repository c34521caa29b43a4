package yard

import "brineyard/internal/quantity"

// Route is what is sprayed: lanes or an area, at a rate, or lanes on which Prewet of liquid
// goes on SaltRate of salt.
type Route struct {
	Name     string
	Liquid   string // empty for salt brine
	Lanes    quantity.Length
	Area     quantity.Area
	Rate     quantity.RatePerLength
	AreaRate quantity.RatePerArea
	Prewet   quantity.VolumePerMass
	SaltRate quantity.MassPerLength
	Passes   int
	Priority int    // 1 comes first; 0 when the file does not say
	Truck    string // the only truck for it; empty for any
}

// LaneWidth turns areas into lanes, as the trade does.
const LaneWidth = 12 * quantity.Foot

// Length returns the length of lanes that a route has in one pass.
func (r Route) Length() quantity.Length {
	if r.Area > 0 {
		return quantity.Length(float64(r.Area) / float64(LaneWidth))
	}
	return r.Lanes
}

// Volume returns what all passes of a route take.
func (r Route) Volume() quantity.Volume {
	passes := float64(max(1, r.Passes))
	switch {
	case r.Area > 0:
		return quantity.Volume(float64(r.AreaRate) * float64(r.Area) * passes)
	case r.Prewet > 0:
		return quantity.Volume(float64(r.Prewet) * float64(r.SaltRate) * float64(r.Lanes) * passes)
	}
	return quantity.Volume(float64(r.Rate) * float64(r.Lanes) * passes)
}

// Salt returns the dry salt that a pre-wetted route takes.
func (r Route) Salt() quantity.Mass {
	if r.Prewet == 0 {
		return 0
	}
	return quantity.Mass(float64(r.SaltRate) * float64(r.Lanes) * float64(max(1, r.Passes)))
}

// RouteNames lists the routes in the order of the file.
func (y *Yard) RouteNames() []string {
	var names []string
	for _, r := range y.Routes {
		names = append(names, r.Name)
	}
	return names
}
