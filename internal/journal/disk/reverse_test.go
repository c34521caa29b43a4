package disk

import (
	"brineyard/internal/journal"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func numbersOf(entries []journal.Entry) []int {
	var out []int
	for _, e := range entries {
		out = append(out, e.Number)
	}
	return out
}

func TestReverse(t *testing.T) {
	path := made(t, batch(), load())
	back := func(number int) error {
		_, err := Reverse(path, Options{}, number, note("slip of the pen"))
		return err
	}
	holds := func() []int { return numbersOf(held(mustRead(t, path).Entries)) }
	require.NoError(t, back(1)) // entry 3
	require.Equal(t, []int{2}, holds())
	require.EqualError(t, back(1), path+": entry 1 is taken back already, by entry 3")
	require.NoError(t, back(3)) // entry 4 reinstates
	require.Equal(t, []int{1, 2}, holds())
	require.EqualError(t, back(3), path+": entry 3 is taken back already, by entry 4")
	require.NoError(t, back(4)) // entry 5
	require.Equal(t, []int{2}, holds())
	require.EqualError(t, back(1), path+": entry 1 is taken back already, by entry 3")
	for _, number := range []int{-1, 0, 6, 99} {
		require.ErrorContains(t, back(number), "allowed: ", number)
	}
	require.EqualError(t, back(6), path+": there is no entry 6; allowed: one that the journal has, the last is 5")
	e := requireSound(t, path, 5).Entries[2]
	require.Equal(t, []any{journal.Undo, 1, "slip of the pen"}, []any{e.Kind, e.Cancels, e.Note})
	empty := write(t, fresh(t), "")
	_, err := Reverse(empty, Options{}, 1, note(""))
	require.EqualError(t, err, empty+": there is no entry 1; the journal has none")
	require.Empty(t, content(t, empty))
}

// What holds, told from its meaning: what no reversal that holds takes back.
func TestEffectiveAgreesWithReplay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 12).Draw(t, "n")
		var entries []journal.Entry
		cancelledBy := map[int][]int{} // reinstated, an entry may be taken back again
		var holds func(number int) bool
		holds = func(number int) bool { return !slices.ContainsFunc(cancelledBy[number], holds) }
		for i := 1; i <= n; i++ {
			e := journal.Entry{Number: i, Kind: journal.Note}
			if i > 1 && rapid.Bool().Draw(t, "undo") {
				target := rapid.IntRange(1, i-1).Draw(t, "target")
				if holds(target) {
					e.Kind, e.Cancels = journal.Undo, target
					cancelledBy[target] = append(cancelledBy[target], i)
				}
			}
			entries = append(entries, e)
		}
		var want []int
		for _, e := range entries {
			if e.Kind != journal.Undo && holds(e.Number) {
				want = append(want, e.Number)
			}
		}
		require.Equal(t, want, numbersOf(held(entries)))
		perm := rapid.Permutation(entries).Draw(t, "order") // a sheet may be sorted
		require.ElementsMatch(t, want, numbersOf(held(perm)))
	})
}

// held lists the entries that hold.
func held(entries []journal.Entry) []journal.Entry {
	var out []journal.Entry
	for e := range journal.Effective(entries) {
		out = append(out, *e)
	}
	return out
}
