package lineup

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Every link is drawn once at least: on a way to or from a pump, or beside them.
func TestDraw(t *testing.T) {
	twice(t, func(t *rapid.T) {
		p := drawPlumbing(t)
		pumps, besides := Draw(p)
		seen := map[string]bool{}
		for _, s := range pumps {
			for _, w := range append(s.Suction, s.Discharge...) {
				for _, h := range w.Path {
					seen[h.Link.Name] = true
				}
			}
		}
		for _, l := range besides {
			require.False(t, seen[l.Name])
			seen[l.Name] = true
		}
		for _, l := range p.Links {
			require.True(t, seen[l.Name], l.Name)
		}
	})
	pumps, besides := Draw(twoTanks)
	require.Len(t, pumps, 1)
	require.Equal(t, "mixer", pumps[0].Suction[0].From)
	require.Equal(t, "F1", besides[0].Name)
}
