package storm

import (
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

func wildStorm(w wild.Wild, seed uint64) Request {
	r := drawStorm(seed)
	r.Low, r.Temperature, r.Plant.WaterTemp = quantity.Celsius(w.Between(-72, 5)), w.Temperature(), w.Temperature()
	r.Plant.RockSalt, r.Band = w.RockSalt(), yard.BandAround(w.Strength())
	for i := range r.Tanks {
		r.Tanks[i].Liquid = new(w.Liquid())
	}
	r.Others[0].Liquid = w.Liquid()
	return r
}

// Whatever storm is asked about is planned, or refused as an InputError that names a field.
func TestStormRefusalsAreOfTheInput(t *testing.T) {
	planned, refused := 0, 0
	for seed := range uint64(400) {
		_, err := Make(wildStorm(wild.New(seed), seed))
		if err == nil {
			planned++
			continue
		}
		refused++
		var input *fault.InputError
		require.ErrorAs(t, err, &input, "seed %d", seed)
		require.NotEmpty(t, input.Field)
		require.Contains(t, input.Reason, "allowed", "seed %d", seed)
	}
	require.Positive(t, planned)
	require.Positive(t, refused)
}
