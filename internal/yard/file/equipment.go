package file

import (
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

func readPump(t *table) yard.Pump {
	flow := quantityOf(t, "flow", quantity.ParseFlow)
	positive(t, "flow", flow)
	power := quantityOf(t, "power", quantity.ParsePower)
	t.done()
	return yard.Pump{Flow: orZero(flow), Power: orZero(power)}
}

// orZero returns what p points to; zero when the file does not say.
func orZero[Q any](p *Q) Q {
	if p == nil {
		var zero Q
		return zero
	}
	return *p
}

// positive refuses nothing where something is meant.
func positive[Q ~float64](t *table, key string, q *Q) {
	if q != nil && *q <= 0 {
		t.fault(key, "%s%s is nothing; allowed: above 0", t.label(), key)
	}
}

func readTruck(t *table, taken names) yard.Truck {
	k := yard.Truck{Name: t.uniqueName(taken)}
	tank := quantityOf(t, "tank", quantity.ParseVolume)
	empty := quantityOf(t, "empty_weight", quantity.ParseMass)
	gross := quantityOf(t, "gross_limit", quantity.ParseMass)
	k.Nozzles = t.count("nozzles")
	speed := quantityOf(t, "speed", quantity.ParseSpeed)
	positive(t, "speed", speed)
	width := quantityOf(t, "spray_width", quantity.ParseWidth)
	t.needed("tank")
	positive(t, "tank", tank)
	positive(t, "spray_width", width)
	switch {
	case gross != nil && empty != nil && *gross <= *empty:
		t.fault("gross_limit", "%sgross_limit %v is not above empty_weight %v", t.label(), show(*gross), show(*empty))
	case (gross == nil) != (empty == nil):
		t.fault("gross_limit", "%sgross_limit and empty_weight go together; allowed: both or neither", t.label())
	}
	t.done()
	k.Tank, k.Empty, k.Gross, k.Speed, k.Width = orZero(tank), orZero(empty), orZero(gross), orZero(speed), quantity.Width(orZero(width))
	return k
}

// needed reports a key that is not there.
func (t *table) needed(key string) {
	if _, there := t.value[key]; !there {
		t.fault(key, "%s%s is missing", t.label(), key)
	}
}

// count reads a whole number above zero; 0 when it is not there.
func (t *table) count(key string) int {
	v, ok := t.take(key)
	if !ok {
		return 0
	}
	n, ok := v.(int64)
	if !ok || n < 1 || n > 1000 {
		t.fault(key, "%s%s takes a whole number; allowed: 1 to 1000", t.label(), key)
		return 0
	}
	return int(n)
}

func readRoute(t *table, taken names, y *yard.Yard) yard.Route {
	r := yard.Route{Name: t.uniqueName(taken)}
	lanes := quantityOf(t, "lane_miles", quantity.ParseLength)
	area := quantityOf(t, "area", quantity.ParseArea)
	prewet := quantityOf(t, "prewet", quantity.ParseVolumePerMass)
	saltRate := quantityOf(t, "salt_rate", quantity.ParseMassPerLength)
	r.Passes, r.Priority, r.Liquid, r.Truck = t.count("passes"), t.count("priority"), t.text("liquid"), t.text("truck")
	if _, ok := y.Truck(r.Truck); r.Truck != "" && !ok {
		t.fault("truck", "%sno truck is named %s", t.label(), words.Quoted(r.Truck))
	}
	if r.Liquid != "" && !y.Sprays(r.Liquid) {
		t.fault("liquid", "%sno liquid and no blend is named %s", t.label(), words.Quoted(r.Liquid))
	}
	if (prewet == nil) != (saltRate == nil) {
		t.fault("prewet", "%sprewet and salt_rate go together; allowed: both or neither", t.label())
	}
	if prewet != nil && (t.value["rate"] != nil || area != nil) {
		t.fault("prewet", "%sa pre-wetted route has lane_miles and salt_rate, and no rate or area", t.label())
	}
	positive(t, "lane_miles", lanes)
	positive(t, "area", area)
	switch {
	case lanes != nil && area != nil:
		t.fault("area", "%slane_miles and area are two sizes; allowed: one of them", t.label())
	case lanes == nil && area == nil && t.value["lane_miles"] == nil && t.value["area"] == nil:
		t.fault("lane_miles", "%sits size is missing; allowed: lane_miles or area", t.label())
	case area != nil:
		r.AreaRate = orZero(quantityOf(t, "rate", quantity.ParseRatePerArea))
	default:
		r.Rate = orZero(quantityOf(t, "rate", quantity.ParseRatePerLength))
	}
	t.take("rate")
	t.done()
	r.Lanes, r.Area, r.Prewet, r.SaltRate = orZero(lanes), orZero(area), orZero(prewet), orZero(saltRate)
	return r
}

func readBlend(t *table, taken names, y *yard.Yard) yard.Blend {
	b := yard.Blend{Name: t.uniqueName(taken), Additive: t.text("additive")}
	share := quantityOf(t, "share", quantity.ParseStrength)
	t.needed("additive")
	t.needed("share")
	if _, ok := y.Liquid(b.Additive); !ok && b.Additive != "" {
		t.fault("additive", "%sno liquid is named %s", t.label(), words.Quoted(b.Additive))
	}
	if share != nil && (*share <= 0 || *share >= 1) {
		t.fault("share", "%sshare %v is no part of a blend; allowed: above 0%% and below 100%%", t.label(), show(*share))
	}
	t.done()
	b.Share = quantity.Fraction(orZero(share))
	return b
}

// readPrices adds the prices that have a table of their own.
func readPrices(t *table, p *yard.Prices) {
	p.Water = quantityOf(t, "water", quantity.ParsePricePerVolume)
	p.Labour = quantityOf(t, "labour", quantity.ParsePricePerTime)
	p.Driving = quantityOf(t, "driving", quantity.ParsePricePerLength)
	p.DrySalt = orZero(quantityOf(t, "dry_salt", quantity.ParseMassPerLength))
	t.done()
}

func readCleaning(t *table) quantity.Volume {
	every := quantityOf(t, "every", quantity.ParseVolume)
	positive(t, "every", every)
	t.done()
	return orZero(every)
}

// sides are the words for the side of the pump.
var sides = map[string]bool{"": true, "suction": true, "discharge": true, "fill": true}

// readPlumbing reads outlets, lines and valves, once the tanks are known.
func readPlumbing(root *table, y *yard.Yard) yard.Plumbing {
	t := root.sub("plumbing")
	p := yard.Plumbing{Outlets: t.texts("outlets")}
	for _, tank := range y.Tanks {
		p.Tanks = append(p.Tanks, tank.Name)
	}
	t.done()
	taken := names{}
	for _, kind := range []string{"line", "valve"} {
		for _, t := range root.list(kind) {
			p.Links = append(p.Links, readLink(t, taken, kind == "valve"))
		}
	}
	checkPlumbing(root, p)
	return p
}

func readLink(t *table, taken names, valve bool) yard.Link {
	l := yard.Link{Name: t.uniqueName(taken), Valve: valve, Side: t.text("side")}
	if !sides[l.Side] {
		t.fault("side", "%sside %s is none of the pump's; allowed: suction, discharge, fill", t.label(), words.Quoted(l.Side))
	}
	switch protection := t.text("protection"); protection {
	case "":
	case "air gap", "backflow preventer":
		l.Protected = true
	default:
		t.fault("protection", "%sprotection %s is unknown; allowed: air gap, backflow preventer", t.label(), words.Quoted(protection))
	}
	ends := t.texts("joins")
	t.needed("joins")
	if _, there := t.value["joins"]; there {
		switch {
		case len(ends) != 2:
			t.fault("joins", "%sjoins takes two places, like [\"north\", \"pump-in\"]", t.label())
		case ends[0] == ends[1]:
			t.fault("joins", "%sit joins %s with itself", t.label(), words.Quoted(ends[0]))
		default:
			l.A, l.B = ends[0], ends[1]
		}
	}
	t.done()
	return l
}

// texts reads a list of strings.
func (t *table) texts(key string) []string {
	v, ok := t.take(key)
	if !ok {
		return nil
	}
	list, isList := v.([]any)
	var out []string
	for _, e := range list {
		if s, ok := e.(string); ok && strings.TrimSpace(s) != "" {
			out = append(out, s)
		}
	}
	if !isList || len(out) != len(list) {
		t.fault(key, "%s%s takes a list of names in quotes", t.label(), key)
		return nil
	}
	return out
}

// checkPlumbing reports places that lead nowhere: a joint of one link, an outlet that
// nothing joins, a tank and an outlet of one name.
func checkPlumbing(root *table, p yard.Plumbing) {
	degree := map[string]int{}
	for _, l := range p.Links {
		degree[l.A]++
		degree[l.B]++
	}
	known := map[string]bool{yard.PumpInlet: true, yard.PumpOutlet: true, yard.FreshWater: true}
	for _, tank := range p.Tanks {
		known[tank] = true
	}
	for _, o := range p.Outlets {
		if known[o] {
			root.r.fault("plumbing", 0, "outlets", "plumbing: outlet %s has the name of a tank or of the pump", words.Quoted(o))
		}
		if degree[o] == 0 {
			root.r.fault("plumbing", 0, "outlets", "plumbing: nothing joins outlet %s", words.Quoted(o))
		}
		known[o] = true
	}
	count := map[bool]int{}
	for _, l := range p.Links {
		for _, place := range []string{l.A, l.B} {
			if place != "" && !known[place] && degree[place] < 2 {
				kind := map[bool]string{true: "valve", false: "line"}[l.Valve]
				root.r.fault(kind, count[l.Valve], "joins", "%s %s: %s is no tank, no outlet, and joins nothing else; allowed: a tank, an outlet, pump-in, pump-out, supply, or a joint that another link shares",
					kind, words.Quoted(l.Name), words.Quoted(place))
			}
		}
		count[l.Valve]++
	}
}
