package disk

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

func TestRead(t *testing.T) {
	path := made(t, batch(), load())
	j := mustRead(t, path)
	require.Equal(t, quantity.US, j.System)
	require.Empty(t, j.Faults)
	require.Zero(t, j.Torn)
	e := j.Entries[0]
	require.Equal(t, "2026-01-15T06:40:00-05:00", e.Time.Format(time.RFC3339))
	require.InEpsilon(t, float64(1095*quantity.Gallon), float64(*e.Volume), 1e-12)
	require.InDelta(t, float64(278.15), float64(*e.Temp), 1e-9)
	require.Equal(t, []any{1, journal.Batch, "mixer", "hydrometer", 23.3, "ines", "first of the day, all well"},
		[]any{e.Number, e.Kind, e.Tank, e.Scale, *e.Reading, e.Operator, e.Note})
	require.Nil(t, e.KCl)
	require.Nil(t, e.Cost)
	require.Equal(t, "ridge-road", j.Entries[1].Route)
}

// faulty is a journal that somebody changed: which entries it still has, and its faults.
type faulty struct {
	text    string
	entries []int
	faults  []string
}

func requireFaults(t *testing.T, journals map[string]faulty) {
	t.Helper()
	for name, c := range journals {
		j := mustRead(t, write(t, fresh(t), c.text))
		require.Equal(t, c.faults, faultTexts(j.Faults), name)
		require.Equal(t, c.entries, numbersOf(j.Entries), name)
	}
}

// goodJournal has three rows.
func goodJournal(t *testing.T) string {
	return content(t, made(t, batch(), note("second"), note("third")))
}

// Faults are told with their lines, and the rest is read.
func TestFaults(t *testing.T) {
	good := goodJournal(t)
	lines := strings.SplitAfter(good, "\n")
	changed := "the check does not fit the row: it was changed outside this program"
	requireFaults(t, map[string]faulty{
		"good":            {good, []int{1, 2, 3}, nil},
		"CRLF":            {strings.ReplaceAll(good, "\n", "\r\n"), []int{1, 2, 3}, nil},
		"byte order mark": {journal.ByteOrderMark + good, []int{1, 2, 3}, nil},
		"quotes":          {strings.Replace(good, ",mixer,", `,"mixer",`, 1), []int{1, 2, 3}, nil},
		"edited":          {strings.Replace(good, "second", "2nd", 1), []int{1, 2, 3}, []string{"line 3, entry 2: " + changed}},
		"no check":        {lines[0] + lines[1][:len(lines[1])-9] + "\n", []int{1}, []string{"line 2, entry 1: " + changed}},
		"row gone":        {lines[0] + lines[1] + lines[3], []int{1, 3}, []string{"line 3, entry 3: its number does not follow; expected 2"}},
		"row twice":       {lines[0] + lines[1] + lines[1] + lines[2], []int{1, 2}, []string{"line 3, entry 1: its number was there before, so it does not count"}},
		"order": {lines[0] + lines[1] + lines[3] + lines[2], []int{1, 3, 2}, []string{
			"line 3, entry 3: its number does not follow; expected 2", "line 4, entry 2: its number does not follow; expected 4"}},
		"blank lines": {lines[0] + "\r\n" + lines[1] + ",,,\n" + lines[2] + lines[3] + "\n\r\n", []int{1, 2, 3}, nil},
		"semicolons": {lines[0] + lines[1] + strings.ReplaceAll(lines[2], ",", ";") + lines[3], []int{1, 3}, []string{
			"line 3, entry 2: saved by a spreadsheet: semicolons stand between the cells; put back a copy of the file as it was, and save spreadsheets under another name"}},
		"zeros": {lines[0] + lines[1] + strings.Repeat("\x00", 300) + "\n" + lines[2], []int{1, 2}, []string{
			`line 3: 1 cells; expected 30`}},
		"long line": {lines[0] + lines[1] + strings.Repeat("x", mostLine) + "\n" + lines[2], []int{1, 2}, []string{"line 3: longer than 65536 bytes"}},
	})
}

// A cell that cannot be read costs its row.
func TestFaultyCells(t *testing.T) {
	good := goodJournal(t)
	edit := func(from, to string) string { return strings.Replace(good, from, to, 1) }
	requireFaults(t, map[string]faulty{
		"cells":           {edit(",second", ",second,"), []int{1, 3}, []string{"line 3, entry 2: 31 cells; expected 30"}},
		"number of cells": {good[:strings.IndexByte(good, '\n')] + "\n1\n", nil, []string{"line 2, entry 1: 1 cells; expected 30"}},
		"kind":            {edit(",batch,", ",boil,"), []int{2, 3}, []string{`line 2, entry 1: kind: "boil" is no kind of event; allowed: batch, reading, correction, transfer, load, unload, delivery, order, spill, sale, loan, gift, clean, rinse, count, work, note, undo, accept`}},
		"volume":          {edit(",1095,", ",lots,"), []int{2, 3}, []string{`line 2, entry 1: volume [gal]: "lots" is no number; allowed: one like 1095 or -6.1`}},
		"time":            {edit("2026-01-15T06:40:00-05:00", "1/15/2026 6:40"), []int{2, 3}, []string{`line 2, entry 1: time: saved by a spreadsheet: times are written 1/15/2026 6:40; put back a copy of the file as it was, and save spreadsheets under another name`}},
		"no kind":         {edit(",batch,", ",,"), []int{2, 3}, []string{`line 2, entry 1: kind: "" is no kind of event; allowed: batch, reading, correction, transfer, load, unload, delivery, order, spill, sale, loan, gift, clean, rinse, count, work, note, undo, accept`}},
		"number":          {edit("\n2,", "\nx,"), []int{1, 3}, []string{`line 3, entry 2: brineyard journal 2: "x" is no entry number; allowed: 1 to 2147483647`}},
		"cancels":         {edit("\n2,2026-01-15T08:00:00-05:00,note", "\n2,2026-01-15T08:00:00-05:00,undo"), []int{1, 3}, []string{"line 3, entry 2: cancels: 0 in an entry of kind undo; allowed: the number of an entry with undo and accept, none with other kinds"}},
		"escape":          {edit("second", `C:\salt`), []int{1, 3}, []string{`line 3, entry 2: note: "\\salt" has a backslash that is no escape; allowed: \\ for one backslash`}},
		"open quote":      {edit("second", `"second`), []int{1, 3}, []string{"line 3, entry 2: not a row of comma-separated cells: a quote is out of place"}},
	})
}

// A torn last line is told; one that lacks its line end alone is a row.
func TestReadTorn(t *testing.T) {
	path := made(t, batch(), load())
	text := content(t, path)
	last := strings.LastIndexByte(text[:len(text)-1], '\n') + 1
	for size := last; size < len(text); size++ {
		j := mustRead(t, write(t, path, text[:size]))
		require.Empty(t, j.Faults)
		if size == len(text)-1 {
			require.Zero(t, j.Torn)
			require.Len(t, j.Entries, 2)
			continue
		}
		require.EqualValues(t, size-last, j.Torn)
		require.Len(t, j.Entries, 1)
	}
	j := mustRead(t, write(t, path, text+strings.Repeat("\x00", 100_000)))
	require.EqualValues(t, 100_000, j.Torn)
	for size := range len(journal.HeaderLine(journal.NewestForm(quantity.US))) {
		j := mustRead(t, write(t, path, text[:size]))
		require.Empty(t, j.Entries)
		if size < len(journal.HeaderLine(journal.NewestForm(quantity.US)))-1 {
			require.EqualValues(t, size, j.Torn)
		}
	}
}

// requireRefused checks that nothing takes a file for a journal, or changes it.
func requireRefused(t *testing.T, path, want string) {
	t.Helper()
	_, err := Read(path)
	require.EqualError(t, err, path+": "+want)
	_, err = Verify(path)
	require.EqualError(t, err, path+": "+want)
	_, err = Reverse(path, Options{}, 1, note("no"))
	require.EqualError(t, err, path+": "+want)
	if want == os.ErrNotExist.Error() {
		require.NoFileExists(t, path+endSuffix)
		return
	}
	_, err = Append(path, Options{}, []journal.Entry{batch()})
	require.EqualError(t, err, path+": "+want)
}

func TestNoJournal(t *testing.T) {
	dir := t.TempDir()
	other := `not a journal: its first heading is not "brineyard journal 2"`
	for name, text := range map[string]string{
		"log.csv": "date,tank\n1/15/2026,mixer\n", "zeros": strings.Repeat("\x00", 5000), "zeros.csv": strings.Repeat("\x00", 100) + "\n",
		"one": "x", "line": "\n", "utf16": "\xff\xfeb\x00r\x00\n\x00", "picture": "\x89PNG\r\n\x1a\n",
	} {
		path := write(t, filepath.Join(dir, name), text)
		requireRefused(t, path, other)
		require.Equal(t, text, content(t, path))
	}
	requireRefused(t, write(t, filepath.Join(dir, "later.csv"), "brineyard journal 3,time\n"), `journal of version "3"; allowed: versions 1 to 2`)
	requireRefused(t, dir, "a folder; expected a file")
	requireRefused(t, filepath.Join(dir, "none.csv"), os.ErrNotExist.Error())
	_, err := Read(filepath.Join(dir, "none.csv"))
	require.ErrorIs(t, err, os.ErrNotExist)
	_, err = Append(filepath.Join(dir, "none", "north.csv"), Options{}, []journal.Entry{batch()})
	require.ErrorContains(t, err, ": its folder: ")
	require.ErrorIs(t, err, os.ErrNotExist)
}

func TestLinks(t *testing.T) {
	dir := t.TempDir()
	loop, dangling := filepath.Join(dir, "loop.csv"), filepath.Join(dir, "dangling.csv")
	if err := os.Symlink(loop, loop); err != nil {
		t.Skip(err)
	}
	require.NoError(t, os.Symlink(filepath.Join(dir, "gone.csv"), dangling))
	_, err := Read(loop)
	require.ErrorContains(t, err, loop+": ")
	require.ErrorContains(t, err, "too many links")
	_, err = Append(loop, Options{}, []journal.Entry{batch()})
	require.ErrorContains(t, err, "too many links")
	requireRefused(t, dangling, "a link to a file that is not there")
}

// A gigabyte of one line is refused in little memory; the file takes no room on the
// disk.
func TestHugeLines(t *testing.T) {
	for head, want := range map[string]string{
		"": "line 1 does not end within 16 MiB: not a journal",
		journal.HeaderLine(journal.NewestForm(quantity.US)): "line 2 does not end within 16 MiB: not a journal",
	} {
		path := write(t, fresh(t), head)
		require.NoError(t, os.Truncate(path, 1<<30))
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Read(path)
		require.EqualError(t, err, path+": "+want)
		_, err = Append(path, Options{}, []journal.Entry{batch()})
		require.ErrorContains(t, err, "not a journal")
		runtime.ReadMemStats(&after)
		require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(40<<20))
		info, err := os.Stat(path)
		require.NoError(t, err)
		require.EqualValues(t, 1<<30, info.Size())
	}
}
