package ready

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// mixed is a batch of a mixer that closes about 4 % of the gap a minute and levels off at about 25.6 %, a tenth more or
// less in the rate and a tenth of a percent in the level; read to 0.1 % with that noise. It returns when it reaches 23.3 %.
func mixed(dice *rand.Rand, readings int, last float64) (Request, quantity.Duration) {
	r := Request{Band: yard.DefaultBand()}
	rate, level := 0.04*math.Exp(0.1*dice.NormFloat64()), 0.256+0.001*dice.NormFloat64()
	glass := gauge.PercentGlass()
	glass.Division = 0.001
	for i := range readings {
		at := last * float64(i) / float64(readings-1)
		s := level - (level-0.05)*math.Exp(-rate*at) + 0.001*dice.NormFloat64()
		r.Samples = append(r.Samples, TimedSample{
			At:     quantity.Duration(at) * quantity.Minute,
			Sample: brine.Sample{Instrument: glass, Reading: math.Round(1000*s) / 1000, Temperature: quantity.Temperature(glass.Calibration)},
		})
	}
	return r, quantity.Duration(math.Log((level-0.05)/(level-0.233))/rate) * quantity.Minute
}

// What eight batches before tell narrows the range of the next, of which four readings are known, and it still holds.
// The figure is in docs/method.md.
func TestPastNarrows(t *testing.T) {
	dice := rand.New(rand.NewPCG(7, 7))
	batches := max(40, tableTanks())
	var ratios []float64
	held, alone := 0, 0
	for range batches {
		var before []Request
		for range 8 {
			r, _ := mixed(dice, 6, 60)
			before = append(before, r)
		}
		r, reaches := mixed(dice, 4, 30)
		without, err := Estimate(r)
		require.NoError(t, err)
		r.Past = Learn(before, false)
		require.Equal(t, 8, r.Past.Tanks)
		require.Zero(t, r.Past.Stuck)
		with, err := Estimate(r)
		require.NoError(t, err)
		if with.Reaches && with.Target.Low <= float64(reaches) && float64(reaches) <= with.Target.High {
			held++
		}
		if without.Reaches && without.Target.Low <= float64(reaches) && float64(reaches) <= without.Target.High {
			alone++
		}
		ratios = append(ratios, (with.Target.High-with.Target.Low)/(without.Target.High-without.Target.Low))
	}
	slices.Sort(ratios)
	narrower := ratios[len(ratios)/2]
	t.Logf("%.2f of the range; held %d, without the past %d of %d", narrower, held, alone, batches)
	require.Less(t, narrower, 0.7)
	require.GreaterOrEqual(t, held, batches*92/100)
}

// A yard whose tanks have stopped before is told so sooner.
func TestPastStops(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 3))
	stops := func() Request {
		r, _ := mixed(dice, 7, 90)
		for i := range r.Samples {
			r.Samples[i].Sample.Reading = math.Min(r.Samples[i].Sample.Reading, 0.19)
		}
		return r
	}
	p := Learn([]Request{stops(), stops(), stops()}, false)
	require.Equal(t, Past{Tanks: 3, Stuck: 3}, p)
	require.InDelta(t, (0.2+3)/23, p.stuck(), 1e-12)
	// A charge tells nothing of a bed in excess, nor readings that make no sense.
	charge := stops()
	charge.End = 0.235
	require.Zero(t, Learn([]Request{charge, {}, {Samples: charge.Samples[:2], Band: charge.Band}}, false))
}
