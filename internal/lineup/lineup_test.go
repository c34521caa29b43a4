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
		s, err := Judge(twoTanks, "", c.open)
		require.NoError(t, err)
		require.Equal(t, c.want, s.Findings, "%v", c.open)
	}
	_, err := Judge(twoTanks, "", []string{"L1"})
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
		m, err := Plan(twoTanks, "", c.from, c.to)
		require.NoError(t, err)
		require.Equal(t, c.open, m.Setting.Open)
		require.Equal(t, c.pumped, m.Pumped)
		require.Equal(t, c.to, m.Path[len(m.Path)-1].To)
	}
	for field, places := range map[string][2]string{fault.FieldFrom: {"hose", "mixer"}, fault.FieldMoveTo: {"mixer", "nowhere"}} {
		_, err := Plan(twoTanks, "", places[0], places[1])
		faulttest.RequireField(t, err, field, field)
	}
	// Fresh water to the hose would pass the pump with nothing between.
	_, err := Plan(twoTanks, "", yard.FreshWater, "hose")
	faulttest.RequireField(t, err, fault.FieldMoveTo, "unprotected")
	require.ErrorContains(t, err, "neither air gap nor backflow preventer")
}

// allMoves are those from every place by any pump.
func allMoves(p yard.Plumbing) []Move {
	n := network{Plumbing: p, pump: p.AllPumps()[0]}
	return n.pumpedFrom(n.sources()...)
}

// On generated plumbings every plan passes its own judge and does what it says; and
// a rinse reaches every link that any move reaches.
func TestPlansPassTheirJudge(t *testing.T) {
	planned := 0
	twice(t, func(t *rapid.T) {
		p := drawPlumbing(t)
		reachable := map[string]bool{}
		for _, m := range allMoves(p) {
			planned++
			again, err := Plan(p, "", m.From, m.To)
			require.NoError(t, err)
			require.LessOrEqual(t, len(again.Setting.Open), len(m.Setting.Open))
			if m.Pumped {
				s, err := Judge(p, m.Pump.Name, m.Setting.Open)
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
		_, err := Plan(yard.Plumbing{Tanks: []string{"a", "b"}, Links: c.links}, "", c.from, "b")
		faulttest.RequireRefusal(t, err, fault.FieldMoveTo, c.words)
	}
	_, err := Plan(twoTanks, "", "hose", "mixer")
	faulttest.RequireRefusal(t, err, fault.FieldFrom, "allowed: mixer, store, supply")
	_, err = Plan(twoTanks, "", "mixer", "nowhere")
	faulttest.RequireRefusal(t, err, fault.FieldMoveTo, "allowed: hose, mixer, store")
	_, err = Judge(yard.Plumbing{}, "", []string{"V1"})
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
	m, err := Plan(p, "", "a", "b")
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
	_, err := Plan(p, "", yard.FreshWater, "a")
	faulttest.RequireRefusal(t, err, fault.FieldMoveTo, "or leads elsewhere too")
	p.Links = p.Links[:2]
	m, err := Plan(p, "", yard.FreshWater, "a")
	require.NoError(t, err)
	require.False(t, m.Pumped)
}

// The rinse of the small yard by hand. No water may pass F2, which has nothing between it and the brine; F1 lets it
// run into the mixer alone. The rest is pumped out of tanks: of what no move has rinsed yet, mixer to hose passes most; then
// the store's suction and the mixer's inlet; and last the store's inlet.
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
		{yard.FreshWater, "mixer", []string{"F1"}},
		{"mixer", "hose", []string{"S1", "L1", "L2", "D3"}},
		{"store", "mixer", []string{"S2", "D1"}},
		{"mixer", "store", []string{"D2"}},
	}, steps)
	require.Equal(t, []string{"F1"}, r.Moves[1].Fill.Setting.Open)
	require.Nil(t, r.Moves[2].Fill) // no water leads to the store
}

// Where the supply may stand at the pump, its own pressure rinses everything: through the pump that stands still to the
// hose, backwards through the suctions into tanks that may be full, and through every inlet; with three times what each
// way holds.
func TestRinseBySupply(t *testing.T) {
	p := twoTanks
	p.Links = append(append([]yard.Link(nil), twoTanks.Links[:8]...), yard.Link{Name: "F3", A: yard.FreshWater, B: "in-joint", Valve: true, Protected: true})
	p.Links[0].Holds, p.Links[1].Holds, p.Links[6].Holds = 0.01, 0.02, 0.03
	r, err := PlanRinse(p)
	require.NoError(t, err)
	require.Empty(t, r.Dry)
	for _, m := range r.Moves {
		require.Equal(t, yard.FreshWater, m.From)
		require.False(t, m.Pumped)
	}
	require.Equal(t, "hose", r.Moves[0].To)
	require.True(t, r.Moves[0].Still)
	require.InDelta(t, 0.06, float64(r.Moves[0].Holds), 1e-12)
	require.InDelta(t, 0.18, float64(r.Moves[0].Water), 1e-12)
}

// From the fresh-water tank it is pumped.
func TestRinseFromTheWaterTank(t *testing.T) {
	r, err := PlanRinse(yard.Plumbing{Tanks: []string{"a"}, Links: []yard.Link{
		{Name: "S", A: yard.WaterTank, B: yard.PumpInlet, Valve: true}, {Name: "D", A: yard.PumpOutlet, B: "a", Valve: true},
	}})
	require.NoError(t, err)
	require.Empty(t, r.Dry)
	require.Len(t, r.Moves, 1)
	require.Equal(t, yard.WaterTank, r.Moves[0].From)
	require.Nil(t, r.Moves[0].Fill)
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

// What the yard file can have besides valves: each by a plumbing of its own.
func TestJudgeSpecialParts(t *testing.T) {
	valve := func(name, a, b string) yard.Link { return yard.Link{Name: name, A: a, B: b, Valve: true} }
	check := func(name, a, b string) yard.Link { return yard.Link{Name: name, A: a, B: b, OneWay: true} }
	way := func(of, a, b string) yard.Link {
		return yard.Link{Name: of + ":" + b, A: a, B: b, Valve: true, Turns: of}
	}
	in, out := yard.PumpInlet, yard.PumpOutlet
	for _, c := range []struct {
		name  string
		p     yard.Plumbing
		pump  string
		open  []string
		kinds []Fault
	}{
		{"round with the fill open", twoTanks, "", []string{"S1", "D1", "F1"}, []Fault{FillOpen}},
		{"the supply gives too little", yard.Plumbing{Tanks: []string{"a"}, Supply: 1, Pumps: []yard.Pump{{Flow: 2}}, Links: []yard.Link{
			{Name: "F", A: yard.FreshWater, B: in, Valve: true, Protected: true}, valve("D", out, "a")}}, "", []string{"F", "D"}, []Fault{SupplyShort}},
		{"the supply gives enough", yard.Plumbing{Tanks: []string{"a"}, Supply: 2, Pumps: []yard.Pump{{Flow: 2}}, Links: []yard.Link{
			{Name: "F", A: yard.FreshWater, B: in, Valve: true, Protected: true}, valve("D", out, "a")}}, "", []string{"F", "D"}, nil},
		{"a check valve keeps tanks apart", yard.Plumbing{Tanks: []string{"a", "b"}, Links: []yard.Link{
			check("C1", "a", "j"), valve("V", "j", in), valve("D", out, "b")}}, "", []string{"V", "D"}, nil},
		{"a check valve the wrong way", yard.Plumbing{Tanks: []string{"a"}, Links: []yard.Link{
			check("C1", in, "a"), valve("D", out, "a")}}, "", []string{"D"}, []Fault{DryRun}},
		{"a check valve protects no water", yard.Plumbing{Tanks: []string{"a", "b"}, Links: []yard.Link{
			check("C1", yard.FreshWater, "b"), valve("S", "a", in), valve("D", out, "b")}}, "", []string{"S", "D"}, []Fault{Backflow, AlsoRuns}},
		{"a three-way valve", yard.Plumbing{Tanks: []string{"a", "b"}, Links: []yard.Link{
			valve("S", "a", in), way("W", out, "a"), way("W", out, "b")}}, "", []string{"S", "W:b"}, nil},
		{"the second pump", yard.Plumbing{Tanks: []string{"a", "b"}, Pumps: []yard.Pump{{}, {Name: "loading"}}, Links: []yard.Link{
			valve("S", "a", "loading-in"), valve("D", "loading-out", "b")}}, "loading", []string{"S", "D"}, nil},
		{"it runs through the pump that stands still", yard.Plumbing{Tanks: []string{"a", "b"}, Outlets: []string{"hose"}, Pumps: []yard.Pump{{}, {Name: "loading"}}, Links: []yard.Link{
			valve("S", "a", in), valve("D", out, "a"), valve("S2", "b", "loading-in"), valve("D2", "loading-out", "a")}}, "", []string{"S", "D", "S2", "D2"}, []Fault{TanksJoined}},
		{"from the fresh-water tank", yard.Plumbing{Tanks: []string{"a"}, Links: []yard.Link{
			valve("S", yard.WaterTank, in), valve("D", out, "a")}}, "", []string{"S", "D"}, nil},
		{"the fresh-water tank and a tank", yard.Plumbing{Tanks: []string{"a"}, Links: []yard.Link{
			valve("S", yard.WaterTank, in), valve("S2", "a", in), valve("D", out, "a")}}, "", []string{"S", "S2", "D"}, []Fault{TwoSources, TanksJoined}},
	} {
		s, err := Judge(c.p, c.pump, c.open)
		require.NoError(t, err, c.name)
		var kinds []Fault
		for _, f := range s.Findings {
			kinds = append(kinds, f.Fault)
		}
		require.Equal(t, c.kinds, kinds, c.name)
	}
	turned := yard.Plumbing{Tanks: []string{"a", "b"}, Links: []yard.Link{valve("S", "a", in), way("W", out, "a"), way("W", out, "b")}}
	_, err := Judge(turned, "", []string{"S"})
	faulttest.RequireRefusal(t, err, fault.FieldOpen, "three-way valve W stands one way; allowed: W:a, W:b")
	_, err = Judge(turned, "", []string{"S", "W:a", "W:b"})
	faulttest.RequireRefusal(t, err, fault.FieldOpen, "three-way valve W stands one way")
	_, err = Judge(turned, "loading", nil)
	faulttest.RequireRefusal(t, err, FieldPump, "no such pump; allowed: none; the plumbing has no other pumps")
}

// Plans turn three-way valves, and take the pump that will do.
func TestPlanSpecialParts(t *testing.T) {
	p := yard.Plumbing{Tanks: []string{"a", "b"}, Outlets: []string{"hose"}, Supply: 1, Pumps: []yard.Pump{{Flow: 2}, {Name: "loading", Flow: 3}}, Links: []yard.Link{
		{Name: "S", A: "a", B: yard.PumpInlet, Valve: true},
		{Name: "W:a", A: yard.PumpOutlet, B: "a", Valve: true, Turns: "W"}, {Name: "W:b", A: yard.PumpOutlet, B: "b", Valve: true, Turns: "W"},
		{Name: "S2", A: "b", B: "loading-in", Valve: true}, {Name: "D2", A: "loading-out", B: "hose", Valve: true},
		{Name: "F", A: yard.FreshWater, B: yard.PumpInlet, Valve: true, Protected: true},
	}}
	m, err := Plan(p, "", "a", "b")
	require.NoError(t, err)
	require.Equal(t, []string{"S", "W:b"}, m.Setting.Open)
	m, err = Plan(p, "", "b", "hose")
	require.NoError(t, err)
	require.Equal(t, "loading", m.Pump.Name)
	require.Len(t, m.Setting.Open, 3) // the three-way valve stands one way or the other
	_, err = Plan(p, "", yard.FreshWater, "a")
	faulttest.RequireRefusal(t, err, fault.FieldMoveTo, "through the pump it would run short")
	_, err = Plan(p, "nosuch", "a", "b")
	faulttest.RequireRefusal(t, err, FieldPump, "allowed: loading")
}
