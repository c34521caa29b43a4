package ready

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A bed that is read at a flow leaves that strength at that flow, less at more flow, and the target at the flow for it.
func TestThrough(t *testing.T) {
	at := quantity.Fahrenheit(50)
	full, err := balance.Saturation(at)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		read := Passage{
			Flow:     quantity.Flow(rapid.Float64Range(5, 60).Draw(t, "flow")) * quantity.GallonPerMinute,
			Bed:      quantity.Volume(rapid.Float64Range(50, 800).Draw(t, "bed")) * quantity.Gallon,
			Strength: quantity.Strength(rapid.Float64Range(0.1, 0.26).Draw(t, "strength")),
		}
		r := ThroughRequest{Flow: read.Flow, Bed: read.Bed, Temperature: at, Band: yard.DefaultBand(), Before: []Passage{read}, Volume: 4}
		out, err := Through(r)
		require.NoError(t, err)
		require.InDelta(t, float64(read.Strength), out.Strength.Value, 1e-9)
		require.InDelta(t, 4/float64(out.Out), float64(out.Takes), 1e-6)
		r.Flow *= 2
		faster, err := Through(r)
		require.NoError(t, err)
		require.Less(t, faster.Strength.Value, out.Strength.Value)
		// Half the time leaves the square root of the gap.
		require.InDelta(t, (1 - out.Strength.Value/float64(full)), (1-faster.Strength.Value/float64(full))*(1-faster.Strength.Value/float64(full)), 1e-9)
		r.Flow = quantity.Flow(out.OnTarget.Value)
		target, err := Through(r)
		require.NoError(t, err)
		require.InDelta(t, float64(r.Band.Target), target.Strength.Value, 1e-9)
	})
}

// More batches narrow the range, and batches that differ widen it.
func TestThroughLearns(t *testing.T) {
	of := func(strengths ...quantity.Strength) float64 {
		r := ThroughRequest{Flow: 1e-3, Bed: 1, Temperature: quantity.Fahrenheit(50), Band: yard.DefaultBand()}
		for _, s := range strengths {
			r.Before = append(r.Before, Passage{Flow: 1e-3, Bed: 1, Strength: s})
		}
		out, err := Through(r)
		require.NoError(t, err)
		return out.Strength.High - out.Strength.Low
	}
	require.Less(t, of(0.22, 0.221, 0.219, 0.22), 0.6*of(0.22))
	require.Greater(t, of(0.24, 0.2, 0.25, 0.19), of(0.22))
}

func TestThroughRefuses(t *testing.T) {
	good := ThroughRequest{Flow: 1e-3, Bed: 1, Temperature: 283, Band: yard.DefaultBand(), Before: []Passage{{1e-3, 1, 0.2, 0}}}
	for name, spoil := range map[string]func(*ThroughRequest){
		"no flow":     func(r *ThroughRequest) { r.Flow = 0 },
		"no bed":      func(r *ThroughRequest) { r.Bed = 0 },
		"no readings": func(r *ThroughRequest) { r.Before = nil },
		"too hot":     func(r *ThroughRequest) { r.Temperature = 400 },
		"no band":     func(r *ThroughRequest) { r.Band.Target = 0.5 },
	} {
		r := good
		spoil(&r)
		_, err := Through(r)
		require.Error(t, err, name)
	}
}
