package storm

import (
	"slices"

	"brineyard/internal/quantity"
)

// Loading is how the trucks are filled, one at a time at the pump.
type Loading struct {
	Loads             []TruckLoad
	FirstOut, LastOut quantity.Duration
	Driven            quantity.Length   // there and back
	OnTheRoad         quantity.Duration // of all trucks
	Trucks            []TruckDay
}

// TruckLoad is a load on its way.
type TruckLoad struct {
	Truck, Route string
	Volume       quantity.Volume
	Start, Out   quantity.Duration
	Back         quantity.Duration
}

// TruckDay sums up the loads of a truck.
type TruckDay struct {
	Truck             string
	Loads             int
	Volume            quantity.Volume
	FirstOut, LastOut quantity.Duration
	Back              quantity.Duration
}

// count adds a load, and to its truck's day.
func (l *Loading) count(load TruckLoad, way quantity.Length) {
	if len(l.Loads) == 0 {
		l.FirstOut = load.Out
	}
	l.Loads = append(l.Loads, load)
	l.LastOut = load.Out
	l.Driven += 2 * way
	l.OnTheRoad += load.Back - load.Out
	at := slices.IndexFunc(l.Trucks, func(d TruckDay) bool { return d.Truck == load.Truck })
	if at < 0 {
		at = len(l.Trucks)
		l.Trucks = append(l.Trucks, TruckDay{Truck: load.Truck, FirstOut: load.Out})
	}
	d := &l.Trucks[at]
	d.Loads++
	d.Volume += load.Volume
	d.LastOut, d.Back = load.Out, load.Back
}

// LastBack is when the last truck is back.
func (l Loading) LastBack() quantity.Duration {
	last := quantity.Duration(0)
	for _, d := range l.Trucks {
		last = max(last, d.Back)
	}
	return last
}
