package cli

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"slices"
	"strings"
	"testing"

	"brineyard/internal/cli/run"

	"github.com/stretchr/testify/require"
)

// wrongCells are wrong in most columns, or wrong beside the rest of a row. Percent signs in
// them must come out as they went in.
var wrongCells = []string{
	"x", "-5", "0", "1e9", "99%", "26.9%", "200F", "-40F", "0gal", "5parsecs", "9999gal", "5%s", "nosuch", "100:x", "5:brine",
	"south", "tote", "north", "cal31", "larch-acetate", "cold-mix", "nacl@99%", "water", "stock", "S9", "lot-pickup", "weight",
	"10:05=99% 10:20=18%@x", "1000gal:cacl2@32% 0gal@30%", "99:kcl@30% 1:larch-acetate",
}

// verb is a formatting directive, or what printing makes of one that is amiss.
var verb = regexp.MustCompile(`%!|%[-+#0-9.]*[vsdqgfeTxt]\b`)

// quotedBack takes out of an answer what it quotes of the row.
var quotedBack = strings.NewReplacer(`"5%s"`, "", `"%s"`, "")

// Whatever is wrong with a row, its answer has its words and numbers filled in: every column
// of every command, with every wrong cell.
func TestEachFillsItsWords(t *testing.T) {
	for _, line := range rowLines {
		command, names, given, rest := rowOf(line)
		if !slices.Contains(rest, "--yard") {
			rest = append(rest, "--yard", demoYard)
		}
		env := run.System()
		asked, ok := rowsIn(groups()).named(command)
		require.True(t, ok, command)
		columns := append(newAsker(&run.Session{Env: &env, Globals: &run.Globals{}}, asked).names(), argsColumn)
		cells := make([]string, len(columns))
		for i, name := range names {
			cells[slices.Index(columns, name)] = given[i]
		}
		var table bytes.Buffer
		w := csv.NewWriter(&table)
		require.NoError(t, w.Write(columns))
		for i := range columns {
			for _, wrong := range wrongCells {
				row := slices.Clone(cells)
				row[i] = wrong
				require.NoError(t, w.Write(row))
			}
		}
		w.Flush()
		status, rows, errs := eachOf(t, table.String(), append([]string{command}, rest...)...)
		require.Equal(t, statusInput, status, line)
		require.NotRegexp(t, verb, errs, line)
		for _, row := range rows[1:] {
			for _, cell := range row[len(columns):] {
				require.NotRegexp(t, verb, quotedBack.Replace(cell), "%s: %q", line, row)
			}
		}
	}
}

// A row about a tank with another liquid says what that is and how strong, as the command
// does.
func TestEachNamesAnotherLiquid(t *testing.T) {
	for _, c := range []struct{ command, head, row string }{
		{"check", "tank,hydrometer,temp", "south,23.3%,40F"},
		{"correct", "tank,strength,volume", "south,25%,500gal"},
	} {
		status, rows, _ := eachOf(t, c.head+"\n"+c.row+"\n", c.command, "--yard", demoYard)
		require.Equal(t, statusInput, status)
		failure := rows[1][len(rows[1])-1]
		require.Contains(t, failure, "it holds cal31 (31% CaCl2)")
		args := []string{c.command, "--yard", demoYard}
		for i, name := range strings.Split(c.head, ",") {
			args = append(args, "--"+name, rows[1][i])
		}
		requireRefused(t, args, failure)
	}
}
