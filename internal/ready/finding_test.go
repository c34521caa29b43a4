package ready

import (
	"math"
	"testing"

	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The last reading is judged as check judges it: what is off an end of the band by less than
// would need correcting may be pumped. The fit is judged alike, but where the reading stands on the end, nobody is told
// that the band was passed.
func TestReadyDecidesAsCheckDoes(t *testing.T) {
	sixty := quantity.Fahrenheit(60)
	for _, c := range []struct {
		reading float64
		want    yard.Decision
		finding Finding
	}{
		{0.239, yard.MayPump, OnTarget},
		{0.239994, yard.MayPump, OnTarget},
		{0.239996, yard.MayPump, OnTarget},
		{0.24, yard.MayPump, OnTarget},
		{0.240004, yard.MayPump, OnTarget},
		{0.240006, yard.TooStrong, ReadAbove},
		{0.2405, yard.TooStrong, ReadAbove},
	} {
		r := Request{Band: yard.DefaultBand()}
		for i, reading := range []float64{0.2, 0.225, c.reading} {
			r.Samples = append(r.Samples, TimedSample{quantity.Duration(1200 * i), brine.Sample{Instrument: gauge.PercentGlass(), Reading: reading, Temperature: sixty}})
		}
		checked, err := brine.Check(brine.CheckRequest{Sample: r.Samples[2].Sample, Band: r.Band, Volume: 1, RockSalt: yard.PureSalt()})
		require.NoError(t, err)
		require.Equal(t, c.want, checked.Decision)
		out, err := Estimate(r)
		require.NoError(t, err)
		require.Equal(t, c.finding, out.Finding, "%v: %v", c.reading, out.Now)
	}
}

// Each finding, by readings a quarter of an hour apart in a tank that goes from 5 % to
// saturation, or stands still, or goes back. The fit passes the band where the last reading
// is weak, or in the band, by an error.
func TestFindings(t *testing.T) {
	full := fullAt(t)
	onWay := func(minutes ...float64) []float64 {
		var strengths []float64
		for _, m := range minutes {
			strengths = append(strengths, full-(full-0.05)*math.Exp(-0.05*m))
		}
		return strengths
	}
	toSaturation := yard.Band{Target: quantity.Strength(full), Low: 0.2, High: 0.28}
	for _, c := range []struct {
		want      Finding
		strengths []float64
		band      yard.Band
	}{
		{WillBeReady, onWay(0, 15, 30), yard.DefaultBand()},
		{OnTarget, onWay(0, 15, 30), yard.Band{Target: 0.21, Low: 0.2, High: 0.23}},
		{ReadAbove, onWay(0, 15, 30, 45), yard.BandAround(0.22)},
		{StandsInBand, []float64{0.233, 0.2335, 0.234}, yard.DefaultBand()},
		{NoGain, []float64{0.12, 0.1205, 0.121}, yard.DefaultBand()},
		{TooScattered, []float64{0.1, 0.18, 0.17, 0.22}, yard.DefaultBand()},
		{GetsWeaker, []float64{0.2, 0.19, 0.18}, yard.DefaultBand()},
		{LevelsOff, []float64{0.08, 0.14, 0.17, 0.183, 0.189, 0.192}, yard.DefaultBand()},
		{NeverOnTarget, onWay(0, 15, 30), toSaturation},
		{PassedBand, append(onWay(0, 15, 30, 45, 60, 75), 0.22), yard.DefaultBand()},
		{PassedBand, append(onWay(0, 15, 30, 45, 60, 75), 0.233), yard.DefaultBand()},
	} {
		r := Request{Band: c.band}
		for i, s := range c.strengths {
			shown, err := brine.Expected(gauge.PercentGlass(), quantity.Strength(s), mixTemp)
			require.NoError(t, err)
			r.Samples = append(r.Samples, TimedSample{quantity.Duration(900 * i), brine.Sample{Instrument: gauge.PercentGlass(), Reading: shown, Temperature: mixTemp}})
		}
		out, err := Estimate(r)
		require.NoError(t, err)
		assert.Equal(t, c.want, out.Finding, "%v: %+v", c.strengths, out)
	}
}
