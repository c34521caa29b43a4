package trial

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Failure returns the first failure, whether or not the check goes on after it, and
// passes on a panic of the check itself.
func TestFailure(t *testing.T) {
	require.NoError(t, Failure(t, func(t testing.TB) { t.Logf("near") }))
	require.EqualError(t, Failure(t, func(t testing.TB) { t.Errorf("off by %d", 1); t.Errorf("and more") }), "off by 1")
	require.ErrorContains(t, Failure(t, func(t testing.TB) { require.Equal(t, 1, 2) }), "Not equal")
	require.PanicsWithValue(t, "broken", func() { _ = Failure(t, func(testing.TB) { panic("broken") }) })
}
