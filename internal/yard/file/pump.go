package file

import (
	"brineyard/internal/hydraulics"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

func readPump(t *table, y *yard.Yard) { t.readPump(&y.Pump) }

// readOtherPump reads a pump besides the first.
func readOtherPump(t *table, y *yard.Yard) {
	var p yard.Pump
	t.readName(&p.Name)
	t.readPump(&p)
	t.refuse(p.Name == "pump", "name", "pump has the places of the first pump; allowed: another name")
	y.Plumbing.Pumps = append(y.Plumbing.Pumps, p)
}

func (t *table) readPump(p *yard.Pump) {
	t.read(
		number("flow", quantity.ParseFlow, &p.Flow).aboveZero(),
		number("power", quantity.ParsePower, &p.Power).aboveZero(),
		number("efficiency", as[quantity.Fraction](quantity.ParseStrength), &p.Efficiency).aboveZero(),
		curve(&p.Curve),
	)
	t.refuse(p.Efficiency >= 1, "efficiency", "efficiency %v is of no pump; allowed: above 0%% and below 100%%", show(quantity.Strength(p.Efficiency)))
}

// curve is a list of pairs of flow and head, as the maker draws it.
func curve(to *[]hydraulics.Point) key {
	const name = "curve"
	flow := column[quantity.Flow]{"flow", quantity.ParseFlow}
	head := column[quantity.Length]{"head", quantity.ParseWidth}
	return key{name: name, read: func(t *table, value any) bool {
		list, ok := value.([]any)
		t.refuse(!ok, name, "curve takes a list of pairs, like [[\"0gal/min\", \"60ft\"], [\"160gal/min\", \"31ft\"]]")
		pairs(t, name, list, flow, head, func(_ int, q quantity.Flow, h quantity.Length) {
			*to = append(*to, hydraulics.Point{Flow: q, Head: h})
		})
		if ok && len(*to) == len(list) {
			err := hydraulics.CheckCurve(*to)
			t.refuse(err != nil, name, "%v", err)
		}
		return ok
	}}
}

// readDestination reads what the pump moves to a place, once the plumbing is known.
func readDestination(t *table, y *yard.Yard) {
	var r yard.Reach
	t.readName(&r.To)
	t.read(
		number("flow", quantity.ParseFlow, &r.Flow).aboveZero(),
		number("lift", quantity.ParseWidth, &r.Lift),
		flag("trucks", &r.Trucks),
	)
	r.HasLift = t.knows("lift")
	known := append(append([]string(nil), y.Plumbing.Tanks...), y.Plumbing.Outlets...)
	_, ok := words.Match(r.To, known)
	t.refuse(r.To != "" && !ok, "name", "no tank and no outlet is named %s; %s", words.Quoted(r.To), words.Allowed(r.To, known))
	t.refuse(!r.HasLift && r.Flow == 0, "flow", "neither flow nor lift is given; allowed: one of them, or both")
	y.Reaches = append(y.Reaches, r)
}
