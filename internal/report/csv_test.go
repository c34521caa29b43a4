package report

import (
	"encoding/csv"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// records reads all blocks; their rows differ in length.
func records(t require.TestingT, text string) [][]string {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	require.NoError(t, err)
	return rows
}

// The first block: figures with unit, quiet ones too, then the rest by kind.
func TestCSVFigures(t *testing.T) {
	d := sample()
	d.Tables, d.Working = nil, d.Working[:1]
	require.Equal(t, [][]string{
		{"figure", "value", "unit"},
		{"verdict", d.Verdict, ""},
		{"true_strength", "22.649073", "%"},
		{"decision", "too weak", ""},
		{"salt", "41.72", "lb"},
		{"salt_out_temp", "", "F"},
		{"working", "Mass of brine: volume x density: 500 gal x 9.82 lb/gal = 4,910 lb", ""},
		{"note", d.Notes[0], ""},
		{"caution", d.Cautions[0], ""},
		{"caution", d.Cautions[1], ""},
	}, records(t, draw(t, CSV, d)))
}

// A block for each table behind an empty line, a unit column behind each column
// that has units in any row.
func TestCSVTables(t *testing.T) {
	d := &Document{Verdict: "V.", Tables: sample().Tables}
	d.Tables = append(d.Tables, Table{Key: "empty", Columns: []Column{{Key: "a"}, {Key: "b"}}})
	requireText(t, `
figure,value,unit
verdict,V.,

table,step,volume,volume_unit,what
charge,1,1012.5,gal,water
charge,12,,gal,rock salt

table,a,b
`, draw(t, CSV, d))
	rows := [][]Value{{Nothing("", "-")}, {Number(2, "L", "2.0 L")}, {Word("full")}}
	d.Tables = []Table{{Key: "late", Columns: []Column{{Key: "v"}}, Rows: rows}}
	require.Equal(t, [][]string{
		{"table", "v", "v_unit"}, {"late", "", ""}, {"late", "2", "L"}, {"late", "full", ""},
	}, records(t, draw(t, CSV, d))[2:])
}

// Words with commas, quotes and ends of lines come back as they were.
func TestCSVQuoting(t *testing.T) {
	for _, text := range []string{"a,b", `say "brine"`, "two\nlines", " spaced ", "", ";", "水"} {
		d := &Document{Verdict: text, Notes: []string{text}, Figures: []Figure{{Key: "x", Value: Word(text)}}}
		require.Equal(t, [][]string{
			{"figure", "value", "unit"}, {"verdict", text, ""}, {"x", text, ""}, {"note", text, ""},
		}, records(t, draw(t, CSV, d)), "%q", text)
	}
}

// Every number comes back to the bit, from figures and from tables.
func TestCSVFullPrecision(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Filter(func(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }).Draw(t, "x")
		value := Number(x, "gal", "about")
		rows := records(t, draw(t, CSV, &Document{
			Figures: []Figure{{Key: "x", Value: value}},
			Tables:  []Table{{Key: "t", Columns: []Column{{Key: "x"}}, Rows: [][]Value{{value}}}},
		}))
		for _, text := range []string{rows[2][1], rows[4][1]} {
			got, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			require.Equal(t, x, got)
		}
	})
}

// A word that a spreadsheet would run is text to it; a number stays a number.
func TestCSVRunsNothing(t *testing.T) {
	d := &Document{Verdict: "=2+2", Notes: []string{"+1", "-cmd", "@sum", "plain"}, Figures: []Figure{{Key: "low", Value: Number(-6.1, "F", "-6.1 F")}}}
	var out strings.Builder
	require.NoError(t, CSV(&out, d))
	require.Equal(t, "figure,value,unit\nverdict,'=2+2,\nlow,-6.1,F\nnote,+1,\nnote,'-cmd,\nnote,'@sum,\nnote,plain,\n", out.String())
}

// Rows that are made as they are asked for stand in CSV and JSON as those that are held, with a unit
// column if any has a unit; the forms for people leave them out.
func TestStream(t *testing.T) {
	rows := [][]Value{{Word("north"), Nothing("gal", "-")}, {Word("south"), Number(1e6, "gal", "1,000,000 gal")}}
	held := Table{Key: "tanks", Title: "Tanks", Columns: []Column{{"tank", "Tank"}, {"volume", "Holds"}}, Rows: rows}
	made := held
	made.Rows, made.Stream = nil, slices.Values(rows)
	for _, draw := range []func(io.Writer, *Document) error{CSV, JSON} {
		var want, got strings.Builder
		require.NoError(t, draw(&want, &Document{Tables: []Table{held}}))
		require.NoError(t, draw(&got, &Document{Tables: []Table{made}}))
		require.Equal(t, want.String(), got.String())
		require.Contains(t, got.String(), "1000000")
	}
	var text strings.Builder
	require.NoError(t, Text(&text, &Document{Tables: []Table{made}}))
	require.NotContains(t, text.String(), "south")
}

// A number has all its digits, and an exponent only where it would be longer without.
func TestDigits(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 1e6: "1000000", 0.1: "0.1", 1234567.25: "1234567.25", -2.5e-5: "-0.000025", 1e-9: "1e-09", 2e15: "2e+15"} {
		require.Equal(t, want, digits(x))
	}
}
