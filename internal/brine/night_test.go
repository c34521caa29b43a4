package brine

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A tank judged as one liquid forms what freeze says of that liquid, at the same temperature.
func TestNightAgreesWithFreeze(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := quantity.Strength(rapid.Float64Range(0, 0.26).Draw(t, "strength"))
		low := quantity.Temperature(rapid.Float64Range(245, 280).Draw(t, "low"))
		l := balance.SaltBrine(w)
		f, err := Freeze(FreezeRequest{Liquid: l, At: low, StoredAt: quantity.Fahrenheit(60)})
		require.NoError(t, err)
		n := night(t, NightTank{Liquid: l}, low)
		require.Equal(t, f.Cold.First().Temperature, n.First.Temperature)
		if n.State == NightForms && n.Margin < -0.01 {
			require.True(t, f.Stand.Ice > 0 || f.Stand.Salt > 0, "%v at %v", w, low)
		}
		if n.State == NightClear {
			require.Zero(t, f.Stand.Ice+f.Stand.Salt, "%v at %v", w, low)
		}
	})
}

// Of a range of strengths the end that forms something first counts: ice in the weak one, salt in
// the strong one. That is no more than close, since the liquid as it was read comes through.
func TestNightTakesTheWorseEnd(t *testing.T) {
	at := quantity.Fahrenheit(0)
	read := balance.SaltBrine(0.231)
	require.Equal(t, NightClear, night(t, NightTank{Liquid: read}, at).State)
	weak := night(t, NightTank{Liquid: read, Low: 0.2, High: 0.232}, at)
	require.Equal(t, NightClose, weak.State)
	require.Equal(t, solution.Ice, weak.First.Solid)
	require.Negative(t, float64(weak.Margin))
	strong := night(t, NightTank{Liquid: read, Low: 0.23, High: 0.25}, at)
	require.Equal(t, NightClose, strong.State)
	require.Equal(t, solution.Hydrohalite, strong.First.Solid)
	require.Equal(t, NightForms, night(t, NightTank{Liquid: read, Low: 0.23, High: 0.25}, quantity.Fahrenheit(-9)).State)
}

// 23.3 % brine: ice and salt together near -6 F (CRC Handbook and others: eutectic -21.1 C, 23.3 %).
func TestNightStates(t *testing.T) {
	for low, want := range map[float64]NightState{5: NightClear, 0: NightClear, -3: NightClose, -6: NightClose, -7: NightForms, -20: NightForms} {
		require.Equal(t, want, night(t, NightTank{Liquid: balance.SaltBrine(0.233)}, quantity.Fahrenheit(low)).State, "%v", low)
	}
	// Calcium chloride of 29 % stays clear to the floor of the model: nothing is known below.
	clear := balance.Liquid{Name: "calcium", Composition: solution.Composition{CaCl2: 0.29}}
	n := night(t, NightTank{Liquid: clear}, quantity.Fahrenheit(-20))
	require.Equal(t, NightClear, n.State)
}

// What is done about it hangs on why: a brine on the wrong side of the eutectic can be put right,
// a night below it cannot be met with plain brine.
func TestNightCause(t *testing.T) {
	for name, c := range map[string]struct {
		w    quantity.Strength
		low  float64
		want NightCause
	}{
		"weak": {0.15, 0, NightTooWeak}, "strong": {0.26, 10, NightTooStrong}, "below the eutectic": {0.233, -12, NightTooCold},
	} {
		require.Equal(t, c.want, night(t, NightTank{Liquid: balance.SaltBrine(c.w)}, quantity.Fahrenheit(c.low)).Cause, name)
	}
	blend := balance.Liquid{Name: "blend", Composition: solution.Composition{NaCl: 0.18, CaCl2: 0.07}}
	require.Equal(t, NightOther, night(t, NightTank{Liquid: blend}, quantity.Fahrenheit(-5)).Cause)
}

// A low that was not asked leaves margin and state alone.
func TestNightWithoutLow(t *testing.T) {
	n := night(t, NightTank{Liquid: balance.SaltBrine(0.15)}, 0)
	require.Zero(t, n.Margin)
	require.True(t, n.First.Found)
}

// A low outside the model is refused; a tank that holds no solution is told apart, and its
// neighbour keeps its answer.
func TestNightRefusals(t *testing.T) {
	_, err := Nights(NightRequest{Low: quantity.Fahrenheit(-200)})
	faulttest.RequireField(t, err, fault.FieldAt, "too cold")
	all, err := Nights(NightRequest{Low: quantity.Fahrenheit(20), Tanks: []NightTank{{Liquid: balance.SaltBrine(0.3)}, {Liquid: balance.SaltBrine(0.233)}}})
	require.NoError(t, err)
	require.Equal(t, NightUnknown, all[0].State)
	require.Equal(t, NightClear, all[1].State)
}

func night(t require.TestingT, tank NightTank, low quantity.Temperature) Night {
	all, err := Nights(NightRequest{Tanks: []NightTank{tank}, Low: low})
	require.NoError(t, err)
	require.Len(t, all, 1)
	return all[0]
}

// A product is judged by its data sheet: one that stays clear to the end of its table is clear down
// to that end and no more than close below it, and of an estimate the warm bound counts.
func TestNightOfProducts(t *testing.T) {
	end := quantity.Temperature(228)
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{
		{Solute: 0.1, Temperature: 268.5}, {Solute: 0.3, Temperature: 250}, {Solute: 0.42, Temperature: float64(end)},
	}}
	beyond := NightTank{Liquid: balance.OfProduct("sheet", sheet)}
	require.Equal(t, NightClear, night(t, beyond, end+1).State)
	require.False(t, night(t, beyond, end+1).First.Found)
	require.Equal(t, NightClose, night(t, beyond, end-1).State)

	thin := &solution.Product{Solute: 0.3, Density: 1180, Freezing: sheet.Freezing}
	cold, err := balance.OfProduct("thin", thin).Cold()
	require.NoError(t, err)
	n := night(t, NightTank{Liquid: balance.OfProduct("thin", thin)}, quantity.Temperature(cold.IceHigh))
	require.Equal(t, cold.IceHigh, n.First.Temperature)
	require.GreaterOrEqual(t, cold.IceHigh, cold.Ice.Temperature)
	require.Equal(t, NightForms, n.State)
	require.Equal(t, NightOther, n.Cause)
}

// An end of the range that is no brine leaves the tank unjudged.
func TestNightOfAWildRange(t *testing.T) {
	tank := NightTank{Liquid: balance.SaltBrine(0.233), Low: 0.23, High: 0.31}
	require.Equal(t, NightUnknown, night(t, tank, quantity.Fahrenheit(20)).State)
}
