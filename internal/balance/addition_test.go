package balance

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawAddition draws water, stock or rock salt.
func drawAddition(t *rapid.T) Addition {
	switch rapid.IntRange(0, 2).Draw(t, "addition") {
	case 0:
		return Water()
	case 1:
		return Stock(quantity.Strength(rapid.Float64Range(0, 0.263).Draw(t, "stock")))
	}
	purity := rapid.Float64Range(0.5, 1).Draw(t, "purity")
	moisture := rapid.Float64Range(0, 0.2).Draw(t, "moisture")
	return RockSalt(purity*(1-moisture), quantity.Strength(moisture))
}

// A dose, poured in, gives the strength it was meant for, and all mass is there: NaCl and
// water of the tank and of the addition, to 1e-9.
func TestDoseReachesItsTarget(t *testing.T) {
	doses := 0
	rapid.Check(t, func(t *rapid.T) {
		a := drawAddition(t)
		m := quantity.Mass(rapid.Float64Range(1, 1e5).Draw(t, "kg"))
		w := quantity.Strength(rapid.Float64Range(0, 0.263).Draw(t, "strength"))
		wt := quantity.Strength(rapid.Float64Range(0.001, 0.263).Draw(t, "target"))
		dose := a.Dose(m, w, wt)
		if !(dose > 0 && dose < 1e3*m) {
			return // it leads away, or hardly towards the target
		}
		doses++
		tank := Vessel{Liquid: SaltBrine(w), Mass: m}
		brings := a.Brings(dose)
		tank.Add(brings.Liquid, brings.Mass)
		strength, plain := tank.Liquid.Strength()
		require.True(t, plain)
		require.InDelta(t, float64(wt), float64(strength), 1e-12)
		require.InEpsilon(t, float64(m)+a.Brine*float64(dose), float64(tank.Mass), 1e-12)
		require.InDelta(t, float64(m.Times(w))+a.Salt*float64(dose), tank.Masses().NaCl, 1e-9*float64(tank.Mass))
		require.InDelta(t, 0, float64(a.Dose(tank.Mass, strength, wt)), 1e-8*float64(dose+tank.Mass))
	})
	require.Greater(t, doses, 20)
}

// What an amount makes of a tank asks for that amount again.
func TestDoseOfWhatAnAmountMakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawAddition(t)
		tank := Vessel{Liquid: SaltBrine(0.15), Mass: quantity.Mass(rapid.Float64Range(1, 1e5).Draw(t, "kg"))}
		before := tank.Mass
		amount := tank.Mass * quantity.Mass(rapid.Float64Range(0.01, 3).Draw(t, "share"))
		tank.Add(a.Brings(amount).Liquid, a.Brings(amount).Mass)
		made, _ := tank.Liquid.Strength()
		if made > 0.149 && made < 0.151 {
			return // what hardly differs hardly tells how much it was
		}
		require.InEpsilon(t, float64(amount), float64(a.Dose(before, 0.15, made)), 1e-9)
	})
}

// By hand: 1,000 kg at 26 % hold 260 kg of NaCl, which make 1,115.88 kg at 23.3 %. At 20 %
// they lack 33 kg; a kg of salt that is 95 % pure and 2 % wet holds 0.931 kg of NaCl, of
// which 0.233 x 0.951 go with it: 33 / 0.709417. Stock of 26 % brings 0.027 above target.
func TestDoseByHand(t *testing.T) {
	require.InDelta(t, 115.879828, float64(Water().Dose(1000, 0.26, 0.233)), 1e-6)
	require.InDelta(t, 46.517070, float64(RockSalt(0.931, 0.02).Dose(1000, 0.2, 0.233)), 1e-6)
	require.InDelta(t, 1222.222222, float64(Stock(0.26).Dose(1000, 0.2, 0.233)), 1e-6)
	require.Negative(t, float64(Water().Dose(1000, 0.2, 0.233)))
}

// Rock salt leaves its sludge behind, and water has no name.
func TestBrings(t *testing.T) {
	salt := RockSalt(0.931, 0.02).Brings(100)
	require.InDelta(t, 95.1, float64(salt.Mass), 1e-12)
	require.InDelta(t, 93.1, salt.Masses().NaCl, 1e-12)
	require.InDelta(t, 2, salt.Masses().Water, 1e-12)
	require.Equal(t, BrineName, salt.Liquid.Name)
	require.Equal(t, Vessel{Mass: 100}, Water().Brings(100))
	require.Equal(t, Vessel{}, RockSalt(0, 0).Brings(100))
}
