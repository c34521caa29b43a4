package records

import (
	"bufio"
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/report"
	"brineyard/internal/words"
)

// tableNamed finds a table by its key.
func tableNamed(key string, tables []report.Table) (report.Table, error) {
	var keys []string
	for _, t := range tables {
		if t.Key == key {
			return t, nil
		}
		keys = append(keys, t.Key)
	}
	return report.Table{}, fault.Refuse("--table %s: no such table; %s", words.Quoted(key), words.Allowed(key, keys))
}

// writeFlat writes one table as CSV and nothing else, so that the tables of several yards can
// be put below one another: the yard's name in the first column, units in the headings, numbers
// to the twelve digits of the journal below.
func writeFlat(s *run.Session, t report.Table) error {
	buffered := bufio.NewWriter(s.Env.Out)
	if err := flat(buffered, yardName(s), t); err != nil {
		return err
	}
	return buffered.Flush()
}

// yardName is what the yard file calls the yard; empty where there is none.
func yardName(s *run.Session) string {
	if s.Yard == nil {
		return ""
	}
	return s.Yard.Name
}

func flat(w io.Writer, yardName string, t report.Table) error {
	head := []string{"yard"}
	for i, c := range t.Columns {
		head = append(head, heading(c.Key, t.Rows, i))
	}
	out := csv.NewWriter(w)
	if err := out.Write(head); err != nil {
		return err
	}
	for _, row := range t.Rows {
		cells := []string{asText(yardName)}
		for _, v := range row {
			cells = append(cells, cell(v))
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// heading is the key of a column with its unit in brackets. A column has one unit.
func heading(key string, rows [][]report.Value, column int) string {
	i := slices.IndexFunc(rows, func(row []report.Value) bool { return row[column].Unit != "" })
	if i < 0 {
		return key
	}
	return key + " [" + rows[i][column].Unit + "]"
}

// cell is a number to twelve digits, without what rounding leaves behind them, or a word.
func cell(v report.Value) string {
	if v.Number != nil {
		return strconv.FormatFloat(*v.Number, 'g', 12, 64)
	}
	return asText(v.Word)
}

// asText keeps a spreadsheet from running a word as a formula, by the apostrophe that it takes
// for "this is text".
func asText(word string) string {
	word = report.Clean(word)
	if word != "" && strings.ContainsRune("=+-@", rune(word[0])) {
		return "'" + word
	}
	return word
}
