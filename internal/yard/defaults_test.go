package yard

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// Common practice, no source: 23.3 % in a band of 23 to 24 %, pure dry salt, a hydrometer
// marked for 60 F, tap water of 50 F.
func TestYardThatSaysNothing(t *testing.T) {
	y := &Yard{}
	require.Equal(t, Band{Target: 0.233, Low: 0.23, High: 0.24}, y.Band())
	require.Equal(t, RockSalt{Purity: 1}, y.RockSalt())
	require.InDelta(t, float64(quantity.Fahrenheit(60)), float64(y.HydrometerCalibration()), 1e-9)
	require.Equal(t, quantity.Fahrenheit(50), y.WaterTemperature())
}

func TestYardThatSays(t *testing.T) {
	target, low := quantity.Strength(0.22), quantity.Strength(0.21)
	y := &Yard{
		Target: Target{Strength: &target, Low: &low}, Calibration: quantity.Celsius(20),
		Pile: Pile{Quality: RockSalt{Purity: 0.95, Moisture: 0.02}}, Supply: Supply{Temperature: quantity.Celsius(4)},
	}
	b := y.Band()
	require.Equal(t, target, b.Target)
	require.Equal(t, low, b.Low)
	require.InDelta(t, 0.227, float64(b.High), 1e-12) // 0.7 % above the target
	require.Equal(t, RockSalt{Purity: 0.95, Moisture: 0.02}, y.RockSalt())
	require.Equal(t, quantity.Celsius(20), y.HydrometerCalibration())
	require.Equal(t, quantity.Celsius(4), y.WaterTemperature())
	y.Pile.Quality.Purity = 0
	require.Equal(t, RockSalt{Purity: 1, Moisture: 0.02}, y.RockSalt())
}

func TestBandOf(t *testing.T) {
	low, high := quantity.Strength(0.2), quantity.Strength(0.26)
	require.Equal(t, DefaultBand(), BandOf(nil, nil, nil))
	require.Equal(t, Band{Target: 0.233, Low: 0.2, High: 0.26}, BandOf(nil, &low, &high))
	require.Equal(t, Band{Target: 0.2, Low: 0.2, High: 0.26}, BandOf(&low, &low, &high))
}
