package report

import (
	"encoding/json"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// decoded is what a program reads.
type decoded struct {
	Command, Verdict string
	Figures          map[string]cell
	Tables           map[string][]map[string]cell
	Notes, Cautions  []string
	Working          []struct{ What, Formula, Numbers, Result string }
}

type cell struct {
	Value any
	Unit  *string
}

func decode(t require.TestingT, text string) decoded {
	var d decoded
	r := json.NewDecoder(strings.NewReader(text))
	r.DisallowUnknownFields()
	require.NoError(t, r.Decode(&d))
	require.False(t, r.More())
	return d
}

// Numbers in full, words as words, null for none, each with its unit; quiet
// figures are there.
func TestJSONValues(t *testing.T) {
	d := decode(t, draw(t, JSON, sample()))
	percent, pounds, fahrenheit, gallons, none := "%", "lb", "F", "gal", ""
	require.Equal(t, "check", d.Command)
	require.Equal(t, sample().Verdict, d.Verdict)
	require.Equal(t, map[string]cell{
		"true_strength": {22.649073, &percent},
		"decision":      {"too weak", &none},
		"salt":          {41.72, &pounds},
		"salt_out_temp": {nil, &fahrenheit},
	}, d.Figures)
	require.Equal(t, map[string][]map[string]cell{"charge": {
		{"step": {1.0, &none}, "volume": {1012.5, &gallons}, "what": {"water", &none}},
		{"step": {12.0, &none}, "volume": {nil, &gallons}, "what": {"rock salt", &none}},
	}}, d.Tables)
	require.Equal(t, sample().Notes, d.Notes)
	require.Equal(t, sample().Cautions, d.Cautions)
	require.Equal(t, "500 gal x 9.82 lb/gal", d.Working[0].Numbers)
	require.Len(t, d.Working, 3)
}

// The keys come in the document's order, which a person can follow.
func TestJSONOrder(t *testing.T) {
	d := sample()
	d.Working = d.Working[:1]
	d.Tables[0].Rows = d.Tables[0].Rows[:1]
	var keys []string
	for _, m := range regexp.MustCompile(`(?m)^ *"([a-z_]+)":`).FindAllStringSubmatch(draw(t, JSON, d), -1) {
		if m[1] != "value" && m[1] != "unit" {
			keys = append(keys, m[1])
		}
	}
	require.Equal(t, []string{
		"command", "verdict",
		"figures", "true_strength", "decision", "salt", "salt_out_temp",
		"tables", "charge", "step", "volume", "what",
		"notes", "cautions",
		"working", "what", "formula", "numbers", "result",
	}, keys)
}

// Lists that are empty are lists, not null; working is there when asked for only.
func TestJSONOfVerdictAlone(t *testing.T) {
	requireText(t, `
{
  "command": "check",
  "verdict": "Pump.",
  "figures": {},
  "tables": {},
  "notes": [],
  "cautions": []
}
`, draw(t, JSON, &Document{Command: "check", Verdict: "Pump."}))
	table := &Document{Tables: []Table{{Key: "charge", Columns: []Column{{Key: "step"}}}}}
	require.Contains(t, draw(t, JSON, table), `"charge": []`)
}

// Text stays readable: < and & are not turned into escapes. Control characters
// are, by the rules of JSON.
func TestJSONStrings(t *testing.T) {
	d := &Document{Verdict: "a < b & c > \"d\" \\ e\x1b[31m\n", Figures: []Figure{{Key: "x", Value: Word("<&>")}}}
	got := draw(t, JSON, d)
	require.Contains(t, got, `"verdict": "a < b & c > \"d\" \\ e\u001b[31m\n"`)
	require.Contains(t, got, `"value": "<&>"`)
	require.Equal(t, d.Verdict, decode(t, got).Verdict)
}

// Every number comes back to the bit.
func TestJSONFullPrecision(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Filter(func(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }).Draw(t, "x")
		d := &Document{Figures: []Figure{{Key: "x", Value: Number(x, "gal", "about")}}}
		require.Equal(t, x, decode(t, draw(t, JSON, d)).Figures["x"].Value)
	})
}

// JSON has no word for NaN: an error, and not half an object.
func TestJSONRefusesNaN(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		var out strings.Builder
		require.Error(t, JSON(&out, &Document{Figures: []Figure{{Key: "x", Value: Number(x, "", "none")}}}))
		require.Empty(t, out.String())
	}
}
