package brine

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// tries is how many readings are simulated of each kind: 20,000 with BRINEYARD_ENDURANCE set.
func tries() int {
	if os.Getenv("BRINEYARD_ENDURANCE") != "" {
		return 20_000
	}
	return 1_500
}

// simulated is a tank whose samples are read as people do: glass and thermometer to the nearest mark.
type simulated struct {
	*rand.Rand
	instrument  gauge.Instrument
	thermometer gauge.Thermometer
	scatter     float64 // standard deviation of samples about the tank, mass fraction
}

// nearest is the mark nearest to a value.
func nearest(x, division float64) float64 { return division * math.Round(x/division) }

// within is even between both ends of a spread.
func (s simulated) within(half float64) float64 { return half * (2*s.Float64() - 1) }

// draw is a tank's true strength and what n samples of it show.
func (s simulated) draw(n int) (w quantity.Strength, shown Sample) {
	w = quantity.Strength(0.20 + 0.05*s.Float64())
	t := quantity.Fahrenheit(36 + 40*s.Float64())
	glass := s.instrument
	glass.Offset += s.within(glass.OffsetSure) // what it really shows too much
	shown = Sample{Instrument: s.instrument, Thermometer: s.thermometer}
	const fahrenheit = 5.0 / 9
	for i := range n {
		here := w + quantity.Strength(s.scatter*s.NormFloat64())
		reading, _ := glass.Reading(float64(balance.BrineDensity(here, t)), float64(t))
		one := Shown{nearest(reading, glass.Division), quantity.Fahrenheit(nearest(t.Fahrenheit(), s.thermometer.Division/fahrenheit))}
		if i == 0 {
			shown.Reading, shown.Temperature = one.Reading, one.Temperature
			continue
		}
		shown.More = append(shown.More, one)
	}
	return w, shown
}

// Of the stated ranges 93 to 98 in 100 hold the truth, with each instrument, tested or not, of one sample and
// of three whose scatter is nothing to all that a mixed tank has. Three that nearly all show one mark do better
// than that, since more samples do not narrow the range: 93 to 99 in 100 at each scatter. Samples that lie too
// far apart are taken again, as the answer says.
func TestRangesHoldTheTruth(t *testing.T) {
	t.Parallel()
	for _, scale := range gauge.Scales() {
		for _, tested := range []float64{0, 0.4} {
			i := gauge.Instrument{Scale: scale, Calibration: gauge.DefaultCalibration, Division: scale.Division()}
			i.OffsetSure = tested * i.Division
			s := simulated{rand.New(rand.NewPCG(uint64(scale), 8)), i, gauge.UsualThermometer(quantity.US), 0}
			require.InDelta(t, 0.955, s.shareHeld(t, 1), 0.025, scale.Name())

			pooled := 0.0
			scatters := []float64{0, 0.0005, 0.001, 0.002}
			for _, s.scatter = range scatters {
				share := s.shareHeld(t, 3)
				require.InDelta(t, 0.96, share, 0.03, "%s %v %v", scale.Name(), tested, s.scatter)
				pooled += share / float64(len(scatters))
			}
			require.InDelta(t, 0.955, pooled, 0.025, scale.Name())
		}
	}
}

// shareHeld is the share of ranges of n samples that hold the truth.
func (s simulated) shareHeld(t *testing.T, n int) float64 {
	t.Helper()
	held, refused := 0, 0
	for range tries() {
		w, shown := s.draw(n)
		r, err := Reading(shown)
		switch {
		case err != nil:
			refused++
		case r.Range.Low <= w && w <= r.Range.High:
			held++
		}
	}
	require.Less(t, refused, tries()*4/100)
	share := float64(held) / float64(tries()-refused)
	t.Logf("%s, offset sure %v, %d samples, scatter %v: %.3f held, %d of %d sampled again",
		s.instrument.Scale.Name(), s.instrument.OffsetSure, n, s.scatter, share, refused, tries())
	return share
}

// The amounts that a correction states hold the right one: that of the true strength, by the same arithmetic.
func TestAmountsHoldTheTruth(t *testing.T) {
	t.Parallel()
	const volume = 500 * quantity.Gallon
	for _, scale := range gauge.Scales() {
		i := gauge.Instrument{Scale: scale, Calibration: gauge.DefaultCalibration, Division: scale.Division(), OffsetSure: 0.3 * scale.Division()}
		s := simulated{rand.New(rand.NewPCG(9, uint64(scale))), i, gauge.UsualThermometer(quantity.US), 0}
		held, all := 0, 0
		for range tries() {
			w, shown := s.draw(1)
			really := volume * quantity.Volume(1+s.within(0.02))
			r, err := Reading(shown)
			require.NoError(t, err)
			q := CorrectRequest{
				Volume: volume, Strength: r.True, Temperature: r.Temperature, Target: yard.DefaultBand().Target, RockSalt: yard.PureSalt(), Instrument: i,
				Sure: r.Sure, VolumeHalf: 0.02 * volume,
			}
			c, err := Correct(q)
			require.NoError(t, err)
			q.Volume, q.Strength, q.Sure, q.VolumeHalf = really, w, q.Sure.Times(0), 0
			right, err := Correct(q)
			require.NoError(t, err)
			if c.Additive == AnyAdditive {
				continue
			}
			all++
			amount, truth := c.Water, right.Water
			if c.Additive == AddSalt {
				amount, truth = quantity.Volume(c.Salt), quantity.Volume(right.Salt)
			}
			if float64(truth) >= c.Share.Low*float64(amount)-1e-12 && float64(truth) <= c.Share.High*float64(amount)+1e-12 {
				held++
			}
		}
		require.InDelta(t, 0.955, float64(held)/float64(all), 0.025, scale.Name())
	}
}

// A batch that is aimed at 23.3 % and comes out within 0.15 % is seldom called on the edge, by a half-percent glass.
func TestEdgeIsSeldom(t *testing.T) {
	t.Parallel()
	i := gauge.Instrument{Scale: gauge.PercentSalt, Calibration: gauge.DefaultCalibration, Division: gauge.PercentSalt.Division()}
	s := simulated{rand.New(rand.NewPCG(7, 7)), i, gauge.UsualThermometer(quantity.US), 0}
	count := map[yard.Decision]int{}
	const batches = 10_000
	for range batches {
		w := quantity.Strength(0.233 + 0.0015*s.NormFloat64())
		kelvin := quantity.Fahrenheit(36 + 40*s.Float64())
		reading, _ := i.Reading(float64(balance.BrineDensity(w, kelvin)), float64(kelvin))
		r, err := Reading(Sample{Instrument: i, Thermometer: s.thermometer, Reading: nearest(reading, i.Division), Temperature: quantity.Fahrenheit(nearest(kelvin.Fahrenheit(), 2))})
		require.NoError(t, err)
		count[yard.DefaultBand().JudgeRange(r.True, r.Range.Low, r.Range.High)]++
	}
	t.Log(count)
	require.Less(t, count[yard.OnTheEdge], batches*15/100)
	require.Less(t, count[yard.TooWeak]+count[yard.TooStrong], batches/100)
}

// A test of an instrument says an offset whose range holds the true one: in water below the temperature that the
// glass is marked for, and in a brine that was weighed to the gram.
func TestOffsetsHoldTheTruth(t *testing.T) {
	t.Parallel()
	for _, scale := range gauge.Scales() {
		s := simulated{rand.New(rand.NewPCG(5, uint64(scale))), gauge.Instrument{Scale: scale, Calibration: gauge.DefaultCalibration, Division: scale.Division()}, gauge.UsualThermometer(quantity.US), 0}
		held := map[bool]int{}
		for range tries() {
			for _, water := range []bool{true, false} {
				r, really := s.test(t, water)
				g, err := CheckGlass(r)
				require.NoError(t, err)
				if g.Low() <= really && really <= g.High() {
					held[water]++
				}
			}
		}
		for water, n := range held {
			require.InDelta(t, 0.955, float64(n)/float64(tries()), 0.025, "%s %v", scale.Name(), water)
		}
	}
}

// test is an instrument that shows too much, in water or brine, with what it really shows too much.
func (s simulated) test(t *testing.T, water bool) (GlassTest, float64) {
	t.Helper()
	i := s.instrument
	i.Offset = s.within(2 * i.Division)
	r := GlassTest{Sample: Sample{Instrument: s.instrument, Thermometer: s.thermometer}, WeighedTo: 0.001}
	salt, w, kelvin := 0.303+s.within(0.0005), tapWater*s.Float64(), quantity.Fahrenheit(42+14*s.Float64())
	if !water {
		r.Salt, r.Water = 0.303, 1
		w = salt / (salt + 1 + s.within(0.0005))
	}
	reading, ok := i.Reading(float64(balance.BrineDensity(quantity.Strength(w), kelvin)), float64(kelvin))
	require.True(t, ok)
	r.Sample.Reading, r.Sample.Temperature = nearest(reading, i.Division), quantity.Fahrenheit(nearest(kelvin.Fahrenheit(), 2))
	return r, i.Offset
}
