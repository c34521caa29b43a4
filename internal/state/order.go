package state

import (
	"cmp"
	"slices"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// Order is what was ordered and has not come yet.
type Order struct {
	Entry  int
	Time   time.Time
	Due    time.Time // zero where the row does not say
	Liquid string    // empty for salt
	// Salt or Volume is what is still to come.
	Salt   quantity.Mass
	Volume quantity.Volume
}

// mostOrders is how many open orders of one thing are kept: of more, some have come and nobody
// recorded it.
const mostOrders = 1000

// nearlyAll is the part of an order that settles it: a truck is never filled to the pound.
// Common practice, no source.
const nearlyAll = 0.95

// order notes what is to come.
func (s *State) order(e *journal.Entry) {
	o := Order{Entry: e.Number, Time: e.Time, Liquid: e.Liquid}
	switch {
	case e.Salt != nil:
		o.Salt, o.Liquid = *e.Salt, ""
	case e.Volume != nil && e.Liquid != "":
		o.Volume = *e.Volume
	default:
		s.leaveOut(e, "an order without salt, or volume and liquid: left out")
		return
	}
	if e.Due != nil {
		o.Due = *e.Due
	}
	open := s.orders[o.Liquid]
	if len(open) == mostOrders {
		s.problem(e, "too many orders of the same are open: the oldest is taken as come")
		open = slices.Delete(open, 0, 1)
	}
	s.orders[o.Liquid] = append(open, o)
}

// arrived takes a delivery off the orders of the same thing, the oldest first.
func (s *State) arrived(liquid string, amount float64) {
	open := s.orders[liquid]
	for len(open) > 0 && amount > 0 {
		o := &open[0]
		wanted := float64(o.Salt) + float64(o.Volume) // one of them is 0
		if amount < nearlyAll*wanted {
			left := 1 - amount/wanted
			o.Salt *= quantity.Mass(left)
			o.Volume *= quantity.Volume(left)
			break
		}
		amount -= wanted
		open = slices.Delete(open, 0, 1)
	}
	if len(open) == 0 {
		delete(s.orders, liquid)
		return
	}
	s.orders[liquid] = open
}

// Orders returns what is still to come, by the day on which it is due.
func (s *State) Orders() []Order {
	var all []Order
	for _, open := range byName(s.orders) {
		all = append(all, open...)
	}
	slices.SortStableFunc(all, func(a, b Order) int { return cmp.Or(a.Due.Compare(b.Due), cmp.Compare(a.Entry, b.Entry)) })
	return all
}
