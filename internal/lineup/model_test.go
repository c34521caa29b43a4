package lineup

import (
	"fmt"
	"slices"
	"testing"

	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawPlumbing draws tanks, outlets and joints with links between them at random.
func drawPlumbing(t *rapid.T) yard.Plumbing {
	p := yard.Plumbing{}
	for i := range rapid.IntRange(1, 4).Draw(t, "tanks") {
		p.Tanks = append(p.Tanks, fmt.Sprintf("tank-%d", i))
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "outlets") {
		p.Outlets = append(p.Outlets, fmt.Sprintf("outlet-%d", i))
	}
	places := append(append([]string{yard.FreshWater, yard.PumpInlet, yard.PumpOutlet}, p.Tanks...), p.Outlets...)
	for i := range rapid.IntRange(0, 4).Draw(t, "joints") {
		places = append(places, fmt.Sprintf("joint-%d", i))
	}
	for i := range rapid.IntRange(1, 14).Draw(t, "links") {
		a := rapid.IntRange(0, len(places)-1).Draw(t, "a")
		b := rapid.IntRange(0, len(places)-2).Draw(t, "b")
		if b >= a {
			b++
		}
		p.Links = append(p.Links, yard.Link{
			Name: fmt.Sprintf("V%d", i), A: places[a], B: places[b],
			Valve: rapid.IntRange(0, 3).Draw(t, "valve") > 0, Protected: rapid.Bool().Draw(t, "protected"),
		})
	}
	return p
}

// A model of a plumbing that shares no code with the package: liquid passes between the ends
// of an open link, and between the ends of links at a joint or at the pump. A tank, an
// outlet or the supply is taken apart into one place a link.

// end is one of the two ends of a link, by number.
type end struct{ link, side int }

type model struct {
	yard.Plumbing
	open map[string]bool
}

func (m model) placeOf(e end) string {
	return [2]string{m.Links[e.link].A, m.Links[e.link].B}[e.side]
}

// groups joins the ends that liquid passes between; bare leaves protected links out.
func (m model) groups(bare bool) map[end]int {
	group := map[end]int{}
	for i := range m.Links {
		group[end{i, 0}], group[end{i, 1}] = 2*i, 2*i+1
	}
	merge := func(e, f end) {
		a, b := group[e], group[f]
		for x, g := range group {
			if g == b {
				group[x] = a
			}
		}
	}
	for i, l := range m.Links {
		if (!l.Valve || m.open[l.Name]) && !(bare && l.Protected) {
			merge(end{i, 0}, end{i, 1})
		}
	}
	apart := slices.Concat(m.Tanks, m.Outlets, []string{yard.FreshWater})
	for e := range group {
		for f := range group {
			if name := m.placeOf(e); name == m.placeOf(f) && !slices.Contains(apart, name) {
				merge(e, f)
			}
		}
	}
	return group
}

// joined returns the relation of places between which liquid passes.
func (m model) joined(bare bool) func(a, b string) bool {
	group := m.groups(bare)
	return func(a, b string) bool {
		for e, g := range group {
			for f, h := range group {
				if g == h && e != f && m.placeOf(e) == a && m.placeOf(f) == b {
					return true
				}
			}
		}
		return false
	}
}

// findings are what is wrong with the pump running, told from the relation alone.
func (m model) findings() (all []Finding) {
	joined, bare := m.joined(false), m.joined(true)
	pick := func(with func(a, b string) bool, from string, places ...string) (some []string) {
		for _, place := range places {
			if with(from, place) {
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
	ends := slices.Concat(m.Tanks, m.Outlets)
	sources := pick(joined, yard.PumpInlet, slices.Concat(m.Tanks, []string{yard.FreshWater})...)
	outlets, air := pick(joined, yard.PumpOutlet, ends...), pick(joined, yard.PumpInlet, m.Outlets...)
	ring, touched := joined(yard.PumpInlet, yard.PumpOutlet), pick(bare, yard.FreshWater, slices.Concat(ends, []string{yard.PumpInlet, yard.PumpOutlet})...)
	tell(Ring, ring, nil)
	tell(DryRun, !ring && len(sources) == 0, nil)
	tell(TwoSources, !ring && len(sources) > 1, sources)
	tell(DrawsAir, !ring && air != nil, air)
	tell(DeadHead, !ring && outlets == nil, nil)
	tell(TwoOutlets, !ring && len(outlets) > 1, outlets)
	tell(Backflow, touched != nil, touched)
	for i, a := range m.Tanks {
		for _, b := range pick(joined, a, m.Tanks[i+1:]...) {
			tell(TanksJoined, true, []string{a, b})
		}
	}
	for _, b := range pick(joined, yard.FreshWater, ends...) {
		tell(AlsoRuns, true, []string{yard.FreshWater, b})
	}
	for _, a := range m.Tanks {
		for _, b := range pick(joined, a, m.Outlets...) {
			tell(AlsoRuns, !(joined(yard.PumpOutlet, a) && joined(yard.PumpOutlet, b)), []string{a, b})
		}
	}
	return all
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
	twice(t, func(t *rapid.T) {
		m := model{drawPlumbing(t), map[string]bool{}}
		var names []string
		for _, l := range m.Links {
			if l.Valve && rapid.Bool().Draw(t, "open "+l.Name) {
				m.open[l.Name] = true
				names = append(names, l.Name)
			}
		}
		s, err := Judge(m.Plumbing, names)
		require.NoError(t, err)
		require.Equal(t, m.findings(), s.Findings)
		for _, f := range s.Findings {
			kinds[f.Fault] = true
		}
	})
	require.Len(t, kinds, 9)
}
