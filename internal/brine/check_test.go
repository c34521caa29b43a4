package brine

import (
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// tankAt is a check of a full 500-gallon tank by a percent hydrometer.
func tankAt(reading float64, fahrenheit float64) CheckRequest {
	return CheckRequest{
		Sample:   Sample{Instrument: gauge.PercentGlass(), Reading: reading, Temperature: quantity.Fahrenheit(fahrenheit)},
		Band:     yard.DefaultBand(),
		Volume:   500 * quantity.Gallon,
		RockSalt: yard.PureSalt(),
	}
}

// Common practice, no source: 23 to 24 % true strength is pumped. The second
// column is the decision of one who leaves the thermometer in his pocket.
func TestDecisions(t *testing.T) {
	for _, c := range []struct {
		reading, fahrenheit float64
		naive, want         yard.Decision
	}{
		{0.233, 60, yard.MayPump, yard.MayPump},
		{0.230, 60, yard.MayPump, yard.MayPump},
		{0.240, 60, yard.MayPump, yard.MayPump},
		{0.229, 60, yard.TooWeak, yard.TooWeak},
		{0.241, 60, yard.TooStrong, yard.TooStrong},
		{0.233, 40, yard.MayPump, yard.TooWeak},
		{0.242, 38, yard.TooStrong, yard.MayPump},
		{0.235, 85, yard.MayPump, yard.TooStrong},
		{0.226, 80, yard.TooWeak, yard.MayPump},
		{0.253, 38, yard.TooStrong, yard.TooStrong},
	} {
		got, err := Check(tankAt(c.reading, c.fahrenheit))
		require.NoError(t, err)
		require.Equal(t, c.want, got.Decision, "%+v", c)
		require.Equal(t, c.naive, got.Naive, "%+v", c)
		require.Equal(t, c.naive != c.want, got.Misled(), "%+v", c)
	}
}

// A tank whose instrument shows what the answer told to look for is on target.
func TestWantedReadingIsTarget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := tankAt(rapid.Float64Range(0.15, 0.25).Draw(t, "reading"), rapid.Float64Range(34, 90).Draw(t, "F"))
		c, err := Check(r)
		require.NoError(t, err)
		r.Sample.Reading = c.ReadingWanted
		right, err := Check(r)
		require.NoError(t, err)
		require.Equal(t, yard.MayPump, right.Decision)
		require.InDelta(t, float64(r.Band.Target), float64(right.Reading.True), 1e-9)
		require.Equal(t, AnyAdditive, right.Correction.Additive)
	})
}

// The band ends, as readings, are where the decision turns.
func TestBandReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := tankAt(0.233, rapid.Float64Range(34, 90).Draw(t, "F"))
		c, err := Check(r)
		require.NoError(t, err)
		for _, edge := range []struct {
			reading float64
			want    yard.Decision
		}{
			{c.LowReading - 2*yard.OnTarget, yard.TooWeak}, {c.LowReading + 2*yard.OnTarget, yard.MayPump},
			{c.HighReading - 2*yard.OnTarget, yard.MayPump}, {c.HighReading + 2*yard.OnTarget, yard.TooStrong},
		} {
			r.Sample.Reading = edge.reading
			got, err := Check(r)
			require.NoError(t, err)
			require.Equal(t, edge.want, got.Decision)
		}
	})
}

// The correction of a check is that of correct.
func TestCheckCorrectsAsCorrectDoes(t *testing.T) {
	r := tankAt(0.25, 45)
	c, err := Check(r)
	require.NoError(t, err)
	direct, err := Correct(r.Correction(c))
	require.NoError(t, err)
	require.Equal(t, direct, c.Correction)
}

func TestCheckRefusals(t *testing.T) {
	for field, change := range map[string]func(*CheckRequest){
		fault.FieldReading:     func(r *CheckRequest) { r.Sample.Reading = 0.3 },
		fault.FieldTemperature: func(r *CheckRequest) { r.Sample.Temperature = quantity.Celsius(60) },
		fault.FieldCalibration: func(r *CheckRequest) { r.Sample.Instrument.Calibration = 0 },
		fault.FieldTarget:      func(r *CheckRequest) { r.Band.Target = 0.27 },
		fault.FieldLow:         func(r *CheckRequest) { r.Band.Low = 0.24 },
		fault.FieldHigh:        func(r *CheckRequest) { r.Band.High = 0.23 },
		fault.FieldStrength:    func(r *CheckRequest) { r.Band.High = 0.6 }, // no reading shows that
		fault.FieldVolume:      func(r *CheckRequest) { r.Volume = 0 },
		fault.FieldPurity:      func(r *CheckRequest) { r.RockSalt.Purity = 0 },
		fault.FieldMoisture:    func(r *CheckRequest) { r.RockSalt.Moisture = 0.5 },
	} {
		r := tankAt(0.233, 60)
		change(&r)
		_, err := Check(r)
		faulttest.RequireField(t, err, field, field)
	}
}
