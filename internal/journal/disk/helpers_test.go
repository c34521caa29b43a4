package disk

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

func at(text string) time.Time {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		panic(err)
	}
	return t
}

func to[T any](x T) *T { return &x }

// batch is a row with something in most columns.
func batch() journal.Entry {
	return journal.Entry{
		Time: at("2026-01-15T06:40:00-05:00"), Kind: journal.Batch, Tank: "mixer",
		Volume: to(1095 * quantity.Gallon), NaCl: to(quantity.Strength(0.233)), Temp: to(quantity.Fahrenheit(41)),
		Scale: "hydrometer", Reading: to(23.3), Operator: "ines", Note: "first of the day, all well",
	}
}

func load() journal.Entry {
	return journal.Entry{
		Time: at("2026-01-15T07:10:00-05:00"), Kind: journal.Load, From: "north", Volume: to(400 * quantity.Gallon),
		Truck: "truck 2", Route: "ridge-road", Operator: "ines",
	}
}

// note is a short row.
func note(text string) journal.Entry {
	return journal.Entry{Time: at("2026-01-15T08:00:00-05:00"), Kind: journal.Note, Note: text}
}

// fresh is the path of a journal that is yet to be made.
func fresh(t testing.TB) string { return filepath.Join(t.TempDir(), "north.csv") }

// made is a journal with entries.
func made(t testing.TB, entries ...journal.Entry) string {
	t.Helper()
	path := fresh(t)
	mustAppend(t, path, entries...)
	return path
}

func mustAppend(t testing.TB, path string, entries ...journal.Entry) Added {
	t.Helper()
	a, err := Append(path, Options{}, entries)
	require.NoError(t, err)
	return a
}

func mustRead(t testing.TB, path string) *Journal {
	t.Helper()
	j, err := Read(path)
	require.NoError(t, err)
	return j
}

// mustVerify goes through a journal, and reads it too.
func mustVerify(t testing.TB, path string) *Journal {
	t.Helper()
	a, err := Verify(path)
	require.NoError(t, err)
	j := mustRead(t, path)
	require.Equal(t, *a, j.Audit)
	return j
}

// opened is a writer of the journal at path, as Append makes it.
func opened(t testing.TB, path string) *writer {
	t.Helper()
	f, real, made, err := openLocked(path, true, true, Options{})
	require.NoError(t, err)
	w := &writer{path: path, real: real, f: f, made: made}
	require.NoError(t, w.survey(quantity.US, false))
	return w
}

// requireSound checks that nothing is wrong with a journal of n entries.
func requireSound(t testing.TB, path string, n int) *Journal {
	t.Helper()
	a := mustVerify(t, path)
	require.True(t, a.Sound(), "faults %v, missing %v, torn %d", a.Faults, a.Missing, a.Torn)
	require.Len(t, a.Entries, n)
	for i, e := range a.Entries {
		require.Equal(t, i+1, e.Number)
	}
	return a
}

func content(t testing.TB, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

func write(t testing.TB, path, text string) string {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

// faultTexts lists faults as they are told.
func faultTexts(faults []journal.Fault) []string {
	var out []string
	for _, f := range faults {
		out = append(out, f.String())
	}
	return out
}
