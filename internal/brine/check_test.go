package brine

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// tankAt is a check of a full 500-gallon tank by a percent hydrometer.
func tankAt(reading float64, fahrenheit float64) CheckRequest {
	return CheckRequest{
		Sample:   Sample{Instrument: glass, Reading: reading, Temperature: quantity.Fahrenheit(fahrenheit)},
		Band:     DefaultBand,
		Volume:   500 * quantity.Gallon,
		RockSalt: PureSalt,
	}
}

// Common practice, no source: 23 to 24 % true strength is pumped. The second
// column is the decision of one who leaves the thermometer in his pocket.
func TestDecisions(t *testing.T) {
	for _, c := range []struct {
		reading, fahrenheit float64
		naive, want         Decision
	}{
		{0.233, 60, Pump, Pump},
		{0.230, 60, Pump, Pump},
		{0.240, 60, Pump, Pump},
		{0.229, 60, TooWeak, TooWeak},
		{0.241, 60, TooStrong, TooStrong},
		{0.233, 40, Pump, TooWeak},
		{0.242, 38, TooStrong, Pump},
		{0.235, 85, Pump, TooStrong},
		{0.226, 80, TooWeak, Pump},
		{0.253, 38, TooStrong, TooStrong},
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
		require.Equal(t, Pump, right.Decision)
		require.InDelta(t, float64(r.Band.Target), float64(right.Reading.True), 1e-9)
		require.Equal(t, Auto, right.Correction.Agent)
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
			want    Decision
		}{
			{c.LowReading - 2*onTarget, TooWeak}, {c.LowReading + 2*onTarget, Pump},
			{c.HighReading - 2*onTarget, Pump}, {c.HighReading + 2*onTarget, TooStrong},
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
		FieldReading:     func(r *CheckRequest) { r.Sample.Reading = 0.3 },
		FieldTemperature: func(r *CheckRequest) { r.Sample.Temperature = quantity.Celsius(60) },
		FieldCalibration: func(r *CheckRequest) { r.Sample.Instrument.Calibration = 0 },
		FieldTarget:      func(r *CheckRequest) { r.Band.Target = 0.27 },
		FieldLow:         func(r *CheckRequest) { r.Band.Low = 0.24 },
		FieldHigh:        func(r *CheckRequest) { r.Band.High = 0.23 },
		FieldStrength:    func(r *CheckRequest) { r.Band.High = 0.6 }, // no reading shows that
		FieldVolume:      func(r *CheckRequest) { r.Volume = 0 },
		FieldPurity:      func(r *CheckRequest) { r.RockSalt.Purity = 0 },
		FieldMoisture:    func(r *CheckRequest) { r.RockSalt.Moisture = 0.5 },
	} {
		r := tankAt(0.233, 60)
		change(&r)
		_, err := Check(r)
		requireField(t, err, field, field)
	}
}

func TestDecisionInWords(t *testing.T) {
	for d, want := range map[Decision]string{Pump: "pump", TooStrong: "too strong", TooWeak: "too weak"} {
		require.Equal(t, want, d.String())
	}
}

// Common practice, no source: the band is 23 to 24 %, 0.3 below the target and 0.7
// above. It stays where it holds the target, ends included, and else moves along with
// it, by hand: 25 % less 0.3 and plus 0.7; near fresh water it ends at 0.
func TestBandAround(t *testing.T) {
	for target, want := range map[quantity.Strength]Band{
		0.233: {0.233, 0.23, 0.24},
		0.23:  {0.23, 0.23, 0.24},
		0.24:  {0.24, 0.23, 0.24},
		0.25:  {0.25, 0.247, 0.257},
		0.2:   {0.2, 0.197, 0.207},
		0.002: {0.002, 0, 0.009},
	} {
		b := BandAround(target)
		require.Equal(t, want.Target, b.Target)
		require.InDelta(t, float64(want.Low), float64(b.Low), 1e-12, "%v", float64(target))
		require.InDelta(t, float64(want.High), float64(b.High), 1e-12, "%v", float64(target))
		require.NoError(t, b.check())
	}
}
