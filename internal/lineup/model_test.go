package lineup

import (
	"fmt"
	"slices"
	"testing"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawPlumbing draws tanks, outlets and joints with links between them at random: valves, lines, check valves, three-way
// valves, one pump or two, a fresh-water tank or none.
func drawPlumbing(t *rapid.T) yard.Plumbing {
	p := yard.Plumbing{Supply: quantity.Flow(rapid.IntRange(0, 2).Draw(t, "supply"))}
	for i := range rapid.IntRange(1, 4).Draw(t, "tanks") {
		p.Tanks = append(p.Tanks, fmt.Sprintf("tank-%d", i))
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "outlets") {
		p.Outlets = append(p.Outlets, fmt.Sprintf("outlet-%d", i))
	}
	p.Pumps = []yard.Pump{{Flow: quantity.Flow(rapid.IntRange(0, 2).Draw(t, "flow"))}}
	places := append(append([]string{yard.FreshWater, yard.PumpInlet, yard.PumpOutlet}, p.Tanks...), p.Outlets...)
	if rapid.IntRange(0, 2).Draw(t, "second pump") == 0 {
		p.Pumps = append(p.Pumps, yard.Pump{Name: "loading"})
		places = append(places, "loading-in", "loading-out")
	}
	if rapid.IntRange(0, 3).Draw(t, "water tank") == 0 {
		places = append(places, yard.WaterTank)
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "joints") {
		places = append(places, fmt.Sprintf("joint-%d", i))
	}
	other := func(not ...string) string {
		left := slices.DeleteFunc(slices.Clone(places), func(s string) bool { return slices.Contains(not, s) })
		return rapid.SampledFrom(left).Draw(t, "place")
	}
	for i := range rapid.IntRange(1, 14).Draw(t, "links") {
		a := other()
		l := yard.Link{Name: fmt.Sprintf("V%d", i), A: a, B: other(a), Valve: true}
		switch rapid.IntRange(0, 9).Draw(t, "kind") {
		case 0, 1:
			l.Valve = false
		case 2:
			l.OneWay, l.Valve = true, rapid.Bool().Draw(t, "valve")
		case 3:
			way := l
			way.B = other(a, l.B)
			for _, w := range []yard.Link{l, way} {
				w.Turns, w.Name = l.Name, l.Name+":"+w.B
				p.Links = append(p.Links, w)
			}
			continue
		}
		l.Protected = rapid.Bool().Draw(t, "protected")
		p.Links = append(p.Links, l)
	}
	return p
}

// A model of a plumbing that shares no code with the package: liquid passes from one end of an open link to the other, and
// between the ends of links at a joint, and at a side of a pump; a pump that stands still is a link. A tank, an
// outlet or the supply is taken apart into one place a link. What it passes is closed by Warshall's rule.

// end is one of the two ends of a link: 2 i and 2 i + 1 of link i.
type model struct {
	yard.Plumbing
	pump yard.Pump
	open map[string]bool
}

func (m model) placeOf(end int) string {
	return [2]string{m.Links[end/2].A, m.Links[end/2].B}[end%2]
}

// passes closes the relation of ends between which liquid passes; bare leaves protected links out, and check valves
// do not count.
func (m model) passes(bare bool) [][]bool {
	n := 2 * len(m.Links)
	to := make([][]bool, n)
	for i := range to {
		to[i] = make([]bool, n)
		to[i][i] = true
	}
	for i, l := range m.Links {
		if (!l.Valve || m.open[l.Name]) && !(bare && l.Protected) {
			to[2*i][2*i+1] = true
			to[2*i+1][2*i] = !l.OneWay || bare
		}
	}
	apart := slices.Concat(m.Tanks, m.Outlets, []string{yard.FreshWater, yard.WaterTank})
	for e := range n {
		for f := range n {
			a, b := m.placeOf(e), m.placeOf(f)
			if a == b && !slices.Contains(apart, a) {
				to[e][f] = true
			}
		}
	}
	for via := range n {
		for e := range n {
			for f := range n {
				to[e][f] = to[e][f] || to[e][via] && to[via][f]
			}
		}
	}
	return to
}

// flows returns the relation of places from one to the other of which liquid passes.
func (m model) flows(bare bool) func(a, b string) bool {
	to := m.passes(bare)
	return func(a, b string) bool {
		for e := range to {
			for f := range to {
				if to[e][f] && e != f && m.placeOf(e) == a && m.placeOf(f) == b {
					return true
				}
			}
		}
		return false
	}
}

// findings are what is wrong with the pump running, told from the relation alone.
func (m model) findings() (all []Finding) {
	flows, creeps := m.flows(false), m.flows(true)
	from := func(with func(a, b string) bool, a string, places ...string) (some []string) {
		for _, place := range places {
			if with(a, place) {
				some = append(some, place)
			}
		}
		return some
	}
	tell := func(f Fault, when bool, places []string) {
		if when {
			all = append(all, Finding{f, places})
		}
	}
	ends, in, out := slices.Concat(m.Tanks, m.Outlets), m.pump.In(), m.pump.Out()
	comes := func(a, b string) bool { return flows(b, a) }
	vessels := slices.Concat(m.Tanks, []string{yard.WaterTank})
	sources := from(comes, in, slices.Concat(m.Tanks, []string{yard.FreshWater, yard.WaterTank})...)
	outlets, air := from(flows, out, ends...), from(comes, in, m.Outlets...)
	places := ends
	for _, p := range m.Pumps {
		places = slices.Concat(places, []string{p.In(), p.Out()})
	}
	ring, touched := flows(out, in), from(creeps, yard.FreshWater, places...)
	tell(Ring, ring, nil)
	tell(DryRun, !ring && len(sources) == 0, nil)
	tell(TwoSources, !ring && len(sources) > 1, sources)
	short := m.Supply > 0 && m.pump.Flow > m.Supply
	tell(SupplyShort, !ring && short && len(sources) == 1 && sources[0] == yard.FreshWater, []string{yard.FreshWater})
	tell(DrawsAir, !ring && air != nil, air)
	tell(DeadHead, !ring && outlets == nil, nil)
	tell(TwoOutlets, !ring && len(outlets) > 1, outlets)
	tell(Backflow, touched != nil, touched)
	round := len(sources) == 1 && len(outlets) == 1 && sources[0] == outlets[0]
	filled := from(flows, yard.FreshWater, ends...)
	tell(FillOpen, round && slices.Contains(filled, outlets[0]), outlets)
	for i, a := range vessels {
		for _, b := range vessels[i+1:] {
			tell(TanksJoined, flows(a, b) || flows(b, a), []string{a, b})
		}
	}
	for _, b := range filled {
		tell(AlsoRuns, !(round && b == outlets[0]), []string{yard.FreshWater, b})
	}
	for _, a := range vessels {
		for _, b := range from(flows, a, m.Outlets...) {
			tell(AlsoRuns, !(flows(out, a) && flows(out, b)), []string{a, b})
		}
	}
	return all
}

// withIdle adds the pumps that stand still as links: liquid passes them.
func withIdle(p yard.Plumbing, running yard.Pump) yard.Plumbing {
	for _, other := range p.AllPumps() {
		if other.Name != running.Name {
			p.Links = append(p.Links[:len(p.Links):len(p.Links)], yard.Link{A: other.In(), B: other.Out()})
		}
	}
	return p
}

// moves tells from where to where a setting pumps, if nothing is wrong with it.
func (m model) moves() (from, to string, good bool) {
	if len(m.findings()) > 0 {
		return "", "", false
	}
	flows := m.flows(false)
	for _, place := range slices.Concat(m.Tanks, []string{yard.FreshWater, yard.WaterTank}) {
		if flows(place, m.pump.In()) {
			from = place
		}
	}
	for _, place := range slices.Concat(m.Tanks, m.Outlets) {
		if flows(m.pump.Out(), place) {
			to = place
		}
	}
	return from, to, true
}

// twice is two rounds of a hundred draws.
func twice(t *testing.T, property func(*rapid.T)) {
	rapid.Check(t, property)
	rapid.Check(t, property)
}

// On 200 generated plumbings and settings what is found is what the model finds, in its
// order and with its places.
func TestJudgeFindsWhatTheModelFinds(t *testing.T) {
	kinds := map[Fault]bool{}
	check := func(t *rapid.T) {
		m := model{Plumbing: drawPlumbing(t), open: map[string]bool{}}
		m.pump = rapid.SampledFrom(m.Pumps).Draw(t, "pump")
		judged := m.Plumbing
		m.Plumbing = withIdle(judged, m.pump)
		var names []string
		for _, turn := range m.Turns() {
			way := rapid.SampledFrom(turn.Ways).Draw(t, "way")
			m.open[way] = true
			names = append(names, way)
		}
		for _, l := range m.Links {
			if l.Valve && l.Turns == "" && rapid.Bool().Draw(t, "open "+l.Name) {
				m.open[l.Name] = true
				names = append(names, l.Name)
			}
		}
		s, err := Judge(judged, m.pump.Name, names)
		require.NoError(t, err)
		require.Equal(t, m.findings(), s.Findings)
		for _, f := range s.Findings {
			kinds[f.Fault] = true
		}
	}
	for range 40 { // until each kind has come
		if twice(t, check); len(kinds) == 11 {
			return
		}
	}
	require.Len(t, kinds, 11)
}
