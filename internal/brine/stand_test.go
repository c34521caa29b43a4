package brine

import (
	"slices"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// standing asks what a composition has become at a temperature.
func standing(c solution.Composition, f float64) FreezeRequest {
	r := asked(c)
	r.At = quantity.Fahrenheit(f)
	return r
}

// Source: CRC Handbook: 20 % brine freezes at -16.46 C, so 10 % brine that stands
// there is half liquid of 20 %, half ice. The model's 20 % freezes 0.25 C colder,
// which is 0.2 % of strength.
func TestSlushByTheLever(t *testing.T) {
	r := asked(solution.Brine(0.1))
	r.At = quantity.Celsius(-16.46)
	f, err := Freeze(r)
	require.NoError(t, err)
	require.InDelta(t, 0.5, float64(f.Stand.Ice), 0.01)
	require.InDelta(t, 0.5, float64(f.Stand.Liquid), 0.01)
	require.False(t, f.Stand.Pumpable)
}

// The 80/20 blend drops salt at 0 F; from 21.5 % brine it is still clear there.
func TestBlendOnTheTankFloor(t *testing.T) {
	r := standing(solution.Composition{NaCl: 0.1824, CaCl2: 0.0695}, 0)
	r.Volume = 4000 * quantity.Gallon
	f, err := Freeze(r)
	require.NoError(t, err)
	s := f.Stand
	require.Zero(t, s.Ice)
	require.True(t, s.Pumpable)
	require.InEpsilon(t, float64(s.Salt)*float64(r.Volume.Mass(f.Density)), float64(s.SaltMass), 1e-9)
	// Of hydrohalite, 61.9 % is salt: 58.44 of 94.47 g/mol.
	require.InEpsilon(t, 0.6186, float64(s.DrySalt/s.SaltMass), 1e-3)
	require.Equal(t, s.Salt, s.Crystals[solution.Hydrohalite])

	clear, err := Freeze(standing(solution.Composition{NaCl: 0.1679, CaCl2: 0.0702}, 0))
	require.NoError(t, err)
	require.Zero(t, clear.Stand.Salt+clear.Stand.Ice)
}

// The parts make up the whole, whatever it is.
func TestStandAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, err := Freeze(standing(solution.Composition{
			NaCl:  rapid.Float64Range(0, 0.2).Draw(t, "NaCl"),
			CaCl2: rapid.Float64Range(0, 0.06).Draw(t, "CaCl2"),
		}, rapid.Float64Range(-50, 60).Draw(t, "F")))
		require.NoError(t, err)
		require.InDelta(t, 1, float64(f.Stand.Liquid+f.Stand.Ice+f.Stand.Salt), 1e-9)
	})
}

func TestFreezeQuestionsRefused(t *testing.T) {
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.2, Temperature: 263}}}
	for name, c := range map[string]struct {
		field  string
		change func(*FreezeRequest)
	}{
		"too cold":           {fault.FieldAt, func(r *FreezeRequest) { r.At = quantity.Celsius(-90) }},
		"too warm":           {fault.FieldAt, func(r *FreezeRequest) { r.At = quantity.Celsius(60) }},
		"warm pavement":      {fault.FieldPavement, func(r *FreezeRequest) { r.Pavement = quantity.Celsius(1) }},
		"product at":         {fault.FieldAt, func(r *FreezeRequest) { r.Liquid, r.At = balance.OfProduct("p", sheet), quantity.Celsius(-5) }},
		"product pavement":   {fault.FieldPavement, func(r *FreezeRequest) { r.Liquid, r.Pavement = balance.OfProduct("p", sheet), quantity.Celsius(-5) }},
		"product curve":      {fault.FieldLiquid, func(r *FreezeRequest) { r.Liquid, r.Curve = balance.OfProduct("p", sheet), true }},
		"curve of water":     {fault.FieldLiquid, func(r *FreezeRequest) { r.Liquid, r.Curve = balance.Liquid{Name: "water"}, true }},
		"measured when warm": {fault.FieldTemperature, func(r *FreezeRequest) { r.StoredAt = quantity.Celsius(90) }},
	} {
		r := asked(solution.Brine(0.2))
		c.change(&r)
		_, err := Freeze(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// The diagram rises from fresh water through the liquid itself to where salt falls
// out in the warm, each strength once.
func TestCurve(t *testing.T) {
	for _, w := range []float64{0.005, 0.2, 0.2005, 0.233, 0.264} {
		r := asked(solution.Brine(w))
		r.Curve = true
		f, err := Freeze(r)
		require.NoError(t, err)
		own, before := 0, quantity.Strength(-1)
		for _, p := range f.Curve {
			require.Greater(t, p.Strength, before, "%g", w)
			before = p.Strength
			if p.IsLiquid {
				own++
				require.InDelta(t, w, float64(p.Strength), 1e-12)
				require.InDelta(t, f.Cold.First().Temperature, p.Cold.First().Temperature, 1e-5)
			}
		}
		require.Equal(t, 1, own, "%g", w)
		require.Zero(t, f.Curve[0].Strength)
		require.Greater(t, f.Curve[len(f.Curve)-1].Strength, quantity.Strength(0.26))
	}
}

// The lines of ice and salt meet once, both to a thousandth of a degree, at the eutectic: of salt 23.3 %
// and -21.1 C, of magnesium chloride 20.5 to 22 % and -30 to -33.6 C, by the tables of FHWA-RD-95-202
// (appendix A), Melinder and VDI. The model is known to lie within 0.6 K of the first.
func TestCurvesMeetAtTheEutectic(t *testing.T) {
	for _, c := range []struct {
		liquid           solution.Composition
		weak, strong     float64 // mass fraction
		coldest, warmest float64 // C
	}{
		{solution.Brine(0.15), 0.231, 0.235, -21.7, -20.5},
		{solution.Brine(0.26), 0.231, 0.235, -21.7, -20.5},
		{solution.Composition{MgCl2: 0.2}, 0.20, 0.225, -34.5, -29.5},
	} {
		r := asked(c.liquid)
		r.Curve = true
		f, err := Freeze(r)
		require.NoError(t, err)
		met := 0
		for _, p := range f.Curve {
			if !p.Meets {
				continue
			}
			met++
			require.InDelta(t, float64(p.Cold.Ice.Temperature), float64(p.Cold.Salt.Temperature), 1e-3)
			celsius := float64(p.Cold.Ice.Temperature) - 273.15
			require.True(t, float64(p.Strength) > c.weak && float64(p.Strength) < c.strong && celsius > c.coldest && celsius < c.warmest, "%v: %v at %g C", c.liquid, p.Strength, celsius)
		}
		require.Equal(t, 1, met)
	}
}

// A liquid stronger than the diagram goes stands at its end.
func TestCurveOfAStrongLiquid(t *testing.T) {
	r := asked(solution.Composition{CaCl2: 0.36})
	r.Curve = true
	f, err := Freeze(r)
	require.NoError(t, err)
	require.True(t, f.Curve[len(f.Curve)-1].IsLiquid)
}

// On pavement a liquid melts until it is as dilute as what freezes there.
func TestMelt(t *testing.T) {
	r := asked(solution.Brine(0.233))
	r.Pavement = quantity.Fahrenheit(20)
	f, err := Freeze(r)
	require.NoError(t, err)
	diluted, err := Freeze(asked(solution.Brine(float64(f.Melt.Diluted))))
	require.NoError(t, err)
	require.InDelta(t, 20, fahrenheit(diluted.Cold.Ice.Temperature), 1e-3)
	require.InEpsilon(t, float64(f.Melt.Dilution)*float64(f.Density), float64(f.Melt.PerVolume), 1e-12)
	require.InDelta(t, 0.233, float64(f.Melt.Diluted)*(1+float64(f.Melt.Dilution)), 1e-12)
}

// A diagram that salt does not end goes to where the model is checked, 32 %, in whole
// percents from 0 on: 33 points, of which the liquid itself is one, and where ice and salt meet.
func TestCurveToTheEnd(t *testing.T) {
	r := asked(solution.Composition{CaCl2: 0.30})
	r.Curve = true
	f, err := Freeze(r)
	require.NoError(t, err)
	whole := slices.DeleteFunc(f.Curve, func(p CurvePoint) bool { return p.Meets })
	require.Len(t, whole, 33)
	for i, p := range whole {
		require.InDelta(t, float64(i)/100, float64(p.Strength), 1e-12)
		require.Equal(t, i == 30, p.IsLiquid)
	}
}

// A refusal says what is allowed.
func TestFreezeRefusalsInWords(t *testing.T) {
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.2, Temperature: 263}}}
	for _, c := range []struct {
		field, words string
		change       func(*FreezeRequest)
	}{
		{fault.FieldAt, "allowed: -94 F to 104 F", func(r *FreezeRequest) { r.At = quantity.Celsius(-71) }},
		{fault.FieldPavement, "ice melts by itself at 32 F, and the model ends at -94 F", func(r *FreezeRequest) { r.Pavement = quantity.Celsius(0.5) }},
		{fault.FieldAt, "p is known by its data sheet alone", func(r *FreezeRequest) { r.Liquid, r.At = balance.OfProduct("p", sheet), quantity.Celsius(-5) }},
		{fault.FieldLiquid, "fresh water has no freezing diagram", func(r *FreezeRequest) { r.Liquid, r.Curve = balance.Liquid{Name: "water"}, true }},
	} {
		r := asked(solution.Brine(0.2))
		c.change(&r)
		_, err := Freeze(r)
		faulttest.RequireRefusal(t, err, c.field, c.words)
	}
}
