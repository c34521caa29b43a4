package yard

import "brineyard/internal/quantity"

// Truck is a truck that sprays.
type Truck struct {
	Name    string
	Tank    quantity.Volume
	Empty   quantity.Mass // weight when empty
	Gross   quantity.Mass // limit of the whole
	Width   quantity.Width
	Nozzles int
	Speed   quantity.Speed // while spraying and on the way
	Aboard  *Held          // what stands in its tank; nil means unknown
	Axles   *Axles         // nil means unknown
	// Boom is the most that the boom's pump gives; 0 means unknown.
	Boom quantity.Flow
}

// Axles are what a truck's axles carry and may carry; two close axles behind count as one.
type Axles struct {
	FrontEmpty            quantity.Mass // of the empty truck, on the front axle
	FrontLimit, RearLimit quantity.Mass
	Wheelbase             quantity.Length // from the front axle to the middle of the rear
	Ahead                 quantity.Length // of the middle of the tank, ahead of the middle of the rear; below 0 behind it
}

// Front is the part of a load that rests on the front axle, by the lever: ahead / wheelbase. It is below 0 where the
// tank hangs out behind, and takes weight off the front.
func (a Axles) Front() float64 { return float64(a.Ahead / a.Wheelbase) }

// Truck finds a truck by name.
func (y *Yard) Truck(name string) (Truck, bool) {
	return named(y.Trucks, name, func(t Truck) string { return t.Name })
}
