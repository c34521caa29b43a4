package truck

import (
	"testing"

	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/wild"

	"github.com/stretchr/testify/require"
)

// Whatever a truck is to carry is answered, or refused as an InputError that names a field.
func TestTruckRefusalsAreOfTheInput(t *testing.T) {
	answered, refused := 0, 0
	for seed := range uint64(400) {
		w := wild.New(seed)
		_, err := Calculate(Request{Liquid: w.Liquid(), Temperature: w.Temperature(), Tank: quantity.Volume(w.Between(-0.1, 5))})
		if faulttest.RequireOfTheInput(t, err, "truck", seed) {
			refused++
		} else {
			answered++
		}
	}
	require.Positive(t, answered)
	require.Positive(t, refused)
}
