package lineup

import (
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/yard"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// twoTanks is a small yard: a mixer and a store on one pump, a hose and the water.
var twoTanks = yard.Plumbing{
	Tanks:   []string{"mixer", "store"},
	Outlets: []string{"hose"},
	Links: []yard.Link{
		{Name: "L1", A: "in-joint", B: yard.PumpInlet},
		{Name: "L2", A: yard.PumpOutlet, B: "out-joint"},
		{Name: "S1", A: "mixer", B: "in-joint", Valve: true},
		{Name: "S2", A: "store", B: "in-joint", Valve: true},
		{Name: "D1", A: "out-joint", B: "mixer", Valve: true},
		{Name: "D2", A: "out-joint", B: "store", Valve: true},
		{Name: "D3", A: "out-joint", B: "hose", Valve: true},
		{Name: "F1", A: yard.FreshWater, B: "mixer", Valve: true, Protected: true},
		{Name: "F2", A: yard.FreshWater, B: "in-joint", Valve: true},
		{Name: "B1", A: "in-joint", B: "out-joint", Valve: true},
		{Name: "A1", A: "hose", B: "in-joint", Valve: true},
	},
}

func TestJudge(t *testing.T) {
	for _, c := range []struct {
		open []string
		want []Finding
	}{
		{[]string{"S1", "D1"}, nil},
		{[]string{"S1", "D2"}, nil},
		{[]string{"S2", "D1", "D3"}, nil},
		{nil, []Finding{{DryRun, nil}, {DeadHead, nil}}},
		{[]string{"S1"}, []Finding{{DeadHead, nil}}},
		{[]string{"D1"}, []Finding{{DryRun, nil}}},
		{[]string{"S1", "S2", "D3"}, []Finding{{TwoSources, []string{"mixer", "store"}}, {TanksJoined, []string{"mixer", "store"}}}},
		{[]string{"F2", "D3"}, []Finding{{Backflow, []string{yard.PumpInlet}}}},
		{[]string{"S1", "F1", "D2"}, []Finding{{AlsoRuns, []string{yard.FreshWater, "mixer"}}}},
		{[]string{"S1", "D2", "A1"}, []Finding{{DrawsAir, []string{"hose"}}, {AlsoRuns, []string{"mixer", "hose"}}}},
		{[]string{"S1", "F2", "D2"}, []Finding{{TwoSources, []string{"mixer", yard.FreshWater}}, {Backflow, []string{"mixer", yard.PumpInlet}}, {AlsoRuns, []string{yard.FreshWater, "mixer"}}}},
		{[]string{"S1", "D2", "B1"}, []Finding{{Ring, nil}, {TanksJoined, []string{"mixer", "store"}}}},
		{[]string{"S1", "D1", "A1"}, []Finding{{DrawsAir, []string{"hose"}}, {AlsoRuns, []string{"mixer", "hose"}}}},
	} {
		s, err := Judge(twoTanks, c.open)
		require.NoError(t, err)
		require.Equal(t, c.want, s.Findings, "%v", c.open)
	}
	_, err := Judge(twoTanks, []string{"L1"})
	faulttest.RequireField(t, err, fault.FieldOpen, "a line is no valve")
}

func TestPlan(t *testing.T) {
	for _, c := range []struct {
		from, to string
		open     []string
		pumped   bool
	}{
		{"mixer", "store", []string{"S1", "D2"}, true},
		{"mixer", "mixer", []string{"S1", "D1"}, true},
		{"store", "hose", []string{"S2", "D3"}, true},
		{yard.FreshWater, "mixer", []string{"F1"}, false},
	} {
		m, err := Plan(twoTanks, c.from, c.to)
		require.NoError(t, err)
		require.Equal(t, c.open, m.Setting.Open)
		require.Equal(t, c.pumped, m.Pumped)
		require.Equal(t, c.to, m.Path[len(m.Path)-1].To)
	}
	for field, places := range map[string][2]string{fault.FieldFrom: {"hose", "mixer"}, fault.FieldMoveTo: {"mixer", "nowhere"}} {
		_, err := Plan(twoTanks, places[0], places[1])
		faulttest.RequireField(t, err, field, field)
	}
	// Fresh water to the hose would pass the pump with nothing between.
	_, err := Plan(twoTanks, yard.FreshWater, "hose")
	faulttest.RequireField(t, err, fault.FieldMoveTo, "unprotected")
	require.ErrorContains(t, err, "neither air gap nor backflow preventer")
}

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

// end is one of the two ends of a link, by number.
type end struct{ link, side int }

func (p network) placeOf(e end) string {
	if e.side == 0 {
		return p.Links[e.link].A
	}
	return p.Links[e.link].B
}

// groups joins the ends that liquid passes between: along open links, and at joints.
func groups(p network, open map[string]bool, unprotected bool) map[end]int {
	group := map[end]int{}
	for i := range p.Links {
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
	for i, l := range p.Links {
		if (!l.Valve || open[l.Name]) && !(unprotected && l.Protected) {
			merge(end{i, 0}, end{i, 1})
		}
	}
	for e := range group {
		for f := range group {
			if name := p.placeOf(e); name == p.placeOf(f) && !p.stops(name) {
				merge(e, f)
			}
		}
	}
	return group
}

// pairs works out anew which places liquid passes between, by closing the relation
// of open links, with every tank, outlet and the supply taken apart into one place a
// link: a check of judge that shares none of its code.
func pairs(p network, open map[string]bool, unprotected bool) func(a, b string) bool {
	group := groups(p, open, unprotected)
	return func(a, b string) bool {
		for e, g := range group {
			for f, h := range group {
				if g == h && p.placeOf(e) == a && p.placeOf(f) == b && (e != f) {
					return true
				}
			}
		}
		return false
	}
}

// twice is two rounds of a hundred draws.
func twice(t *testing.T, property func(*rapid.T)) {
	rapid.Check(t, property)
	rapid.Check(t, property)
}

// On 200 generated plumbings and settings every fault that is named is there, and
// every one that is there is named.
func TestJudgeNamesTheFault(t *testing.T) {
	twice(t, func(t *rapid.T) {
		p := drawPlumbing(t)
		open := map[string]bool{}
		var names []string
		for _, l := range p.Links {
			if l.Valve && rapid.Bool().Draw(t, "open "+l.Name) {
				open[l.Name] = true
				names = append(names, l.Name)
			}
		}
		s, err := Judge(p, names)
		require.NoError(t, err)
		found := map[Fault]bool{}
		for _, f := range s.Findings {
			found[f.Fault] = true
		}
		joined, bare := pairs(network{p}, open, false), pairs(network{p}, open, true)
		requirePumpFaults(t, network{p}, joined, found)
		requireFaultsPast(t, network{p}, joined, bare, found)
	})
}

// requirePumpFaults checks what is found at the pump against the relation of places.
func requirePumpFaults(t *rapid.T, p network, joined func(a, b string) bool, found map[Fault]bool) {
	sources, outlets, air := 0, 0, false
	for _, tank := range append([]string{yard.FreshWater}, p.Tanks...) {
		if joined(tank, yard.PumpInlet) {
			sources++
		}
	}
	for _, end := range append(append([]string(nil), p.Tanks...), p.Outlets...) {
		if joined(yard.PumpOutlet, end) {
			outlets++
		}
	}
	for _, end := range p.Outlets {
		air = air || joined(end, yard.PumpInlet)
	}
	ring := joined(yard.PumpInlet, yard.PumpOutlet)
	require.Equal(t, ring, found[Ring])
	require.Equal(t, !ring && sources == 0, found[DryRun])
	require.Equal(t, !ring && sources > 1, found[TwoSources])
	require.Equal(t, !ring && outlets == 0, found[DeadHead])
	require.Equal(t, !ring && air, found[DrawsAir])
}

// requireFaultsPast checks what is found past the pump; bare leaves protected links out.
func requireFaultsPast(t *rapid.T, p network, joined, bare func(a, b string) bool, found map[Fault]bool) {
	touched, level, runs := bare(yard.FreshWater, yard.PumpInlet) || bare(yard.FreshWater, yard.PumpOutlet), false, false
	for _, end := range p.Outlets {
		touched = touched || bare(yard.FreshWater, end)
		runs = runs || joined(yard.FreshWater, end)
		for _, tank := range p.Tanks {
			runs = runs || joined(tank, end) && !(joined(yard.PumpOutlet, tank) && joined(yard.PumpOutlet, end))
		}
	}
	for i, a := range p.Tanks {
		touched = touched || bare(yard.FreshWater, a)
		runs = runs || joined(yard.FreshWater, a)
		for _, b := range p.Tanks[i+1:] {
			level = level || joined(a, b)
		}
	}
	require.Equal(t, touched, found[Backflow])
	require.Equal(t, level, found[TanksJoined])
	require.Equal(t, runs, found[AlsoRuns])
}

// On generated plumbings every plan passes its own judge and does what it says; and
// a rinse reaches every link that any move reaches.
func TestPlansPassTheirJudge(t *testing.T) {
	planned := 0
	twice(t, func(t *rapid.T) {
		p := drawPlumbing(t)
		reachable := map[string]bool{}
		for _, m := range (network{p}).allMoves() {
			planned++
			again, err := Plan(p, m.From, m.To)
			require.NoError(t, err)
			require.LessOrEqual(t, len(again.Setting.Open), len(m.Setting.Open))
			if m.Pumped {
				s, err := Judge(p, m.Setting.Open)
				require.NoError(t, err)
				require.Empty(t, s.Findings)
				require.Equal(t, []string{m.From}, s.Sources)
				require.Equal(t, []string{m.To}, s.Outlets)
			}
			for _, h := range m.Path {
				reachable[h.Link.Name] = true
			}
		}
		r, err := PlanRinse(p)
		require.NoError(t, err)
		for _, name := range r.Dry {
			require.False(t, reachable[name], "%s is left dry", name)
		}
	})
	require.Positive(t, planned)
}

func TestRinse(t *testing.T) {
	r, err := PlanRinse(twoTanks)
	require.NoError(t, err)
	// The hose on the suction side and the bypass are of no use to any move, and the
	// bare joint of the supply must not be used.
	require.Equal(t, []string{"F2", "B1", "A1"}, r.Dry)
	for _, m := range r.Moves {
		require.NotEmpty(t, m.New)
	}
	_, err = PlanRinse(yard.Plumbing{})
	faulttest.RequireField(t, err, fault.FieldRinse, "nothing")
}

// Why a move is not to be had, one plumbing for each reason.
func TestPlanSaysWhyNot(t *testing.T) {
	valve := func(name, a, b string) yard.Link { return yard.Link{Name: name, A: a, B: b, Valve: true} }
	for _, c := range []struct {
		words string
		links []yard.Link
		from  string
	}{
		{"nothing leads from a to the pump's suction", []yard.Link{valve("V1", yard.PumpOutlet, "b"), valve("V2", "b", yard.PumpInlet)}, "a"},
		{"nothing leads from the pump's outlet to b; what runs by itself is not planned", []yard.Link{valve("V1", "a", yard.PumpInlet), valve("V2", "a", "b")}, "a"},
		// The suction is one open line with the other tank's.
		{"every way draws or leaks somewhere else as well", []yard.Link{valve("V1", "a", yard.PumpInlet), {Name: "L", A: "b", B: yard.PumpInlet}, valve("V2", yard.PumpOutlet, "b")}, "a"},
		{"has neither air gap nor backflow preventer", []yard.Link{valve("V1", yard.FreshWater, "b")}, yard.FreshWater},
	} {
		_, err := Plan(yard.Plumbing{Tanks: []string{"a", "b"}, Links: c.links}, c.from, "b")
		faulttest.RequireRefusal(t, err, fault.FieldMoveTo, c.words)
	}
	_, err := Plan(twoTanks, "hose", "mixer")
	faulttest.RequireRefusal(t, err, fault.FieldFrom, "allowed: mixer, store, supply")
	_, err = Plan(twoTanks, "mixer", "nowhere")
	faulttest.RequireRefusal(t, err, fault.FieldMoveTo, "allowed: hose, mixer, store")
	_, err = Judge(yard.Plumbing{}, []string{"V1"})
	faulttest.RequireRefusal(t, err, fault.FieldOpen, "no valve is named V1; allowed: none; the plumbing has no valves")
}

// Seven joints, each piped to each and to the pump, have 1,957 ways from the first on (the
// sum of 6!/k! for k from 0 to 6); the search ends at its bound, and the move is
// planned with the one valve that there is.
func TestPathsAreBounded(t *testing.T) {
	p := yard.Plumbing{Tanks: []string{"a", "b"}, Links: []yard.Link{{Name: "V1", A: "a", B: "j0", Valve: true}, {Name: "L", A: yard.PumpOutlet, B: "b"}}}
	for i := range 7 {
		p.Links = append(p.Links, yard.Link{Name: fmt.Sprint("P", i), A: fmt.Sprint("j", i), B: yard.PumpInlet})
		for k := range i {
			p.Links = append(p.Links, yard.Link{Name: fmt.Sprint("J", i, k), A: fmt.Sprint("j", i), B: fmt.Sprint("j", k)})
		}
	}
	found := len(network{p}.paths("a", yard.PumpInlet))
	require.GreaterOrEqual(t, found, mostPaths)
	require.Less(t, found, mostPaths+len(p.Links))
	m, err := Plan(p, "a", "b")
	require.NoError(t, err)
	require.Equal(t, []string{"V1"}, m.Setting.Open)
}

// Ways come with the fewest valves first, and none leads through the pump.
func TestPathsInOrder(t *testing.T) {
	p := yard.Plumbing{Tanks: []string{"a", "b"}, Links: []yard.Link{
		{Name: "V1", A: "a", B: "j", Valve: true}, {Name: "V2", A: "j", B: yard.PumpInlet, Valve: true},
		{Name: "V3", A: "a", B: yard.PumpInlet, Valve: true},
		{Name: "V4", A: yard.PumpInlet, B: "b", Valve: true},
	}}
	ways := network{p}.paths("a", yard.PumpInlet)
	require.Len(t, ways, 2)
	require.Equal(t, "V3", ways[0][0].Link.Name)
	require.Equal(t, "V1", ways[1][0].Link.Name)
	require.Empty(t, network{p}.paths("a", "b"))
}

// Water under pressure that would stand at the pump as well is not let in, air gap or not.
func TestSupplyKeepsOffThePump(t *testing.T) {
	p := yard.Plumbing{Tanks: []string{"a"}, Links: []yard.Link{
		{Name: "F", A: yard.FreshWater, B: "j", Valve: true, Protected: true}, {Name: "L1", A: "j", B: "a"}, {Name: "L2", A: "j", B: yard.PumpInlet},
	}}
	_, err := Plan(p, yard.FreshWater, "a")
	faulttest.RequireRefusal(t, err, fault.FieldMoveTo, "or leads elsewhere too")
	p.Links = p.Links[:2]
	m, err := Plan(p, yard.FreshWater, "a")
	require.NoError(t, err)
	require.False(t, m.Pumped)
}

// The rinse of the small yard by hand. Of what no move has rinsed yet, mixer to hose
// passes most, five links with the fill that comes before it; then the store's suction and
// the mixer's inlet; and last the store's inlet, for which mixer to store comes before
// store to store, as round and round is for where nothing else does.
func TestRinseByHand(t *testing.T) {
	r, err := PlanRinse(twoTanks)
	require.NoError(t, err)
	type step struct {
		from, to string
		links    []string
	}
	var steps []step
	for _, m := range r.Moves {
		steps = append(steps, step{m.From, m.To, m.New})
	}
	require.Equal(t, []step{
		{"mixer", "hose", []string{"F1", "S1", "L1", "L2", "D3"}},
		{"store", "mixer", []string{"S2", "D1"}},
		{"mixer", "store", []string{"D2"}},
	}, steps)
	require.Equal(t, []string{"F1"}, r.Moves[0].Fill.Setting.Open)
	require.Nil(t, r.Moves[1].Fill) // no water leads to the store
}

// Fresh water straight from the supply goes last, whatever it rinses: it takes salt out
// of what the tanks' moves left.
func TestRinseFromTheSupplyLast(t *testing.T) {
	p := twoTanks
	p.Links = append(append([]yard.Link(nil), twoTanks.Links[:8]...), yard.Link{Name: "F3", A: yard.FreshWater, B: "in-joint", Valve: true, Protected: true})
	r, err := PlanRinse(p)
	require.NoError(t, err)
	require.Empty(t, r.Dry)
	last := false
	for _, m := range r.Moves {
		require.False(t, last && m.From != yard.FreshWater)
		last = last || m.From == yard.FreshWater
	}
	require.True(t, last)
	require.NotEqual(t, yard.FreshWater, r.Moves[0].From)
}
