// Package standing shows what stands where in a yard, by whom it was said, and how long ago.
package standing

import (
	"slices"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

// Place is where something stands in the yard.
type Place struct {
	Kind, Name string
	Holds      report.Value // nothing where it is not known
	Salt       report.Value // strength
	Of         report.Value
	Said       yard.Said
	Known      bool
}

// Tanks are the tanks: the yard file's in its order, then those that entries alone name.
func Tanks(v show.View, y *yard.Yard, now *state.State) []Place {
	var all []Place
	for _, t := range TanksOf(y, now) {
		all = append(all, TankPlace(v, t))
	}
	return all
}

// TankPlace is what stands in a tank: its strength with the digits that its last reading gives.
func TankPlace(v show.View, t *state.Tank) Place {
	p := StockPlace(v, "tank", &t.Stock)
	w, _ := t.Liquid.Strength()
	if span, plain := t.Range(); plain && t.Sure && t.Mass > 0 {
		p.Salt = v.Value(v.Sure(w, span.Half()))
	}
	return p
}

// TanksOf lists the tanks of the yard file, then those that entries alone name.
func TanksOf(y *yard.Yard, now *state.State) []*state.Tank {
	var all []*state.Tank
	if y != nil {
		for _, described := range y.Tanks {
			if t, named := now.Tank(described.Name); named {
				all = append(all, t)
			}
		}
	}
	for _, t := range now.Tanks() {
		if !slices.Contains(all, t) {
			all = append(all, t)
		}
	}
	return all
}

// StockPlace is what stands in a tank, on a truck, or of a liquid beside the tanks.
func StockPlace(v show.View, kind string, s *state.Stock) Place {
	p := Place{Kind: kind, Name: s.Name, Holds: v.Value(s.Volume()), Said: s.Said, Known: s.Known || s.Mass > 0}
	p.Salt, p.Of = contents(v, s)
	switch {
	case !p.Known:
		p.Holds = report.Nothing(p.Holds.Unit, "not known")
		p.Salt, p.Of = report.Nothing("%", "-"), report.Nothing("", "-")
	case !s.Known:
		p.Holds.Text = "at least " + p.Holds.Text
	}
	return p
}

// Others are what stands elsewhere than in tanks: on trucks, beside the tanks, on the
// pile and in the beds; and the lines that hold weak brine.
func Others(v show.View, y *yard.Yard, now *state.State) []Place {
	all := truckPlaces(v, y, now)
	for _, t := range TanksOf(y, now) {
		if t.FloorKnown || t.OnFloor > 0 {
			all = append(all, Place{"bed", t.Name, v.Value(t.OnFloor), report.Nothing("%", "-"), report.Word("salt"), t.FloorSaid, true})
		}
	}
	for _, s := range now.Beside() {
		all = append(all, StockPlace(v, "liquid", s))
	}
	pile := Place{"pile", "pile", v.Value(now.Pile), report.Nothing("%", "-"), report.Word("salt"), now.PileSaid, now.PileKnown && now.Pile >= 0}
	if !pile.Known {
		pile.Holds = report.Nothing(pile.Holds.Unit, "not known")
	}
	all = append(all, pile)
	for _, l := range now.WeakLines() {
		all = append(all, Place{"line", l.Name, report.Nothing("", "-"), report.Nothing("%", "-"), report.Word("weak brine"), l.Said, true})
	}
	return all
}

// truckPlaces are the trucks of the yard file, then those that entries alone name.
func truckPlaces(v show.View, y *yard.Yard, now *state.State) []Place {
	named := map[string]*state.Truck{}
	for _, k := range now.Trucks() {
		named[k.Name] = k
	}
	var all []Place
	if y != nil {
		for _, described := range y.Trucks {
			k := named[described.Name]
			if k == nil {
				k = &state.Truck{Stock: state.Stock{Name: described.Name}}
			}
			all = append(all, StockPlace(v, "truck", &k.Stock))
			delete(named, described.Name)
		}
	}
	for _, k := range now.Trucks() {
		if named[k.Name] != nil {
			all = append(all, StockPlace(v, "truck", &k.Stock))
		}
	}
	return all
}

// By is who said what stands there.
func (p Place) By() report.Value {
	if !p.Known && !p.Said.ByJournal() {
		return report.Word("never counted")
	}
	return By(p.Said)
}

// Table lists places, with who said what stands there and how long ago.
func Table(key, title string, places []Place, now time.Time) report.Table {
	t := report.Table{Key: key, Title: title, Columns: []report.Column{
		{Key: "kind", Label: "What"}, {Key: "name", Label: "Name"}, {Key: "amount", Label: "Holds"}, {Key: "strength", Label: "Salt"},
		{Key: "liquid", Label: "Of"}, {Key: "by", Label: "By"}, {Key: "age", Label: "Age"},
	}}
	for _, p := range places {
		t.Rows = append(t.Rows, []report.Value{
			report.Word(p.Kind), report.Word(p.Name), p.Holds, p.Salt, p.Of, p.By(), Age(p.Said, now),
		})
	}
	return t
}
