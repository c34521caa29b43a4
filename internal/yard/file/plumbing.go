package file

import (
	"math"
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// readPlumbing reads the outlets, once tanks, supply and pumps are known.
func readPlumbing(t *table, y *yard.Yard) {
	t.read(names("outlets", &y.Plumbing.Outlets))
	for _, tank := range y.Tanks {
		y.Plumbing.Tanks = append(y.Plumbing.Tanks, tank.Name)
	}
}

// readLink reads a valve or a line.
func readLink(t *table, y *yard.Yard) {
	l := yard.Link{Valve: t.name == "valve"}
	t.readName(&l.Name)
	var protection, material string
	var ends []string
	t.read(
		text("side", &l.Side), text("protection", &protection), names("joins", &ends).needed(), flag("check_valve", &l.OneWay),
		number("length", quantity.ParseWidth, &l.Length), number("diameter", quantity.ParseDepth, &l.Diameter).aboveZero(),
		text("material", &material), plain("fittings", &l.Fittings), number("holds", quantity.ParseVolume, &l.Holds),
	)
	t.oneOf("side", l.Side, "is none of the pump's", "suction", "discharge", "fill")
	t.oneOf("protection", protection, "is unknown", "air gap", "backflow preventer")
	t.oneOf("material", material, "is unknown", "steel", "plastic", "hose")
	t.both("length", "diameter")
	l.AirGap = protection == "air gap"
	l.Protected, l.Steel = l.AirGap || protection == "backflow preventer", material == "steel"
	if l.Holds == 0 {
		l.Holds = quantity.Volume(math.Pi / 4 * float64(l.Diameter) * float64(l.Diameter) * float64(l.Length))
	}
	y.Plumbing.Links = append(y.Plumbing.Links, t.ways(l, ends)...)
}

// ways are the two ends of a link, or the two ways of a three-way valve, whose first place is the common one.
func (t *table) ways(l yard.Link, ends []string) []yard.Link {
	same := len(ends) > 1 && (ends[0] == ends[1] || len(ends) > 2 && (ends[2] == ends[0] || ends[2] == ends[1]))
	switch {
	case !t.has("joins"):
	case len(ends) == 3 && !l.Valve, len(ends) != 2 && len(ends) != 3:
		t.fault("joins", "joins takes two places, like [\"north\", \"pump-in\"], or three of a three-way valve, the common one first")
	case same:
		t.fault("joins", "it joins %s with itself", words.Quoted(ends[0]))
	case len(ends) == 3:
		t.refuse(l.OneWay, "check_valve", "a three-way valve is no check valve; allowed: a line of its own with it")
		var both []yard.Link
		for _, end := range ends[1:] {
			way := l
			way.Turns, way.Name, way.A, way.B = l.Name, l.Name+":"+end, ends[0], end
			both = append(both, way)
		}
		return both
	default:
		l.A, l.B = ends[0], ends[1]
	}
	return []yard.Link{l}
}

// plain is a number without a unit, 0 and above.
func plain(name string, to *float64) key {
	return key{name: name, read: func(t *table, value any) bool {
		switch x := value.(type) {
		case int64:
			*to = float64(x)
		case float64:
			*to = x
		default:
			t.fault(name, "%s is no number; allowed: one without a unit, like 4.5", name)
			return false
		}
		t.refuse(!(*to >= 0 && *to <= 1e4), name, "%s = %v; allowed: 0 to 10000", name, *to)
		return true
	}}
}

// oneOf refuses a word that is not among a few; problem completes the sentence.
func (t *table) oneOf(key, word, problem string, allowed ...string) {
	t.refuse(word != "" && !slices.Contains(allowed, word), key, "%s %s %s; allowed: %s", key, words.Quoted(word), problem, words.Joined(allowed, ""))
}

// checkPlumbing reports places that lead nowhere: a joint of one link, an outlet that nothing
// joins, a tank and an outlet of one name.
func checkPlumbing(r *reader, p yard.Plumbing) {
	degree := map[string]int{}
	for i, l := range p.Links {
		if l.Turns == "" || i == 0 || p.Links[i-1].Turns != l.Turns { // the common place of a three-way valve once
			degree[l.A]++
		}
		degree[l.B]++
	}
	known := append([]string{yard.FreshWater, yard.WaterTank}, p.Tanks...)
	for _, pump := range p.AllPumps() {
		known = append(known, pump.In(), pump.Out())
	}
	plumbing := &table{r: r, name: "plumbing"}
	for _, o := range p.Outlets {
		plumbing.refuse(slices.Contains(known, o), "outlets", "outlet %s has the name of a tank or of the pump", words.Quoted(o))
		plumbing.refuse(degree[o] == 0, "outlets", "nothing joins outlet %s", words.Quoted(o))
		known = append(known, o)
	}
	count, before := map[string]int{}, ""
	for _, l := range p.Links {
		kind := map[bool]string{true: "valve", false: "line"}[l.Valve]
		name := l.Name
		if l.Turns != "" {
			name = l.Turns
		}
		if name == before && l.Turns != "" {
			count[kind]-- // the other way of the same valve
		}
		before = name
		link := &table{r: r, name: kind, index: count[kind], value: map[string]any{"name": name}}
		for _, place := range []string{l.A, l.B} {
			link.refuse(place != "" && !slices.Contains(known, place) && degree[place] < 2, "joins",
				"%s is no tank, no outlet, and joins nothing else; allowed: a tank, an outlet, pump-in, pump-out, supply, water-tank, or a joint that another link shares", words.Quoted(place))
		}
		count[kind]++
	}
}
