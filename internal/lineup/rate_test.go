package lineup

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/hydraulics"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// craneYard pumps the water of example 7.15 of Crane, Flow of Fluids (see package hydraulics): 500 ft of 3.068 in
// steel, 400 ft up, at 100 gal/min 421 ft of head and 15.2 hp at 70 %. The pump's curve passes through the point at which
// the library fluids 1.0.22 has the way: 100 gal/min and 420.35 ft.
func craneYard() *yard.Yard {
	pipe := yard.Link{Name: "L", A: yard.PumpOutlet, B: "high", Length: 500 * quantity.Length(quantity.Foot), Diameter: 3.068 * quantity.Inch, Steel: true, Fittings: 1 + 0.1377 + 4*0.5164 + 25.2445}
	foot := quantity.Length(quantity.Foot)
	pump := yard.Pump{Flow: 70 * quantity.GallonPerMinute, Power: 15 * 745.7, Efficiency: 0.7, Curve: []hydraulics.Point{
		{Flow: 0, Head: 460 * foot}, {Flow: 100 * quantity.GallonPerMinute, Head: 420.35 * foot}, {Flow: 150 * quantity.GallonPerMinute, Head: 380 * foot},
	}}
	return &yard.Yard{
		Pump:    pump,
		Reaches: []yard.Reach{{To: "high", Lift: 400 * foot, HasLift: true}},
		Plumbing: yard.Plumbing{Tanks: []string{"low", "high"}, Pumps: []yard.Pump{pump}, Links: []yard.Link{
			{Name: "S", A: "low", B: yard.PumpInlet, Valve: true}, pipe,
		}},
	}
}

func TestRateOf(t *testing.T) {
	y, water, warm := craneYard(), balance.Liquid{}, quantity.Fahrenheit(70)
	m, err := Plan(y.Plumbing, "", "low", "high")
	require.NoError(t, err)
	rate := func() Rate {
		r, err := RateOf(y, m, water, warm)
		require.NoError(t, err)
		return r
	}
	r := rate()
	require.Equal(t, WorkedOut, r.Known)
	require.InDelta(t, 100, float64(r.Flow/quantity.GallonPerMinute), 0.5)
	require.InDelta(t, 421, float64(r.Head)/0.3048, 1)
	require.InDelta(t, 15.2, float64(r.Shaft)/745.7, 0.1)
	require.True(t, r.Overloads())
	// Brine takes more power by its density, and by little else.
	brine, err := RateOf(y, m, balance.SaltBrine(0.233), warm)
	require.NoError(t, err)
	require.InDelta(t, 1.17, float64(brine.Shaft/r.Shaft), 0.02)
	// What was measured counts more than what is worked out.
	y.Reaches[0].Flow = 80 * quantity.GallonPerMinute
	r = rate()
	require.Equal(t, Measured, r.Known)
	require.Equal(t, 80*quantity.GallonPerMinute, r.Flow)
	require.False(t, r.Overloads())
	// Without lift, pipes or curve it is the pump's own.
	y.Reaches = nil
	require.Equal(t, Usual, rate().Known)
	require.Equal(t, 70*quantity.GallonPerMinute, rate().Flow)
	m.Pump = yard.Pump{}
	require.Equal(t, Rate{Known: NotKnown}, rate())
}

// flowTo is the flow of the move that is planned, else the pump's own.
func flowTo(y *yard.Yard, from, to string, liquid balance.Liquid, at quantity.Temperature) quantity.Flow {
	m, err := Plan(y.Plumbing, "", from, to)
	if err != nil {
		m = Move{To: to, Pump: y.Pump}
	}
	return flowOf(y, m, liquid, at)
}

func TestFlowTo(t *testing.T) {
	y, warm := craneYard(), quantity.Fahrenheit(70)
	require.InDelta(t, 100, float64(flowTo(y, "low", "high", balance.Liquid{}, warm)/quantity.GallonPerMinute), 0.5)
	// Where nothing leads, the pump's own flow; what is measured at the place counts there too.
	require.Equal(t, y.Pump.Flow, flowTo(y, "high", "low", balance.Liquid{}, warm))
	require.Equal(t, y.Pump.Flow, flowTo(y, "low", "high", balance.Liquid{}, 500), "no liquid is so warm")
	thick := balance.Liquid{Products: []balance.Ingredient{{}}}
	require.Equal(t, hydraulics.Thick(warm), viscosity(thick, warm))
	y.Reaches[0].Lift *= 2
	m, err := Plan(y.Plumbing, "", "low", "high")
	require.NoError(t, err)
	_, err = RateOf(y, m, balance.Liquid{}, warm)
	var input *fault.InputError
	require.ErrorAs(t, err, &input)
	require.Equal(t, hydraulics.FieldCurve, input.Field)
}

// A valve that has fittings and no bore of its own has that of the narrowest pipe.
func TestFittingsWithoutBore(t *testing.T) {
	y, warm := craneYard(), quantity.Fahrenheit(70)
	without := flowTo(y, "low", "high", balance.Liquid{}, warm)
	y.Plumbing.Links[0].Fittings = 300
	y.Pump.Efficiency, y.Plumbing.Pumps[0].Efficiency = 0, 0
	require.Less(t, flowTo(y, "low", "high", balance.Liquid{}, warm), without)
	require.Equal(t, UsualEfficiency, efficiencyOf(y.Pump))
}

func TestDoes(t *testing.T) {
	s := Setting{Sources: []string{"a"}, Outlets: []string{"b"}}
	require.True(t, s.Does("a", "b"))
	require.False(t, s.Does("b", "a"))
}

// Trucks are loaded from the first storage tank from which a move leads there, and a batch is pumped off to the first that holds
// brine; where nothing leads, the pump's own flow counts.
func TestFlowsOfAStorm(t *testing.T) {
	y, warm, brine := craneYard(), quantity.Fahrenheit(60), balance.SaltBrine(0.233)
	y.Tanks = []yard.Tank{{Name: "low", Mixing: true}, {Name: "calcium", Liquid: &balance.Liquid{Composition: solution.Composition{CaCl2: 0.3}}}, {Name: "high"}}
	require.Zero(t, LoadingFlow(y, brine, warm))
	flows := OffFlows(y, brine, warm)
	require.InDelta(t, 100, float64(flows["low"]/quantity.GallonPerMinute), 1)
	y.Plumbing.Outlets = []string{"hose"}
	y.Plumbing.Links = append(y.Plumbing.Links[:1:1], yard.Link{Name: "D", A: yard.PumpOutlet, B: "hose", Valve: true})
	y.Reaches = []yard.Reach{{To: "hose", Flow: 90 * quantity.GallonPerMinute}}
	require.InDelta(t, 90, float64(LoadingFlow(y, brine, warm)/quantity.GallonPerMinute), 1e-9)
	require.Empty(t, OffFlows(y, brine, warm))
	y.Plumbing.Links = nil
	require.InDelta(t, 90, float64(LoadingFlow(y, brine, warm)/quantity.GallonPerMinute), 1e-9)
}
