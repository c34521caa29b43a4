package bind

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzArguments puts any text through the parsers of words without a flag: a part of a
// blend, a lot for a tank, a time. Each answers with a value that makes sense or with an
// error of one line.
func FuzzArguments(f *testing.F) {
	for _, text := range []string{
		"80:brine@23.3%", "20:cacl2@32%", "10:water", "1e3:KCL@5", ":", "@", "=", "6000gal@23.1%", "500gal:cacl2@32%",
		"north", "10:05", "20", "0x1p4", "24:00", "NaN:brine@3", "0x1p4:brine@3", "5\x00gal@3%", "\u202e:\xff@",
	} {
		f.Add(text)
	}
	s := &Scope{}
	f.Fuzz(func(t *testing.T, text string) {
		if p, err := s.Part(text); err == nil {
			require.True(t, p.Amount >= 0 && !math.IsInf(p.Amount, 0))
		} else {
			requireOneLine(t, err)
		}
		if lot, err := s.Lot(text); err == nil {
			require.GreaterOrEqual(t, float64(lot.Volume), 0.0)
		} else {
			requireOneLine(t, err)
		}
		if at, _, err := Moment(text); err == nil {
			require.GreaterOrEqual(t, float64(at), 0.0)
		} else {
			requireOneLine(t, err)
		}
	})
}

func requireOneLine(t *testing.T, err error) {
	t.Helper()
	for _, r := range err.Error() {
		require.True(t, r >= ' ', "%q", err)
	}
}
