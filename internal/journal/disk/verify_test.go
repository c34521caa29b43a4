package disk

import (
	"brineyard/internal/journal"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestVerify(t *testing.T) {
	late := note("late")
	late.Time = at("2026-02-20T10:00:00-05:00")
	path := made(t, batch(), load(), late, batch(), note("five"), note("six"), note("seven"))
	a := requireSound(t, path, 7)
	require.Equal(t, map[journal.Kind]int{journal.Batch: 2, journal.Load: 1, journal.Note: 4}, a.Kinds)
	require.True(t, a.First.Equal(batch().Time))
	require.True(t, a.Last.Equal(late.Time))
	require.Equal(t, []string{"line 5, entry 4: its time 2026-01-15T06:40:00-05:00 is more than a day before that of the row before, 2026-02-20T10:00:00-05:00"}, faultTexts(a.Backwards))

	lines := strings.SplitAfter(content(t, path), "\n")
	// 5 and 6 are gone, 2 is there three times, and 3 is not a row any more.
	write(t, path, lines[0]+lines[1]+lines[2]+lines[2]+lines[2]+strings.Replace(lines[3], ",note,", ",?,", 1)+lines[4]+lines[7]+"8,torn")
	a = mustVerify(t, path)
	require.False(t, a.Sound())
	require.Equal(t, []int{2}, a.Repeated)
	require.Equal(t, []journal.Span{{From: 5, To: 6}}, a.Missing)
	require.EqualValues(t, 6, a.Torn)
	require.Equal(t, []int{1, 2, 4, 7}, numbersOf(a.Entries))
	require.Len(t, a.Faults, 4)
}

func TestVerifyReversalsOfNothing(t *testing.T) {
	undo := func(number int) journal.Entry {
		e := note("")
		e.Kind, e.Cancels = journal.Undo, number
		return e
	}
	a := mustVerify(t, made(t, batch(), undo(1), undo(3), undo(9)))
	require.Equal(t, []string{
		"line 4, entry 3: takes back entry 3, which is not there before it",
		"line 5, entry 4: takes back entry 9, which is not there before it",
	}, faultTexts(a.Dangling))
	require.False(t, a.Sound())
	require.Empty(t, held(a.Entries))
}
