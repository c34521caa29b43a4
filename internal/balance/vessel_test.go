package balance

import (
	"testing"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var sixty = quantity.Fahrenheit(60)

// sheet is a product known by its data sheet alone.
func sheet() *solution.Product {
	return &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{
		{Solute: 0.1, Temperature: 268.5}, {Solute: 0.3, Temperature: 250}, {Solute: 0.42, Temperature: 228},
	}}
}

func drawLiquid(t *rapid.T) Liquid {
	l := Liquid{Name: rapid.SampledFrom([]string{"", "brine", "cal31"}).Draw(t, "name")}
	for _, x := range []*float64{&l.Composition.NaCl, &l.Composition.KCl, &l.Composition.CaCl2, &l.Composition.MgCl2} {
		*x = rapid.Float64Range(0, 0.1).Draw(t, "share")
	}
	return l
}

func requireMasses(t require.TestingT, want, got Masses, scale float64) {
	for i, pair := range [][2]float64{
		{want.Water, got.Water}, {want.NaCl, got.NaCl}, {want.KCl, got.KCl}, {want.CaCl2, got.CaCl2}, {want.MgCl2, got.MgCl2}, {want.Other, got.Other},
	} {
		require.InDelta(t, pair[0], pair[1], 1e-9*scale, "%d", i)
	}
}

// Whatever is poured in, drawn and poured over, nothing is lost: each salt and the water,
// to 1e-9 of all that went in.
func TestVesselsConserveMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var tanks [3]Vessel
		var in, out Masses
		for range rapid.IntRange(1, 30).Draw(t, "moves") {
			tank := &tanks[rapid.IntRange(0, 2).Draw(t, "tank")]
			kg := quantity.Mass(rapid.Float64Range(0, 5000).Draw(t, "kg"))
			switch rapid.IntRange(0, 2).Draw(t, "move") {
			case 0:
				l := drawLiquid(t)
				in = in.Plus(MassesOf(l, kg))
				tank.Add(l, kg)
			case 1:
				out = out.Plus(tank.Draw(kg).Masses())
			case 2:
				drawn, err := tank.DrawVolume(kg.Volume(1100), sixty)
				require.NoError(t, err)
				other := &tanks[rapid.IntRange(0, 2).Draw(t, "other")]
				other.Add(drawn.Liquid, drawn.Mass)
			}
		}
		left := tanks[0].Masses().Plus(tanks[1].Masses()).Plus(tanks[2].Masses())
		requireMasses(t, in.Minus(out), left, in.Total()+1)
	})
}

// Two volumes of one brine make their sum, and a volume that is drawn is gone.
func TestVesselVolumes(t *testing.T) {
	tank, err := Fill(SaltBrine(0.233), 5, sixty)
	require.NoError(t, err)
	more, err := Fill(SaltBrine(0.233), 2, sixty)
	require.NoError(t, err)
	tank.Add(more.Liquid, more.Mass)
	v, err := tank.Volume(sixty)
	require.NoError(t, err)
	require.InEpsilon(t, 7, float64(v), 1e-12)
	drawn, err := tank.DrawVolume(3, sixty)
	require.NoError(t, err)
	gone, err := drawn.Volume(sixty)
	require.NoError(t, err)
	require.InEpsilon(t, 3, float64(gone), 1e-12)
	v, err = tank.Volume(sixty)
	require.NoError(t, err)
	require.InEpsilon(t, 4, float64(v), 1e-12)
}

// No more is drawn than there is, and no dregs of rounding are left.
func TestVesselRunsEmpty(t *testing.T) {
	tank := Vessel{Liquid: SaltBrine(0.2), Mass: 100}
	require.Zero(t, tank.Draw(-1).Mass)
	require.Equal(t, quantity.Mass(100), tank.Draw(100-1e-12).Mass)
	require.Zero(t, tank.Mass)
	require.Zero(t, tank.Draw(5).Mass)
	none, err := tank.DrawVolume(1, sixty)
	require.NoError(t, err)
	require.Zero(t, none.Mass)
	v, err := tank.Volume(sixty)
	require.NoError(t, err)
	require.Zero(t, v)
}

// A mix of two names is mixed; fresh water changes no name, and an empty vessel takes that
// of what comes in.
func TestVesselNames(t *testing.T) {
	for _, c := range []struct{ first, second, want string }{
		{"brine", "brine", "brine"}, {"brine", "", "brine"}, {"", "brine", "brine"}, {"brine", "cal31", Mixed},
	} {
		tank := Vessel{Liquid: Liquid{Name: "before"}}
		tank.Add(Liquid{Name: c.first}, 1)
		tank.Add(Liquid{Name: "nothing"}, 0)
		tank.Add(Liquid{Name: c.second}, 1)
		require.Equal(t, c.want, tank.Liquid.Name)
	}
}

// A product is counted once, by its share of the mass, and the liquid it came from keeps
// its own.
func TestVesselWithProducts(t *testing.T) {
	p := sheet()
	bought := OfProduct("sheet", p)
	tank := Vessel{Liquid: SaltBrine(0.2), Mass: 60}
	tank.Add(bought, 30)
	tank.Add(bought, 10)
	require.Len(t, tank.Liquid.Products, 1)
	require.InDelta(t, 0.4, tank.Liquid.Products[0].Share, 1e-15)
	require.InDelta(t, 0.2, tank.Liquid.Composition.Other, 1e-15)
	require.InDelta(t, 0.12, tank.Liquid.Composition.NaCl, 1e-15)
	require.Equal(t, 1.0, bought.Products[0].Share)
	rho, err := SaltBrine(0.2).Density(sixty)
	require.NoError(t, err)
	mixed, err := tank.Density(sixty)
	require.NoError(t, err)
	require.InEpsilon(t, 1/(0.6/float64(rho)+0.4/1280), float64(mixed), 1e-12)
}

// What is no solution, or too warm for the density, is an error and not a volume.
func TestVesselErrors(t *testing.T) {
	impossible := Vessel{Liquid: SaltBrine(0.7), Mass: 1}
	_, err := impossible.Volume(sixty)
	require.ErrorIs(t, err, solution.ErrComposition)
	_, err = impossible.DrawVolume(1, sixty)
	require.ErrorIs(t, err, solution.ErrComposition)
	_, err = Fill(SaltBrine(0.2), 1, quantity.Celsius(90))
	require.ErrorIs(t, err, solution.ErrTemperature)
}

// By hand: of 100 kg with 20 % NaCl and 10 % CaCl2, 70 kg are water; chloride is 20 x 35.453
// / 58.443 and 10 x 70.906 / 110.984.
func TestMasses(t *testing.T) {
	m := MassesOf(Liquid{Composition: solution.Composition{NaCl: 0.2, CaCl2: 0.1}}, 100)
	require.InDelta(t, 70, m.Water, 1e-12)
	require.InDelta(t, 100, m.Total(), 1e-12)
	require.InDelta(t, 12.1325+6.3889, m.Chloride(), 1e-3)
	require.InDelta(t, 0.2, m.Composition().NaCl, 1e-15)
	require.Zero(t, Masses{}.Chloride())
	require.Equal(t, Masses{}, m.Minus(m))
}
