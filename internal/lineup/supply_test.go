package lineup

import (
	"testing"

	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestExposures(t *testing.T) {
	valve := func(name, a, b string) yard.Link { return yard.Link{Name: name, A: a, B: b, Valve: true} }
	gap := func(l yard.Link) yard.Link { l.Protected, l.AirGap = true, true; return l }
	guarded := func(l yard.Link) yard.Link { l.Protected = true; return l }
	check := func(l yard.Link) yard.Link { l.OneWay = true; return l }
	suction := yard.Link{Name: "L", A: "j", B: yard.PumpInlet}
	for _, c := range []struct {
		name  string
		links []yard.Link
		want  []Exposure
	}{
		{"an air gap over a tank", []yard.Link{gap(valve("F", yard.FreshWater, "a"))}, nil},
		{"nothing over a tank", []yard.Link{valve("F", yard.FreshWater, "a")}, []Exposure{{"F", "a", Unprotected}}},
		{"a preventer at the suction", []yard.Link{guarded(valve("F", yard.FreshWater, "j")), suction}, nil},
		{"an air gap in the suction", []yard.Link{gap(valve("F", yard.FreshWater, "j")), suction}, []Exposure{{"F", "j", ClosedGap}}},
		{"a check valve at the suction", []yard.Link{check(valve("F", yard.FreshWater, "j")), suction}, []Exposure{{"F", "j", CheckAlone}}},
		{"nothing at the pump", []yard.Link{valve("F", yard.PumpInlet, yard.FreshWater)}, []Exposure{{"F", yard.PumpInlet, Unprotected}}},
		{"the fresh-water tank", []yard.Link{valve("F", yard.FreshWater, yard.WaterTank)}, nil},
		{"protected further on", []yard.Link{valve("F", yard.FreshWater, "j"), guarded(valve("G", "j", "a"))}, nil},
		{"two ways, one of them bare", []yard.Link{gap(valve("F", yard.FreshWater, "a")), valve("G", yard.FreshWater, "a")}, []Exposure{{"G", "a", Unprotected}}},
	} {
		require.Equal(t, c.want, Exposures(yard.Plumbing{Tanks: []string{"a"}, Links: c.links}), c.name)
	}
}

// Where nothing exposes the supply, no setting joins it to brine.
func TestNotExposed(t *testing.T) {
	kept := 0
	twice(t, func(t *rapid.T) {
		p := drawPlumbing(t)
		if len(Exposures(p)) > 0 {
			return
		}
		kept++
		var open []string
		for _, turn := range p.Turns() {
			open = append(open, rapid.SampledFrom(turn.Ways).Draw(t, "way"))
		}
		for _, l := range p.Links {
			if l.Valve && l.Turns == "" && rapid.Bool().Draw(t, "open") {
				open = append(open, l.Name)
			}
		}
		s, err := Judge(p, "", open)
		require.NoError(t, err)
		for _, f := range s.Findings {
			require.NotEqual(t, Backflow, f.Fault)
		}
	})
	require.Positive(t, kept)
}
