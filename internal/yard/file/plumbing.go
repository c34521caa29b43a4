package file

import (
	"slices"

	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// readPlumbing reads the outlets, once the tanks are known.
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
	var protection string
	var ends []string
	t.read(text("side", &l.Side), text("protection", &protection), names("joins", &ends).needed())
	t.oneOf("side", l.Side, "is none of the pump's", "suction", "discharge", "fill")
	t.oneOf("protection", protection, "is unknown", "air gap", "backflow preventer")
	l.Protected = protection == "air gap" || protection == "backflow preventer"
	switch {
	case !t.has("joins"):
	case len(ends) != 2:
		t.fault("joins", "joins takes two places, like [\"north\", \"pump-in\"]")
	case ends[0] == ends[1]:
		t.fault("joins", "it joins %s with itself", words.Quoted(ends[0]))
	default:
		l.A, l.B = ends[0], ends[1]
	}
	y.Plumbing.Links = append(y.Plumbing.Links, l)
}

// oneOf refuses a word that is not among a few; problem completes the sentence.
func (t *table) oneOf(key, word, problem string, allowed ...string) {
	t.refuse(word != "" && !slices.Contains(allowed, word), key, "%s %s %s; allowed: %s", key, words.Quoted(word), problem, words.Joined(allowed, ""))
}

// checkPlumbing reports places that lead nowhere: a joint of one link, an outlet that nothing
// joins, a tank and an outlet of one name.
func checkPlumbing(r *reader, p yard.Plumbing) {
	degree := map[string]int{}
	for _, l := range p.Links {
		degree[l.A]++
		degree[l.B]++
	}
	known := append([]string{yard.PumpInlet, yard.PumpOutlet, yard.FreshWater}, p.Tanks...)
	plumbing := &table{r: r, name: "plumbing"}
	for _, o := range p.Outlets {
		plumbing.refuse(slices.Contains(known, o), "outlets", "outlet %s has the name of a tank or of the pump", words.Quoted(o))
		plumbing.refuse(degree[o] == 0, "outlets", "nothing joins outlet %s", words.Quoted(o))
		known = append(known, o)
	}
	count := map[string]int{}
	for _, l := range p.Links {
		kind := map[bool]string{true: "valve", false: "line"}[l.Valve]
		link := &table{r: r, name: kind, index: count[kind], value: map[string]any{"name": l.Name}}
		for _, place := range []string{l.A, l.B} {
			link.refuse(place != "" && !slices.Contains(known, place) && degree[place] < 2, "joins",
				"%s is no tank, no outlet, and joins nothing else; allowed: a tank, an outlet, pump-in, pump-out, supply, or a joint that another link shares", words.Quoted(place))
		}
		count[kind]++
	}
}
