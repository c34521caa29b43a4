package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sample has one of everything that a document can hold.
func sample() *Document {
	return &Document{
		Command: "check",
		Title:   "Tank check",
		Verdict: "Do not pump: the hydrometer's 23.3% looks right, but at 40 F it is 22.65% true, too weak (below 23%).",
		Figures: []Figure{
			{Key: "true_strength", Label: "True strength", Value: Number(22.649073, "%", "22.65%")},
			{Key: "decision", Label: "Decision", Value: Word("too weak"), Quiet: true},
			{Key: "salt", Label: "Salt to add", Value: Number(41.72, "lb", "40 lb")},
			{Key: "salt_out_temp", Label: "Salt falls out below", Value: Nothing("F", "none down to -94 F")},
		},
		Tables: []Table{{
			Key:   "charge",
			Title: "Charge",
			Columns: []Column{
				{Key: "step", Label: "Step"}, {Key: "volume", Label: "Volume"}, {Key: "what", Label: "What"},
			},
			Rows: [][]Value{
				{Number(1, "", "1"), Number(1012.5, "gal", "1,012 gal"), Word("water")},
				{Number(12, "", "12"), Nothing("gal", "-"), Word("rock salt")},
			},
		}},
		Working: []Step{
			{What: "Mass of brine", Formula: "volume x density", Numbers: "500 gal x 9.82 lb/gal", Result: "4,910 lb"},
			{What: "Density", Formula: "brine of 22.65% at 40 F", Result: "9.82 lb/gal"},
			{What: "Then mix", Formula: "an hour does it"},
		},
		Notes:    []string{"Yard file yard.toml, found in this folder."},
		Cautions: []string{"Salt falls out of brine above 24% before standard brine freezes, so do not go beyond the target.", "Mix well."},
	}
}

// draw renders a document and fails on an error.
func draw(t require.TestingT, render Renderer, d *Document) string {
	var out strings.Builder
	require.NoError(t, render(&out, d))
	return out.String()
}

// requireText compares a rendering with what stands between the first and the
// last line of a literal.
func requireText(t *testing.T, want, got string) {
	t.Helper()
	require.Equal(t, strings.TrimPrefix(want, "\n"), got)
}
