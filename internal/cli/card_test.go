package cli

import (
	"encoding/csv"
	"encoding/json"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// cardGrid is a table of a card as a format shows it: heads and cells, as text.
type cardGrid struct {
	heads []string
	rows  [][]string
}

// cardGrids reads the tables back out of a format. Each gives the same cells.
var cardGrids = map[string]func(*testing.T, string) []cardGrid{
	"text": func(_ *testing.T, out string) []cardGrid {
		var grids []cardGrid
		lines := strings.Split(out, "\n")
		for i, line := range lines {
			if !strings.HasPrefix(line, "  ---") {
				continue
			}
			g := cardGrid{heads: columns(lines[i-1])}
			for _, row := range lines[i+1:] {
				if row == "" {
					break
				}
				g.rows = append(g.rows, columns(row))
			}
			grids = append(grids, g)
		}
		return grids
	},
	"markdown": func(_ *testing.T, out string) []cardGrid {
		var grids []cardGrid
		in := false
		for _, line := range strings.Split(out, "\n") {
			if !strings.HasPrefix(line, "| ") {
				in = false
				continue
			}
			var cells []string
			for _, c := range strings.Split(strings.Trim(line, "|"), "|") {
				cells = append(cells, strings.TrimSpace(strings.ReplaceAll(c, `\`, "")))
			}
			switch {
			case !in:
				grids, in = append(grids, cardGrid{heads: cells}), true
			case strings.Trim(cells[0], "-:") == "" && cells[0] != "":
			default:
				g := &grids[len(grids)-1]
				g.rows = append(g.rows, cells)
			}
		}
		return grids
	},
	"html": func(_ *testing.T, out string) []cardGrid {
		var grids []cardGrid
		for _, table := range regexp.MustCompile(`(?s)<table>.*?</table>`).FindAllString(out, -1) {
			g := cardGrid{heads: elements(table, "th")}
			for _, row := range regexp.MustCompile(`<tr><td.*?</tr>`).FindAllString(table, -1) {
				g.rows = append(g.rows, elements(row, "td"))
			}
			grids = append(grids, g)
		}
		return grids
	},
}

func columns(line string) []string {
	return regexp.MustCompile(` {2,}`).Split(strings.TrimSpace(line), -1)
}

func elements(text, name string) []string {
	var out []string
	for _, m := range regexp.MustCompile(`<`+name+`(?: [^>]*)?>(.*?)</`+name+`>`).FindAllStringSubmatch(text, -1) {
		out = append(out, html.UnescapeString(m[1]))
	}
	return out
}

// shownNumber is a number of a cell, with the worth of half its last digit.
func shownNumber(t *testing.T, cell string) (x, half float64) {
	t.Helper()
	digits := regexp.MustCompile(`-?[0-9][0-9.,]*`).FindString(quantity.Plain(cell))
	x, err := strconv.ParseFloat(digits, 64)
	require.NoError(t, err, "%q", cell)
	decimals := 0
	if _, after, ok := strings.Cut(digits, "."); ok {
		decimals = len(after)
	}
	return x, 0.5000001 * math.Pow(10, -float64(decimals))
}

// requireShown checks that a cell shows a number: pounds to 5 above 20, as they are loaded.
func requireShown(t *testing.T, cell string, want float64, about string) {
	t.Helper()
	x, half := shownNumber(t, cell)
	if strings.HasSuffix(cell, " lb") && x >= 20 {
		half = 2.5000001
	}
	if unit := strings.TrimLeft(cell, "-0123456789.,"); (unit == "%" || unit == " F" || unit == " C") && half > 0.05 {
		half = 0.0500001 // a whole number of these stands for tenths that are nothing
	}
	require.InDelta(t, want, x, half, about)
}

// Every number on the card is what the commands answer to the same question, in each
// format that people read.
func TestCardAgreesWithCommands(t *testing.T) {
	for _, system := range []string{"us", "metric"} {
		for format, read := range cardGrids {
			grids := read(t, answer(t, "card", "--yard", demoYard, "--format", format, "--units", system))
			require.Len(t, grids, 6, format)
			about := format + " " + system
			requireTemperatures(t, grids[0], system, about)
			requireCorrections(t, grids[1], system, about)
			requireFreezing(t, grids[2], system, about)
			requireBlends(t, grids[3], system, about)
			requireStick(t, grids[4], system, about)
		}
	}
}

// requireStick checks the stick's chart against level, without salt on the floor.
func requireStick(t *testing.T, g cardGrid, system, about string) {
	t.Helper()
	require.Equal(t, []string{"Depth", "mixer", "tote", "north", "south"}, g.heads)
	numbers := 0
	for _, row := range g.rows {
		for i, cell := range row[1:] {
			if cell == "-" {
				continue
			}
			numbers++
			line := "level --tank " + g.heads[i+1] + " --bed 0lb --depth " + strings.ReplaceAll(row[0], " ", "") + " --units " + system + " --yard " + demoYard
			requireShown(t, cell, figureOf(t, line, "volume"), about+": "+line)
		}
	}
	require.Greater(t, numbers, 20)
}

func requireTemperatures(t *testing.T, g cardGrid, system, about string) {
	t.Helper()
	dashes, numbers, pumps := 0, 0, 0
	for _, row := range g.rows {
		for i, cell := range row[1:] {
			line := "reading --hydrometer " + row[0] + " --temp " + strings.ReplaceAll(g.heads[i+1], " ", "") + " --units " + system + " --yard " + demoYard
			if cell == "-" {
				dashes++
				continue
			}
			numbers++
			truth := figureOf(t, line, "true_strength")
			if math.Abs(truth-23) > 0.002 && math.Abs(truth-24) > 0.002 { // the ends are what check makes of them
				require.Equal(t, truth > 23 && truth < 24, cell == "PUMP", about+": "+line)
			}
			if cell == "PUMP" {
				pumps++
				continue
			}
			requireShown(t, cell, truth, about+": "+line)
		}
	}
	require.Greater(t, pumps, 30)
	require.Greater(t, numbers, 100)
	require.Greater(t, dashes, 3)
}

func requireCorrections(t *testing.T, g cardGrid, system, about string) {
	t.Helper()
	per := "--volume 100gal"
	if system == "metric" {
		per = "--volume 1000L"
	}
	for _, row := range g.rows {
		for i, tank := range []string{"--tank mixer", "--tank tote", per} {
			line := "correct " + tank + " --temp 60F --strength " + row[0] + " --units " + system + " --yard " + demoYard
			key := map[string]string{"salt": "salt_to_add", "water": "water_to_add"}[row[2+2*i]]
			if strength, _ := shownNumber(t, row[0]); strength >= 23 && strength <= 24 {
				require.Equal(t, []string{"-", "PUMP"}, row[1+2*i:3+2*i])
				continue
			}
			require.NotEmpty(t, key, row)
			require.Len(t, row, 7)
			if len(g.heads) == 7 { // else they are broken over lines
				require.True(t, strings.HasPrefix(g.heads[1+2*i], []string{"mixer", "tote", "per 1"}[i]), g.heads)
			}
			requireShown(t, row[1+2*i], figureOf(t, line, key), about+": "+line)
			require.Zero(t, figureOf(t, line, "draw_off_first"))
		}
	}
}

func requireFreezing(t *testing.T, g cardGrid, system, about string) {
	t.Helper()
	require.Len(t, g.rows, 10)
	for _, row := range g.rows {
		line := "reading --hydrometer " + row[0] + " --temp 60F --units " + system + " --yard " + demoYard
		requireShown(t, row[4], figureOf(t, line, "specific_gravity"), about+": "+line)
		requireShown(t, row[3], figureOf(t, line, "salt_per_volume"), about+": "+line)
		requireShown(t, row[1], figureOf(t, line, "first_solid_temp"), about+": "+line)
		degrees, _ := shownNumber(t, row[5])
		strength, _ := shownNumber(t, row[0])
		back := figureOf(t, "reading --salometer "+strconv.FormatFloat(degrees, 'f', 1, 64)+" --temp 60F", "true_strength")
		require.InDelta(t, strength, back, 0.05*0.264+1e-6, about)
		ice := figureOf(t, "freeze --nacl "+row[0]+" --units "+system, "ice_point")
		first, _ := shownNumber(t, row[1])
		require.Equal(t, row[2] == "ice", math.Abs(ice-first) < 0.06, "%s: %v", about, row)
	}
}

func requireBlends(t *testing.T, g cardGrid, system, about string) {
	t.Helper()
	row := g.rows[0]
	require.Equal(t, "cold-mix", row[0])
	line := "blend 85:brine@23.3% 15:cal31 --units " + system + " --yard " + demoYard
	requireShown(t, row[3], figureOf(t, line, "ice_point"), about)
	requireShown(t, row[4], figureOf(t, line, "salt_out_temp"), about)
	requireShown(t, row[5], figureOf(t, line, "density"), about)
	requireShown(t, row[1], 15, about)
	holds := strings.Split(row[6], ", ")
	requireShown(t, holds[0], figureOf(t, line, "nacl"), about)
	requireShown(t, holds[1], figureOf(t, line, "cacl2"), about)
}

// CSV and JSON carry every number of the sheets in full, and their words.
func TestCardInFull(t *testing.T) {
	for _, system := range []string{"us", "metric"} {
		card := []string{"card", "--yard", demoYard, "--units", system}
		shown := cardGrids["markdown"](t, answer(t, append(card, "--format", "markdown")...))
		tables := csvTables(t, answer(t, append(card, "--format", "csv")...))
		require.Len(t, tables, len(shown))
		var d struct {
			Tables map[string][]map[string]struct{ Value any }
		}
		require.NoError(t, json.Unmarshal([]byte(answer(t, append(card, "--format", "json")...)), &d))
		require.Len(t, d.Tables, len(shown))
		for n, table := range tables {
			rows := d.Tables[table.name]
			require.Len(t, rows, len(shown[n].rows), table.name)
			require.Len(t, table.rows, len(shown[n].rows), table.name)
			for r, row := range table.rows {
				for c, key := range table.keys {
					requireSame(t, shown[n].rows[r][c], row[c], rows[r][key].Value, system+" "+table.name+" "+key)
				}
			}
		}
	}
}

// requireSame compares a cell as text shows it, as CSV has it, and as JSON has it.
func requireSame(t *testing.T, text, cell string, value any, about string) {
	t.Helper()
	switch v := value.(type) {
	case nil:
		require.Contains(t, []string{"-", ""}, text, about)
		require.Empty(t, cell, about)
	case float64:
		x, err := strconv.ParseFloat(cell, 64)
		require.NoError(t, err, about)
		require.InEpsilon(t, v, x, 1e-5, about) // CSV keeps six digits of some
		if text != "PUMP" {
			requireShown(t, text, v, about)
		}
	default:
		require.Equal(t, v, cell, about)
		require.Equal(t, v, text, about)
	}
}

// csvTable is a table of a CSV answer, without its columns of units.
type csvTable struct {
	name string
	keys []string
	rows [][]string
}

func csvTables(t *testing.T, out string) []csvTable {
	t.Helper()
	reader := csv.NewReader(strings.NewReader(out))
	reader.FieldsPerRecord = -1
	records, err := reader.ReadAll()
	require.NoError(t, err)
	var tables []csvTable
	var at []int // of the columns that are no units
	for _, record := range records {
		if record[0] == "table" {
			tables, at = append(tables, csvTable{}), nil
			for i, key := range record[1:] {
				if !strings.HasSuffix(key, "_unit") {
					at = append(at, i+1)
					tables[len(tables)-1].keys = append(tables[len(tables)-1].keys, key)
				}
			}
			continue
		}
		if len(tables) == 0 {
			continue
		}
		last := &tables[len(tables)-1]
		last.name = record[0]
		var row []string
		for _, i := range at {
			row = append(row, record[i])
		}
		last.rows = append(last.rows, row)
	}
	return tables
}

// What is drawn off of a tank that is filled to its brim is what correct says too; and a
// tank of which no working volume is known counts as full.
func TestCardDrawsOff(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.toml")
	require.NoError(t, os.WriteFile(path, []byte("[[mixing_tank]]\nname = \"brim\"\ncapacity = \"900 gal\"\nworking_volume = \"900 gal\"\n"+
		"[[mixing_tank]]\nname = \"plain\"\ncapacity = \"400 gal\"\n"), 0o644))
	g := cardGrids["markdown"](t, answer(t, "card", "--sheet", "correction", "--yard", path, "--format", "markdown"))[0]
	require.Contains(t, strings.Join(g.heads, " "), "plain, 400 gal")
	drawn := 0
	for _, row := range g.rows {
		for i, tank := range []string{"brim --volume 900gal", "plain --volume 400gal"} {
			line := "correct --tank " + tank + " --strength " + row[0] + " --yard " + path
			cells := row[1+3*i : 4+3*i]
			if cells[2] == "PUMP" {
				continue
			}
			drawOff := figureOf(t, line, "draw_off_first")
			require.Equal(t, drawOff == 0, cells[0] == "-", line)
			if drawOff > 0 {
				drawn++
				requireShown(t, cells[0], drawOff, line)
			}
			requireShown(t, cells[1], figureOf(t, line, map[string]string{"salt": "salt_to_add", "water": "water_to_add"}[cells[2]]), line)
		}
	}
	require.Greater(t, drawn, 10)
}

// Without a yard file the card is that of a round volume.
func TestCardWithoutYard(t *testing.T) {
	require.Contains(t, answer(t, "card", "--sheet", "correction"), "any tank, 1,000 gal")
	require.Contains(t, answer(t, "card", "--sheet", "correction", "--units", "metric"), "any tank, 1 000 L")
	require.NotContains(t, answer(t, "card"), "Blend")
}

// The diagram alone is a picture.
func TestCardDiagram(t *testing.T) {
	require.Contains(t, answer(t, "card", "--format", "svg"), "</svg>")
	require.True(t, strings.HasPrefix(answer(t, "card", "--format", "png"), "\x89PNG"))
	require.NotContains(t, answer(t, "card", "--sheet", "freezing", "--ascii"), "│")
}
