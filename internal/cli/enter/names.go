package enter

import (
	"brineyard/internal/cli/bind"
	"brineyard/internal/journal"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// DrawnOff names, in the journal, the place of brine that was drawn off into no named tank.
const DrawnOff = "drawn-off"

// Names gives the names of an entry the spelling of the yard file, and refuses a name that it
// does not have; nil for none. Without a file every name stands.
func (d Desk) Names(e *journal.Entry) *Refusal {
	if d.Yard == nil {
		return nil
	}
	for _, n := range d.names(e) {
		if *n.name == "" {
			continue
		}
		name, known := words.Match(*n.name, n.known)
		if !known {
			return d.refuse(n.field, *n.name, "not in %s; %s", d.Yard.Path, words.Allowed(*n.name, n.known))
		}
		*n.name = name
	}
	return nil
}

// name is a name of an entry, with those that it may be.
type name struct {
	field string
	name  *string
	known []string
}

func (d Desk) names(e *journal.Entry) []name {
	into, from := bind.TankNames(d.Yard), bind.TankNames(d.Yard)
	switch e.Kind {
	case journal.Count:
		into = append(into, journal.Pile)
	case journal.Transfer:
		into, from = append(into, DrawnOff), append(from, DrawnOff)
	}
	return []name{
		{"tank", &e.Tank, into},
		{"from", &e.From, from},
		{"truck", &e.Truck, bind.TruckNames(d.Yard)},
		{"route", &e.Route, bind.RouteNames(d.Yard)},
		{"liquid", &e.Liquid, bind.LiquidNames(d.Yard)},
		{"line", &e.Line, LineNames(d.Yard)},
	}
}

// LineNames lists the lines and valves of the yard's plumbing.
func LineNames(y *yard.Yard) []string {
	var names []string
	for _, l := range y.Plumbing.Links {
		names = append(names, l.Name)
	}
	return names
}
