package records

import (
	"slices"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

// place is where something stands in the yard.
type place struct {
	kind, name string
	holds      report.Value // nothing where it is not known
	salt       report.Value // strength
	of         report.Value
	said       yard.Said
	known      bool
}

// tankPlaces are the tanks: the yard file's in its order, then those that entries alone name.
func tankPlaces(v show.View, y *yard.Yard, now *state.State) []place {
	var all []place
	for _, t := range tanksOf(y, now) {
		all = append(all, stockPlace(v, "tank", &t.Stock))
	}
	return all
}

// tanksOf lists the tanks of the yard file, then those that entries alone name.
func tanksOf(y *yard.Yard, now *state.State) []*state.Tank {
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

// stockPlace is what stands in a tank, on a truck, or of a liquid beside the tanks.
func stockPlace(v show.View, kind string, s *state.Stock) place {
	p := place{kind: kind, name: s.Name, holds: v.Value(s.Volume()), said: s.Said, known: s.Known || s.Mass > 0}
	p.salt, p.of = contents(v, s)
	switch {
	case !p.known:
		p.holds = report.Nothing(p.holds.Unit, "not known")
		p.salt, p.of = report.Nothing("%", "-"), report.Nothing("", "-")
	case !s.Known:
		p.holds.Text = "at least " + p.holds.Text
	}
	return p
}

// otherPlaces are what stands elsewhere than in tanks: on trucks, beside the tanks, on the
// pile and in the beds; and the lines that hold weak brine.
func otherPlaces(v show.View, y *yard.Yard, now *state.State) []place {
	all := truckPlaces(v, y, now)
	for _, t := range tanksOf(y, now) {
		if t.FloorKnown || t.OnFloor > 0 {
			all = append(all, place{"bed", t.Name, v.Value(t.OnFloor), report.Nothing("%", "-"), report.Word("salt"), t.FloorSaid, true})
		}
	}
	for _, s := range now.Beside() {
		all = append(all, stockPlace(v, "liquid", s))
	}
	pile := place{"pile", "pile", v.Value(now.Pile), report.Nothing("%", "-"), report.Word("salt"), now.PileSaid, now.PileKnown && now.Pile >= 0}
	if !pile.known {
		pile.holds = report.Nothing(pile.holds.Unit, "not known")
	}
	all = append(all, pile)
	for _, l := range now.WeakLines() {
		all = append(all, place{"line", l.Name, report.Nothing("", "-"), report.Nothing("%", "-"), report.Word("weak brine"), l.Said, true})
	}
	return all
}

// truckPlaces are the trucks of the yard file, then those that entries alone name.
func truckPlaces(v show.View, y *yard.Yard, now *state.State) []place {
	named := map[string]*state.Truck{}
	for _, k := range now.Trucks() {
		named[k.Name] = k
	}
	var all []place
	if y != nil {
		for _, described := range y.Trucks {
			k := named[described.Name]
			if k == nil {
				k = &state.Truck{Stock: state.Stock{Name: described.Name}}
			}
			all = append(all, truckPlace(v, k))
			delete(named, described.Name)
		}
	}
	for _, k := range now.Trucks() {
		if named[k.Name] != nil {
			all = append(all, truckPlace(v, k))
		}
	}
	return all
}

// truckPlace is what stands on a truck, and for which route.
func truckPlace(v show.View, k *state.Truck) place {
	p := stockPlace(v, "truck", &k.Stock)
	if p.known && k.Mass > 0 && k.Route != "" {
		p.of.Text += ", for " + k.Route
	}
	return p
}

// by is who said what stands there.
func (p place) by() report.Value {
	if !p.known && !p.said.ByJournal() {
		return report.Word("never counted")
	}
	return byValue(p.said)
}

// placesTable lists places, with who said what stands there and how long ago.
func placesTable(key, title string, places []place, now time.Time) report.Table {
	t := report.Table{Key: key, Title: title, Columns: []report.Column{
		{Key: "kind", Label: "What"}, {Key: "name", Label: "Name"}, {Key: "amount", Label: "Holds"}, {Key: "strength", Label: "Salt"},
		{Key: "liquid", Label: "Of"}, {Key: "by", Label: "By"}, {Key: "age", Label: "Age"},
	}}
	for _, p := range places {
		t.Rows = append(t.Rows, []report.Value{
			report.Word(p.kind), report.Word(p.name), p.holds, p.salt, p.of, p.by(), ageValue(p.said, now),
		})
	}
	return t
}
