package lineup

import (
	"fmt"
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/yard"

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
		{[]string{"S2", "D1", "D3"}, []Finding{{TwoOutlets, []string{"mixer", "hose"}}}},
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

// On generated plumbings every plan passes its own judge and does what it says; and
// a rinse reaches every link that any move reaches.
func TestPlansPassTheirJudge(t *testing.T) {
	planned := 0
	twice(t, func(t *rapid.T) {
		p := drawPlumbing(t)
		reachable := map[string]bool{}
		for _, m := range (network{Plumbing: p}).allMoves() {
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
		{"nothing leads from supply to the pump's suction", []yard.Link{valve("V1", yard.PumpOutlet, "b"), valve("V2", yard.FreshWater, "a")}, yard.FreshWater},
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
	faulttest.RequireRefusal(t, err, fault.FieldOpen, "no valve is named \"V1\"; allowed: none; the plumbing has no valves")
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
	found := len(network{Plumbing: p}.paths("a", yard.PumpInlet))
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
	ways := network{Plumbing: p}.paths("a", yard.PumpInlet)
	require.Len(t, ways, 2)
	require.Equal(t, "V3", ways[0][0].Link.Name)
	require.Equal(t, "V1", ways[1][0].Link.Name)
	require.Empty(t, network{Plumbing: p}.paths("a", "b"))
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

// Round and round in a tank is for where nothing else rinses as much: from one tank to the
// other passes as many links as round the first, and comes first.
func TestRinseGoesRoundLast(t *testing.T) {
	p := yard.Plumbing{Tanks: []string{"a", "b"}, Links: []yard.Link{
		{Name: "S1", A: "a", B: yard.PumpInlet, Valve: true},
		{Name: "D1", A: yard.PumpOutlet, B: "a", Valve: true}, {Name: "D2", A: yard.PumpOutlet, B: "b", Valve: true},
	}}
	r, err := PlanRinse(p)
	require.NoError(t, err)
	require.Len(t, r.Moves, 2)
	require.Equal(t, "b", r.Moves[0].To)
	require.Equal(t, "a", r.Moves[1].To)
	require.Empty(t, r.Dry)
}
