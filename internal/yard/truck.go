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
}

// Truck finds a truck by name.
func (y *Yard) Truck(name string) (Truck, bool) {
	return named(y.Trucks, name, func(t Truck) string { return t.Name })
}
