package ready

import (
	"math"
	"math/rand/v2"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// mixing makes readings of a tank over a bed: plateau, start and rate (1/s) of the
// law, with noise relative to the reading, every five minutes.
type mixing struct {
	plateau, start, rate, noise float64
	readings                    int
}

var mixTemp = quantity.Fahrenheit(45)

func (m mixing) request(t testing.TB, seed uint64) Request {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 1))
	out := Request{Band: yard.DefaultBand()}
	for i := range m.readings {
		at := 300 * float64(i)
		s := m.plateau - (m.plateau-m.start)*math.Exp(-m.rate*at)
		shown, err := brine.Expected(gauge.PercentGlass(), quantity.Strength(s*(1+m.noise*r.NormFloat64())), mixTemp)
		require.NoError(t, err)
		out.Samples = append(out.Samples, TimedSample{quantity.Duration(at), brine.Sample{Instrument: gauge.PercentGlass(), Reading: shown, Temperature: mixTemp}})
	}
	return out
}

func fullAt(t testing.TB) float64 {
	full, err := balance.Saturation(mixTemp)
	require.NoError(t, err)
	return float64(full)
}

// Without noise the law comes back: its rate and start exactly.
func TestReadyRecoversTheLaw(t *testing.T) {
	m := mixing{fullAt(t), 0.05, 0.0008, 0, 6}
	out, err := Estimate(m.request(t, 1))
	require.NoError(t, err)
	require.Equal(t, NoFault, out.Fault)
	require.InEpsilon(t, m.rate, out.Rate.Value, 1e-6)
	require.InDelta(t, m.start, float64(out.Start), 1e-7)
	want := math.Log((m.plateau-m.start)/(m.plateau-0.233)) / m.rate
	// The times weigh lower plateaus too, which six readings leave open: they are somewhat later.
	require.InEpsilon(t, want, out.Target.Value, 0.06)
	require.InEpsilon(t, math.Log((m.plateau-m.start)/(m.plateau-0.24))/m.rate, out.TooStrong.Value, 0.08)
	require.Less(t, out.Never, 0.001)
}

// Over 500 seeds with 0.2 % of noise the rate is within 2 % and the time to target within 8 %
// nearly always, and inside the error band about 95 times in 100: 475, give or take
// 3.5 standard deviations of 4.9.
func TestReadyKeepsItsErrorBand(t *testing.T) {
	full := fullAt(t)
	inRate, inTime, near := 0, 0, 0
	for seed := range uint64(500) {
		r := rand.New(rand.NewPCG(seed, 2))
		m := mixing{full, 0.03 + 0.08*r.Float64(), (0.03 + 0.03*r.Float64()) / 60, 0.002, 8}
		out, err := Estimate(m.request(t, seed))
		require.NoError(t, err)
		want := math.Log((full-m.start)/(full-0.233)) / m.rate
		if out.Rate.Low <= m.rate && m.rate <= out.Rate.High {
			inRate++
		}
		if out.Target.Low <= want && want <= out.Target.High {
			inTime++
		}
		if math.Abs(out.Rate.Value/m.rate-1) < 0.02 && math.Abs(out.Target.Value/want-1) < 0.08 {
			near++
		}
	}
	require.InDelta(t, 475, inRate, 17)
	require.InDelta(t, 475, inTime, 17)
	require.GreaterOrEqual(t, near, 490)
}

// A bed that starves makes a second, lower plateau, and is told from a good one.
func TestStarvedBedIsRecognised(t *testing.T) {
	starved, wrongly := 0, 0
	for seed := range uint64(100) {
		out, err := Estimate(mixing{0.2, 0.06, 0.0012, 0.002, 10}.request(t, seed))
		require.NoError(t, err)
		if out.Fault == Starved {
			starved++
			require.InDelta(t, 0.2, float64(out.Plateau), 0.01)
			require.False(t, out.Reaches)
			require.Zero(t, out.Target)
		}
		good, err := Estimate(mixing{fullAt(t), 0.06, 0.0008, 0.002, 10}.request(t, seed))
		require.NoError(t, err)
		if good.Fault == Starved {
			wrongly++
		}
	}
	require.GreaterOrEqual(t, starved, 98)
	require.LessOrEqual(t, wrongly, 4)
}

// One reading far off is named, and the others answer.
func TestWrongReadingIsNamed(t *testing.T) {
	m := mixing{fullAt(t), 0.05, 0.0008, 0.001, 7}
	r := m.request(t, 3)
	r.Samples[4].Sample.Reading -= 0.03
	out, err := Estimate(r)
	require.NoError(t, err)
	require.Equal(t, OneWrong, out.Fault)
	require.Equal(t, 4, out.Odd)
	require.InEpsilon(t, m.rate, out.Rate.Value, 0.05)
}

func TestFallingAndScattered(t *testing.T) {
	r := mixing{fullAt(t), 0.05, 0.0008, 0, 4}.request(t, 1)
	for i, s := range []float64{0.21, 0.205, 0.2, 0.19} {
		r.Samples[i].Sample.Reading = s
	}
	out, err := Estimate(r)
	require.NoError(t, err)
	require.Equal(t, Falling, out.Fault)

	r = mixing{fullAt(t), 0.05, 0.0008, 0, 6}.request(t, 1)
	for i, off := range []float64{0.015, -0.015, 0.015, -0.015, 0.015, -0.015} {
		r.Samples[i].Sample.Reading += off
	}
	out, err = Estimate(r)
	require.NoError(t, err)
	require.Equal(t, Scattered, out.Fault)
}

// A tank that does not gain has no time at which it is ready.
func TestStalled(t *testing.T) {
	for _, s := range []float64{0.12, 0.26} {
		r := mixing{fullAt(t), 0.05, 0.0008, 0, 4}.request(t, 1)
		for i := range r.Samples {
			r.Samples[i].Sample.Reading = s + 0.0005*float64(i)
		}
		out, err := Estimate(r)
		require.NoError(t, err)
		require.Equal(t, Stalled, out.Fault)
		require.False(t, out.Reaches)
		require.Zero(t, out.Target)
		require.Zero(t, out.Rate)
	}
}

// Two readings give an exact curve, with the band of a hydrometer.
func TestTwoReadings(t *testing.T) {
	m := mixing{fullAt(t), 0.1, 0.0005, 0, 2}
	out, err := Estimate(m.request(t, 1))
	require.NoError(t, err)
	require.InEpsilon(t, m.rate, out.Rate.Value, 1e-6)
	require.Equal(t, quantity.Strength(readingError), out.Scatter)
	require.Less(t, out.Target.Low, out.Target.Value)
	require.Greater(t, out.Target.High, out.Target.Value)
	require.GreaterOrEqual(t, out.Look, r0(m.request(t, 1))+soonest)
}

// r0 is the time of the last reading.
func r0(r Request) quantity.Duration { return r.Samples[len(r.Samples)-1].At }

// Student's 95 % quantiles, from memory: 3.182, 2.776, 2.571, 2.228, 2.042 for 3, 4,
// 5, 10 and 30; and in the limit the normal one, 1.960.
func TestStudentQuantile(t *testing.T) {
	for free, want := range map[int]float64{2: 4.303, 3: 3.182, 4: 2.776, 5: 2.571, 10: 2.228, 30: 2.042, 100000: 1.960} {
		require.InDelta(t, want, studentQuantile(free), 0.004, "%d", free)
	}
}

func TestReadyRefusals(t *testing.T) {
	good := func() Request { return mixing{fullAt(t), 0.05, 0.0008, 0, 4}.request(t, 1) }
	for name, c := range map[string]struct {
		field  string
		change func(*Request)
	}{
		"one reading": {fault.FieldReadings, func(r *Request) { r.Samples = r.Samples[:1] }},
		"same time":   {fault.FieldReadings, func(r *Request) { r.Samples[1].At = r.Samples[0].At }},
		"no brine":    {fault.FieldReading, func(r *Request) { r.Samples[2].Sample.Reading = 0.3 }},
		"saturated":   {fault.FieldTarget, func(r *Request) { r.Band = yard.Band{Target: 0.27, Low: 0.26, High: 0.28} }},
		"band upside": {fault.FieldLow, func(r *Request) { r.Band.Low = 0.24 }},
		"hot sample":  {fault.FieldTemperature, func(r *Request) { r.Samples[2].Sample.Temperature = quantity.Celsius(80) }},
	} {
		r := good()
		c.change(&r)
		_, err := Estimate(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// Three readings are too few to tell a wrong one or a lower plateau: they scatter.
func TestThreeReadingsScatter(t *testing.T) {
	r := mixing{fullAt(t), 0.05, 0.0008, 0, 3}.request(t, 1)
	for i, s := range []float64{0.1, 0.15, 0.13} {
		r.Samples[i].Sample.Reading = s
	}
	out, err := Estimate(r)
	require.NoError(t, err)
	require.Equal(t, Scattered, out.Fault)
}

// A warm sample can hold more than saturates the last, cold one: such readings tell that
// it went fast, and no more. All that is told is finite, and target lies before the
// first of them.
func TestReadingsAboveThePlateau(t *testing.T) {
	warm, cold := quantity.Fahrenheit(104), quantity.Fahrenheit(32)
	for _, later := range [][]float64{{0.251}, {0.2505, 0.251}, {0.251, 0.2515, 0.251}} {
		r := Request{Band: yard.DefaultBand(), Samples: []TimedSample{{0, brine.Sample{Instrument: gauge.PercentGlass(), Reading: 0.03, Temperature: warm}}}}
		for i, reading := range later {
			r.Samples = append(r.Samples, TimedSample{quantity.Duration(900 * (i + 1)), brine.Sample{Instrument: gauge.PercentGlass(), Reading: reading, Temperature: warm}})
		}
		r.Samples = append(r.Samples, TimedSample{quantity.Duration(900 * (len(later) + 1)), brine.Sample{Instrument: gauge.PercentGlass(), Reading: 0.273, Temperature: cold}})
		out, err := Estimate(r)
		require.NoError(t, err)
		for _, s := range []Span{out.Rate, out.Target, out.TooStrong} {
			for _, v := range []float64{s.Value, s.Low, s.High} {
				require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%v of %v", s, later)
			}
			require.LessOrEqual(t, s.Low, s.Value)
			require.LessOrEqual(t, s.Value, s.High)
		}
		if !out.Reaches { // they scatter, so that no time is given
			continue
		}
		require.Positive(t, out.Target.Value)
		require.Less(t, out.Target.Value, 900.0)
		// 8 / 900 s: exp(-8) of a gap of 0.22 is the 1e-4 that a reading can tell.
		require.LessOrEqual(t, out.Rate.Value, 8.0/900)
	}
}

// Times are on the scale of the request: readings that begin ten hours later tell the
// same, ten hours later.
func TestReadyOnTheClock(t *testing.T) {
	r := mixing{fullAt(t), 0.05, 0.0008, 0.002, 6}.request(t, 1)
	early, err := Estimate(r)
	require.NoError(t, err)
	for i := range r.Samples {
		r.Samples[i].At += 36000
	}
	late, err := Estimate(r)
	require.NoError(t, err)
	require.InEpsilon(t, early.Rate.Value, late.Rate.Value, 1e-12)
	require.InDelta(t, float64(early.Start), float64(late.Start), 1e-12)
	for _, s := range [][2]float64{
		{early.Target.Value, late.Target.Value}, {early.Target.Low, late.Target.Low}, {early.Target.High, late.Target.High},
		{early.TooStrong.Value, late.TooStrong.Value}, {float64(early.Look), float64(late.Look)},
	} {
		require.InDelta(t, s[0]+36000, s[1], 1e-6)
	}
}

// One looks again when it may be there at the earliest, or in two minutes where that is
// past or no time can be told.
func TestWhenToLook(t *testing.T) {
	full := fullAt(t)
	slow, err := Estimate(mixing{full, 0.05, 0.0003, 0, 4}.request(t, 1)) // 23.3 % after 6,500 s
	require.NoError(t, err)
	require.Equal(t, quantity.Duration(slow.Target.Low), slow.Look)
	require.Greater(t, slow.Look, 900+2*quantity.Minute)
	fast, err := Estimate(mixing{full, 0.05, 0.0008, 0, 12}.request(t, 1)) // after 2,440 s of 3,300
	require.NoError(t, err)
	require.Equal(t, 3300+2*quantity.Minute, fast.Look)
	starved, err := Estimate(mixing{0.2, 0.06, 0.0012, 0, 10}.request(t, 1))
	require.NoError(t, err)
	require.Equal(t, Starved, starved.Fault)
	require.Equal(t, 2700+5*quantity.Minute, starved.Look, "as long as between its readings")
}

// What a reading can be in error by, four times over, is 0.4 %: a loss or a gain of more
// is one, of less is none.
func TestFallingOrStalled(t *testing.T) {
	for change, want := range map[float64]Fault{-0.006: Falling, -0.003: Stalled, 0.003: Stalled} {
		r := mixing{fullAt(t), 0.05, 0.0008, 0, 4}.request(t, 1)
		for i := range r.Samples {
			r.Samples[i].Sample.Reading = 0.2 + change*float64(i)/3
		}
		out, err := Estimate(r)
		require.NoError(t, err)
		require.Equal(t, want, out.Fault, "%g", change)
	}
	r := mixing{fullAt(t), 0.05, 0.0008, 0, 4}.request(t, 1)
	for i := range r.Samples {
		r.Samples[i].Sample.Reading = 0.2 + 0.006*float64(i)/3
	}
	out, err := Estimate(r)
	require.NoError(t, err)
	require.NotContains(t, []Fault{Falling, Stalled}, out.Fault)
}

// Scatter is that of the readings from four on, a quarter of a reading's error at least;
// with fewer it is what a hydrometer can be read to.
func TestScatter(t *testing.T) {
	for n, want := range map[int]quantity.Strength{2: readingError, 3: readingError, 4: readingError / 4, 6: readingError / 4} {
		out, err := Estimate(mixing{fullAt(t), 0.05, 0.0008, 0, n}.request(t, 1))
		require.NoError(t, err)
		require.InDelta(t, float64(want), float64(out.Scatter), 1e-9, "%d", n)
	}
}

// A plateau below saturation is no starved bed, as long as it lies above the target.
func TestPlateauNearSaturation(t *testing.T) {
	for below, want := range map[float64]bool{0.01: false, 0.02: false, 0.05: true} {
		out, err := Estimate(mixing{fullAt(t) - below, 0.06, 0.0012, 0, 10}.request(t, 1))
		require.NoError(t, err)
		require.Equal(t, want, out.Fault == Starved, "%g", below)
	}
}

// Five readings with 1 % of noise have two to spare: a plateau that chance feigns is taken
// in 1 of 100 at most (F above 20), so in 200 draws by no more than 2, and two standard
// deviations of 1.4.
func TestPlateauByChance(t *testing.T) {
	wrongly := 0
	for seed := range uint64(200) {
		out, err := Estimate(mixing{fullAt(t), 0.06, 0.0008, 0.01, 5}.request(t, seed))
		require.NoError(t, err)
		if out.Fault == Starved {
			wrongly++
		}
	}
	require.LessOrEqual(t, wrongly, 5)
}
