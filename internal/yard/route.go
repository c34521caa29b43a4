package yard

import "brineyard/internal/quantity"

// Route is sprayed on lanes or on an area, at a rate; or salt is spread on its lanes at
// SaltRate, wetted with Prewet of liquid.
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
	Priority int      // 1 comes first; 0 means none
	Trucks   []string // the only ones for it; none for any
}

// LaneWidth is the width of a lane, by which areas count as lanes. Common practice, no source.
const LaneWidth = 12 * quantity.Foot

// Length returns the length of lanes in one pass.
func (r Route) Length() quantity.Length {
	if r.Area > 0 {
		return quantity.Length(float64(r.Area) / float64(LaneWidth))
	}
	return r.Lanes
}

// Volume returns the liquid that all passes of a route take.
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

// Route finds a route by name.
func (y *Yard) Route(name string) (Route, bool) {
	return named(y.Routes, name, func(r Route) string { return r.Name })
}

// RouteNames lists the routes in the order of the file.
func (y *Yard) RouteNames() []string {
	var names []string
	for _, r := range y.Routes {
		names = append(names, r.Name)
	}
	return names
}
