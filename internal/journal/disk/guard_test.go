package disk

import (
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sevenRows is a journal with several rows that were added at once.
func sevenRows(t *testing.T) string {
	path := made(t, batch(), load(), note("third"))
	mustAppend(t, path, batch(), load())
	mustAppend(t, path, note("sixth"))
	mustAppend(t, path, note("seventh"))
	return path
}

// Whatever single byte goes wrong, the file is no journal any more, or the audit names it; and no
// row is used as if nothing were wrong with it.
func TestSingleBytes(t *testing.T) {
	path := sevenRows(t)
	good := content(t, path)
	before := mustRead(t, path).Entries
	r := rand.New(rand.NewPCG(7, 7))
	for range 1000 {
		at, bit := r.IntN(len(good)), byte(1)<<r.IntN(8)
		text := []byte(good)
		text[at] ^= bit
		write(t, path, string(text))
		j, err := Read(path)
		if err != nil {
			continue
		}
		require.False(t, j.Sound(), "bit %d of byte %d", bit, at)
		troubled := map[int]bool{}
		for _, f := range j.Faults {
			troubled[f.Number] = true
		}
		for _, e := range j.Entries {
			if !troubled[e.Number] && !slices.ContainsFunc(before, func(was journal.Entry) bool { return was.Number == e.Number && equalRows(was, e) }) {
				require.Fail(t, "used in silence", "bit %d of byte %d: %+v", bit, at, e)
			}
		}
	}
}

func equalRows(a, b journal.Entry) bool {
	f := journal.NewestForm(quantity.US)
	return string(journal.NewEncoder().Row(&a, f)) == string(journal.NewEncoder().Row(&b, f))
}

// Rows that are cut off the end, by anyone at any byte, are noticed, and their numbers are not given
// out again.
func TestCutAtTheEnd(t *testing.T) {
	path := sevenRows(t)
	good, side := content(t, path), content(t, path+endSuffix)
	header := strings.IndexByte(good, '\n') + 1
	r := rand.New(rand.NewPCG(3, 8))
	for i := range 200 {
		size := r.IntN(len(good))
		if i%4 == 0 { // at a line's end, where nothing is torn
			size = strings.LastIndexByte(good[:size+1], '\n') + 1
		}
		write(t, path, good[:size])
		write(t, path+endSuffix, side)
		j, err := Read(path)
		require.NoError(t, err)
		left := j.Highest // a row that lacks its line end alone counts
		require.InDelta(t, strings.Count(good[header:max(header, size)], "\n"), left, 1)
		if left < 7 {
			require.False(t, j.Sound(), "cut at %d", size)
			require.Equal(t, 7, j.Lost.To, "cut at %d", size)
		}
		a, err := Append(path, Options{}, []journal.Entry{note("after")})
		require.NoError(t, err)
		require.Equal(t, []int{8}, a.Numbers, "cut at %d, which leaves %d", size, left)
		if left < 7 {
			require.Equal(t, journal.Span{From: left + 1, To: 7}, a.Lost)
			require.False(t, mustVerify(t, path).Sound(), "the gap stays")
		}
		_ = os.Remove(path + tornSuffix)
	}
	write(t, path, good[:header])
	require.NoError(t, os.Remove(path+endSuffix))
	j := mustVerify(t, path)
	require.True(t, j.Sound())
	require.Equal(t, EndUnknown, j.End, "without the side file nobody knows")
}

// An addition of several rows that was cut short anywhere counts as none, with the side file or
// without it, and the next one sets it aside.
func TestPartsDoNotCount(t *testing.T) {
	path := made(t, batch(), load())
	before, side := content(t, path), content(t, path+endSuffix)
	mustAppend(t, path, batch(), load(), note("fifth"))
	whole := content(t, path)
	hollowed := whole[:len(before)] + strings.Repeat("\x00", hollow) + whole[len(before)+hollow:]
	for size := len(before) + 1; size <= len(whole); size += 7 {
		for _, known := range []bool{true, false} {
			path := write(t, fresh(t), hollowed[:size])
			if known {
				write(t, path+endSuffix, side)
			}
			j := mustVerify(t, path)
			require.False(t, j.Sound())
			require.EqualValues(t, size-len(before), j.Torn, "%v", known)
			require.Len(t, j.Entries, 2)
			require.Equal(t, []int{3}, mustAppend(t, path, note("after")).Numbers)
			require.Equal(t, hollowed[len(before):size]+"\n", content(t, path+tornSuffix))
			requireSound(t, path, 3)
		}
	}
}

// A journal that was renamed or replaced while an addition waited is not the one that was meant; the
// next command works on what stands there then.
func TestRenamedMeanwhile(t *testing.T) {
	path := made(t, batch())
	w := opened(t, path)
	require.NoError(t, os.Rename(path, path+".old"))
	_, err := w.add([]journal.Entry{load()})
	w.close()
	require.ErrorContains(t, err, "renamed or replaced")
	require.ErrorContains(t, err, "nothing is acknowledged")
	require.Len(t, mustRead(t, path+".old").Entries, 1, "what was written there is taken back")

	other := made(t, load(), load(), load())
	require.NoError(t, os.Rename(other, path))
	require.Equal(t, EndForeign, mustVerify(t, path).End)
	a, err := Append(path, Options{}, []journal.Entry{note("fourth")})
	require.NoError(t, err)
	require.Equal(t, EndForeign, a.End)
	require.Equal(t, []int{4}, a.Numbers)
}

// Two names of one file have one lock, and no row is lost between them; what the other name added
// is noticed.
func TestHardLinks(t *testing.T) {
	path := made(t, batch())
	other := filepath.Join(filepath.Dir(path), "other.csv")
	if err := os.Link(path, other); err != nil {
		t.Skip(err)
	}
	require.Equal(t, []int{2}, mustAppend(t, other, load()).Numbers)
	require.Equal(t, EndBehind, requireSound(t, path, 2).End)
	require.Equal(t, []int{3}, mustAppend(t, path, load()).Numbers)
	require.Equal(t, []int{4}, mustAppend(t, other, load()).Numbers)
	requireSound(t, path, 4)
	require.NoError(t, os.Remove(path+endSuffix))
	require.Equal(t, []int{5}, mustAppend(t, path, load()).Numbers)
}

// What is wrong with a row can be accepted, once it was looked at; a further change is noticed again.
func TestAcknowledge(t *testing.T) {
	path := sevenRows(t)
	write(t, path, strings.Replace(content(t, path), "third", "3rd", 1))
	require.False(t, mustVerify(t, path).Sound())
	_, err := Acknowledge(path, Options{}, 2, note(""))
	require.EqualError(t, err, path+": nothing is wrong with entry 2 that was not accepted; allowed: 3")
	a, err := Acknowledge(path, Options{}, 3, note("my own slip"))
	require.NoError(t, err)
	require.Equal(t, []int{8}, a.Numbers)
	j := requireSound(t, path, 8)
	require.Len(t, j.Accepted.Faults, 1)
	require.Contains(t, j.Entries[7].Note, "; my own slip")
	_, err = Acknowledge(path, Options{}, 3, note(""))
	require.EqualError(t, err, path+": nothing is wrong with entry 3, nor with any other whose number is known")
	write(t, path, strings.Replace(content(t, path), "3rd", "III", 1))
	require.False(t, mustVerify(t, path).Sound())

	// Rows that are lost at the end are a gap behind the next one, which can be accepted.
	path = sevenRows(t)
	lines := strings.SplitAfter(content(t, path), "\n")
	write(t, path, strings.Join(lines[:6], ""))
	require.Equal(t, []int{8}, mustAppend(t, path, note("after")).Numbers)
	require.Equal(t, []journal.Span{{From: 6, To: 7}}, mustVerify(t, path).Missing)
	_, err = Acknowledge(path, Options{}, 8, note("wiped by hand"))
	require.NoError(t, err)
	j = mustVerify(t, path)
	require.True(t, j.Sound())
	require.Equal(t, []journal.Span{{From: 6, To: 7}}, j.Accepted.Missing)
	// Taken back, it accepts nothing.
	_, err = Reverse(path, Options{}, 9, note(""))
	require.NoError(t, err)
	require.False(t, mustVerify(t, path).Sound())
}

// The same rows again are recognised, whatever their zone and their place.
func TestRepeats(t *testing.T) {
	path := sevenRows(t)
	elsewhere := batch()
	elsewhere.Time = elsewhere.Time.UTC()
	other := batch()
	other.Tank = "tote"
	l, err := Open(path)
	require.NoError(t, err)
	defer l.Close()
	got, err := Repeats(l, []journal.Entry{other, note("seventh"), elsewhere, note("eighth")})
	require.NoError(t, err)
	require.Equal(t, map[int]int{1: 7, 2: 4}, got)
}

// A check is asked under the lock, and its refusal leaves everything as it was.
func TestCheck(t *testing.T) {
	path := fresh(t)
	asked := 0
	check := func(l *Log) error {
		asked++
		if l == nil {
			return nil
		}
		for e := range l.Effective() {
			if e.Kind == journal.Load {
				return os.ErrInvalid
			}
		}
		return l.Err()
	}
	_, err := Append(path, Options{Check: check}, []journal.Entry{batch(), load()})
	require.NoError(t, err)
	before, side := content(t, path), content(t, path+endSuffix)
	_, err = Append(path, Options{Check: check}, []journal.Entry{load()})
	require.ErrorIs(t, err, os.ErrInvalid)
	require.Equal(t, 2, asked)
	require.Equal(t, before, content(t, path))
	require.Equal(t, side, content(t, path+endSuffix))
}
