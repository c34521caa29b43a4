package records

import (
	"encoding/csv"
	"strings"
	"testing"

	"brineyard/internal/report"

	"github.com/stretchr/testify/require"
)

// A table reads back as a sheet of its own: as many cells a row as headings, units in the
// headings alone, numbers without what rounding leaves behind them, and no word that a spreadsheet would run.
func TestFlat(t *testing.T) {
	table := report.Table{Key: "routes", Columns: []report.Column{{Key: "route"}, {Key: "laid"}, {Key: "loads"}}, Rows: [][]report.Value{
		{report.Word("=1+1"), report.Nothing("", "-"), report.Number(2, "", "2")},
		{report.Word("mill, loop"), report.Number(3173.0000000000005, "gal", "1,235 gal"), report.Number(3, "", "3")},
	}}
	var text strings.Builder
	require.NoError(t, flat(&text, "@north", table))
	require.Equal(t, "yard,route,laid [gal],loads\n'@north,'=1+1,,2\n'@north,\"mill, loop\",3173,3\n", text.String())
	rows, err := csv.NewReader(strings.NewReader(text.String())).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
}

func TestTableNamed(t *testing.T) {
	tables := []report.Table{{Key: "months"}, {Key: "routes"}}
	found, err := tableNamed("routes", tables)
	require.NoError(t, err)
	require.Equal(t, "routes", found.Key)
	_, err = tableNamed("rout", tables)
	require.EqualError(t, err, `--table "rout": no such table; did you mean routes? allowed: months, routes`)
}
