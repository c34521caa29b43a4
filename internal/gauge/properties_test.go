package gauge

import (
	"math"
	"testing"

	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// floating are the scales on glass.
var floating = []Scale{PercentSalt, SpecificGravity, Salometer, Baume}

// sampling is a brine that a yard can have, and an instrument for it.
type sampling struct {
	instrument Instrument
	kelvin     float64
	density    float64
}

func drawSampling(t *rapid.T, scale Scale) sampling {
	kelvin := zeroCelsius + rapid.Float64Range(-20, 50).Draw(t, "sample C")
	calibration := zeroCelsius + rapid.Float64Range(0, 30).Draw(t, "calibration C")
	strength := rapid.Float64Range(0, 0.26).Draw(t, "strength")
	return sampling{Instrument{Scale: scale, Calibration: calibration}, kelvin, brine(t, strength, kelvin)}
}

// offScale is true for a brine that stands below the mark for water or above the
// top of a scale of strength. 1e-6 of the density keeps clear of the ends.
func offScale(t *rapid.T, s sampling) bool {
	if s.instrument.Scale != PercentSalt && s.instrument.Scale != Salometer {
		return false
	}
	apparent := s.density * (1 + 25e-6*(s.kelvin-s.instrument.Calibration))
	low, high := brine(t, 0, s.instrument.Calibration), brine(t, 0.28, s.instrument.Calibration)
	return apparent < low*(1+1e-6) || apparent > high*(1-1e-6)
}

// Reading and Density are inverse to each other, and only a brine that is off the scale
// has no reading.
func TestReadingIsInverseOfDensity(t *testing.T) {
	const tolerance = 1e-6
	for _, scale := range Scales() {
		rapid.Check(t, func(t *rapid.T) {
			s := drawSampling(t, scale)
			reading, ok := s.instrument.Reading(s.density, s.kelvin)
			if !ok {
				require.True(t, offScale(t, s), "%+v has no reading", s)
				return
			}
			require.InEpsilon(t, s.density, densityOf(t, s.instrument, reading, s.kelvin), tolerance)
			again := read(t, s.instrument, densityOf(t, s.instrument, reading, s.kelvin), s.kelvin)
			require.InDelta(t, reading, again, tolerance*math.Max(1, math.Abs(reading)))
		})
	}
}

// The reading is higher in the heavier of two samples.
func TestReadingRisesWithDensity(t *testing.T) {
	for _, scale := range Scales() {
		rapid.Check(t, func(t *rapid.T) {
			light := drawSampling(t, scale)
			heavy := light
			heavy.density += rapid.Float64Range(0.01, 50).Draw(t, "heavier by")
			a, okA := light.instrument.Reading(light.density, light.kelvin)
			b, okB := heavy.instrument.Reading(heavy.density, heavy.kelvin)
			if okA && okB {
				require.Greater(t, b, a)
				return
			}
			require.True(t, offScale(t, light) || offScale(t, heavy))
		})
	}
}

// The higher of two readings stands for a heavier sample.
func TestDensityRisesWithReading(t *testing.T) {
	top := map[Scale]float64{PercentSalt: 0.27, SpecificGravity: 1.21, Salometer: 102, Baume: 25, Weighed: 1210}
	low := map[Scale]float64{SpecificGravity: 0.99, Baume: -1, Weighed: 990}
	for _, scale := range Scales() {
		rapid.Check(t, func(t *rapid.T) {
			s := drawSampling(t, scale)
			x, y := rapid.Float64Range(low[scale], top[scale]).Draw(t, "x"), rapid.Float64Range(low[scale], top[scale]).Draw(t, "y")
			if y-x < 1e-6*top[scale] {
				return
			}
			require.Greater(t, densityOf(t, s.instrument, y, s.kelvin), densityOf(t, s.instrument, x, s.kelvin))
		})
	}
}

// There is no density for a reading beyond the marks, and no reading beyond them.
func TestOffTheScale(t *testing.T) {
	const kelvin = solution.SixtyF
	for scale, readings := range map[Scale][]float64{
		PercentSalt:     {-1e-6, 0.51, math.NaN(), math.Inf(1)},
		Salometer:       {-1e-6, 200, math.NaN(), math.Inf(1)},
		SpecificGravity: {0, -1, math.NaN(), math.Inf(1)},
		Baume:           {145, 146, math.NaN(), math.Inf(1)},
		Weighed:         {0, -1, math.NaN(), math.Inf(1)},
	} {
		for _, reading := range readings {
			_, ok := Instrument{Scale: scale, Calibration: kelvin}.Density(reading, kelvin)
			require.False(t, ok, "scale %d at %v", scale, reading)
		}
	}
	water := brine(t, 0, kelvin)
	for _, scale := range []Scale{PercentSalt, Salometer} {
		for _, density := range []float64{water - 0.01, 1250, 0, -1, math.NaN(), math.Inf(1)} {
			_, ok := Instrument{Scale: scale, Calibration: kelvin}.Reading(density, kelvin)
			require.False(t, ok, "scale %d in %v", scale, density)
		}
	}
}

// Glass cannot have been marked where water has no density.
func TestCalibrationOutsideTheFit(t *testing.T) {
	for _, calibration := range []float64{0, solution.DensityFloor - 0.01, solution.Ceiling + 0.01, math.NaN()} {
		for _, scale := range floating {
			i := Instrument{Scale: scale, Calibration: calibration}
			_, ok := i.Density(0.2, solution.SixtyF)
			require.False(t, ok, "%+v", i)
			_, ok = i.Reading(1100, solution.SixtyF)
			require.False(t, ok, "%+v", i)
		}
	}
}
