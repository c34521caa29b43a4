package lineup

import (
	"slices"
	"testing"

	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What can be pumped by the second flow model, of all settings of the valves and all pumps, is planned; and nothing else is.
func TestPlanFindsWhatTheModelAllows(t *testing.T) {
	allowed, refused := 0, 0
	twice(t, func(t *rapid.T) {
		p := drawPlumbing(t)
		free := slices.DeleteFunc(p.Valves(), func(name string) bool {
			return slices.ContainsFunc(p.Turns(), func(turn yard.Turn) bool { return slices.Contains(turn.Ways, name) })
		})
		if len(free) > 6 || len(p.Turns()) > 3 {
			return
		}
		can := map[[2]string]bool{}
		for _, pump := range p.AllPumps() {
			m := model{Plumbing: withIdle(p, pump), pump: pump}
			for _, open := range settings(p.Turns(), free) {
				m.open = open
				// A way that leads through a pump that stands still is not planned.
				direct := model{Plumbing: p, pump: pump, open: open}.flows(false)
				if from, to, good := m.moves(); good && direct(from, pump.In()) && direct(pump.Out(), to) {
					can[[2]string{from, to}] = true
				}
			}
		}
		n := network{Plumbing: p, pump: p.AllPumps()[0]}
		for _, from := range n.sources() {
			for _, to := range n.ends() {
				m, err := Plan(p, "", from, to)
				switch {
				case can[[2]string{from, to}]:
					allowed++
					require.NoError(t, err, "%s to %s", from, to)
				case err == nil:
					require.False(t, m.Pumped, "%s to %s by %v", from, to, m.Setting.Open)
				default:
					refused++
				}
			}
		}
	})
	require.Positive(t, allowed)
	require.Positive(t, refused)
}

// settings are all choices of open valves, with every three-way valve one way.
func settings(turns []yard.Turn, free []string) []map[string]bool {
	all := []map[string]bool{{}}
	grow := func(choices ...string) {
		var more []map[string]bool
		for _, open := range all {
			for _, choice := range choices {
				next := map[string]bool{}
				for name := range open {
					next[name] = true
				}
				if choice != "" {
					next[choice] = true
				}
				more = append(more, next)
			}
		}
		all = more
	}
	for _, turn := range turns {
		grow(turn.Ways...)
	}
	for _, name := range free {
		grow("", name)
	}
	return all
}
