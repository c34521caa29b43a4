package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var tables = filepath.Join("..", "..", "testdata", "published")

// No deviation is beyond its bound, and no bound is so wide that it would hide half as much
// again. docs/method.md shows what make accuracy prints. UPDATE_DOCS=1 writes it anew.
func TestAccuracy(t *testing.T) {
	lines, err := compareAll(tables)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, show(&out, lines))
	for _, l := range lines {
		require.LessOrEqual(t, l.bound, 1.5*l.worst+0.05, "%s %s", l.table, l.property)
	}
	page := filepath.Join("..", "..", "docs", "method.md")
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	const fence = "```accuracy\n"
	before, rest, ok := strings.Cut(string(text), fence)
	require.True(t, ok, "docs/method.md has no place for the accuracy report")
	shown, after, ok := strings.Cut(rest, "```")
	require.True(t, ok)
	if os.Getenv("UPDATE_DOCS") != "" {
		require.NoError(t, os.WriteFile(page, []byte(before+fence+out.String()+"```"+after), 0o644))
		require.NoError(t, plot(tables, filepath.Join("..", "..", "docs", "accuracy.svg")))
		return
	}
	require.Equal(t, out.String(), shown, "UPDATE_DOCS=1 go test ./internal/accuracy writes it anew")
}

// A broken bound fails, after everything has been printed.
func TestBrokenBound(t *testing.T) {
	var out bytes.Buffer
	err := show(&out, []line{{table: "a.csv", property: "x", values: 1, worst: 2, bound: 1}, {table: "b.csv", property: "y", values: 1, worst: 1, bound: 2}})
	require.EqualError(t, err, "out of bounds: a.csv x")
	require.Contains(t, out.String(), "b ")
	require.Error(t, show(&out, []line{{table: "empty.csv"}}))
}

// A table that nothing is compared with is told of.
func TestForgottenTable(t *testing.T) {
	dir := t.TempDir()
	all, err := filepath.Glob(filepath.Join(tables, "*.csv"))
	require.NoError(t, err)
	for _, path := range all {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.Base(path)), text, 0o644))
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "new.csv"), []byte("a\n1\n"), 0o644))
	_, err = compareAll(dir)
	require.EqualError(t, err, "new.csv: nothing is compared with it")
}

// The plot holds what the tables hold.
func TestPlot(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plot.svg")
	require.NoError(t, plot(tables, path))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	for _, word := range []string{"program less table", "CRC", "Lange", "Melinder", "kg/m3"} {
		require.True(t, bytes.Contains(text, []byte(word)), word)
	}
}
