package sheet

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// style is how a spreadsheet was set when it wrote a sheet.
type style struct {
	comma        rune
	decimalComma bool
	grouped      bool
	dates        Dates
	twoColumns   bool // date and clock time
	halves       bool // AM and PM
	zone         *time.Location
}

func drawStyle(t *rapid.T, zone *time.Location) style {
	s := style{
		comma:      rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(t, "comma"),
		grouped:    rapid.Bool().Draw(t, "grouped"),
		dates:      rapid.SampledFrom([]Dates{MonthFirst, DayFirst}).Draw(t, "dates"),
		twoColumns: rapid.Bool().Draw(t, "two columns"),
		halves:     rapid.Bool().Draw(t, "halves"),
		zone:       zone,
	}
	s.decimalComma = s.comma != ',' && rapid.Bool().Draw(t, "decimal comma")
	return s
}

// number writes hundredths with two decimals, so that no mark could be one of thousands.
func (s style) number(hundredths int) string {
	whole, decimals := strconv.Itoa(hundredths/100), strconv.Itoa(100 + hundredths%100)[1:]
	point, thousands := ".", ","
	if s.decimalComma {
		point, thousands = ",", "."
	}
	for at := len(whole) - 3; s.grouped && at > 0; at -= 3 {
		whole = whole[:at] + thousands + whole[at:]
	}
	return whole + point + decimals
}

// when writes a time in one cell or two, and tells whether the clock shows it again later.
// A time that the clock showed before is written with its zone.
func (s style) when(t time.Time) (date, clock string, repeated bool) {
	shown := func(t time.Time) string { return t.In(s.zone).Format("2006-01-02 15:04:05") }
	if shown(t) == shown(t.Add(-time.Hour)) {
		return t.Format(time.RFC3339), "", false
	}
	day, hours := "1/2/2006", "15:04:05"
	if s.dates == DayFirst {
		day = "02.01.2006"
	}
	if s.halves {
		hours = "3:04:05 PM"
	}
	return t.In(s.zone).Format(day), t.In(s.zone).Format(hours), shown(t) == shown(t.Add(time.Hour))
}

// drawTime draws one of the times in New York, often near a change of its clocks.
func drawTime(t *rapid.T) time.Time {
	from := rapid.SampledFrom([]time.Time{
		time.Date(2026, 3, 8, 7, 0, 0, 0, time.UTC), time.Date(2026, 11, 1, 6, 0, 0, 0, time.UTC), time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC),
	}).Draw(t, "from")
	span := rapid.SampledFrom([]int{3 * 3600, 3e8}).Draw(t, "span")
	return from.Add(time.Duration(rapid.IntRange(-span, span).Draw(t, "seconds")) * time.Second)
}

// drawWords draws words as a cell can hold them, those that a spreadsheet would run included.
func drawWords(t *rapid.T) string {
	letters := rapid.RuneFrom([]rune("abc=+-@'\",;\t ä水\n|1"))
	return rapid.Map(rapid.StringOfN(letters, 1, 40, -1), strings.TrimSpace).
		Filter(func(text string) bool { return text != "" }).Draw(t, "words")
}

// written is a column of the sheet: its heading, what the mapping says of it, and its cells.
type written struct {
	heading, source string
	cells           []string
}

// measures are the columns of numbers, each with the SI number of a unit.
var measures = []struct {
	column, unit string
	most         int // hundredths
	si           float64
	field        func(*journal.Entry) *float64
}{
	{"volume", "gal", 1e7, 3.785411784e-3, func(e *journal.Entry) *float64 { return (*float64)(e.Volume) }},
	{"water", "L", 1e7, 1e-3, func(e *journal.Entry) *float64 { return (*float64)(e.Water) }},
	{"nacl", "%", 2800, 0.01, func(e *journal.Entry) *float64 { return (*float64)(e.NaCl) }},
	{"mgcl2", "%", 9999, 0.01, func(e *journal.Entry) *float64 { return (*float64)(e.MgCl2) }},
	{"purity", "%", 9999, 0.01, func(e *journal.Entry) *float64 { return (*float64)(e.Purity) }},
	{"moisture", "%", 9999, 0.01, func(e *journal.Entry) *float64 { return (*float64)(e.Moisture) }},
	{"temp", "K", 40000, 1, func(e *journal.Entry) *float64 { return (*float64)(e.Temp) }},
	{"reading", "", 12000, 1, func(e *journal.Entry) *float64 { return e.Reading }},
	{"salt", "lb", 1e8, 0.45359237, func(e *journal.Entry) *float64 { return (*float64)(e.Salt) }},
	{"cost", "", 1e8, 1, func(e *journal.Entry) *float64 { return (*float64)(e.Cost) }},
	{"hours", "h", 20000, 3600, func(e *journal.Entry) *float64 { return (*float64)(e.Hours) }},
	{"distance", "km", 1e7, 1000, func(e *journal.Entry) *float64 { return (*float64)(e.Distance) }},
}

// namings are the columns of words.
var namings = []struct {
	column string
	field  func(*journal.Entry) string
}{
	{"tank", func(e *journal.Entry) string { return e.Tank }},
	{"operator", func(e *journal.Entry) string { return e.Operator }},
	{"note", func(e *journal.Entry) string { return e.Note }},
	{"line", func(e *journal.Entry) string { return e.Line }},
	{"ticket", func(e *journal.Entry) string { return e.Ticket }},
}

// drawNumbers writes a number a row, or none, and returns them in SI; 0 is none.
func drawNumbers(t *rapid.T, s style, at, rows int) (written, []float64) {
	m := measures[at]
	w := written{heading: "The " + m.column}
	w.source = m.column + "=" + w.heading
	unit := ""
	if m.unit != "" {
		switch rapid.IntRange(0, 2).Draw(t, "place of the unit") {
		case 0:
			unit = " " + m.unit
		case 1:
			w.heading += " [" + m.unit + "]"
		case 2:
			w.source += ":" + m.unit
		}
	}
	least := 1
	if m.column == "temp" {
		least = 18000
	}
	want := make([]float64, rows)
	for i := range want {
		cell := ""
		if rapid.Bool().Draw(t, "is there") {
			n := rapid.IntRange(least, m.most).Draw(t, m.column)
			cell, want[i] = s.number(n)+unit, float64(n)/100*m.si
		}
		w.cells = append(w.cells, cell)
	}
	return w, want
}

// drawNames writes words in every row.
func drawNames(t *rapid.T, at, rows int) (written, []string) {
	w := written{heading: "My " + namings[at].column}
	w.source = namings[at].column + "=" + w.heading
	var want []string
	for range rows {
		text := drawWords(t)
		want = append(want, text)
		if strings.ContainsRune("=+-@'", rune(text[0])) {
			text = "'" + text // as a spreadsheet has it
		}
		w.cells = append(w.cells, text)
	}
	return w, want
}

// drawTimes writes a time in every row, in a column or two.
func drawTimes(t *rapid.T, s style, rows int) (columns []written, want []time.Time, repeated int) {
	columns = []written{{heading: "Day", source: "time=Day"}}
	if s.twoColumns {
		columns = []written{{heading: "Clock", source: "time=Day+Clock"}, {heading: "Day"}}
	}
	for range rows {
		at := drawTime(t)
		date, clock, again := s.when(at)
		if again {
			repeated++
		}
		want = append(want, at)
		if s.twoColumns {
			columns[0].cells, columns[1].cells = append(columns[0].cells, clock), append(columns[1].cells, date)
			continue
		}
		columns[0].cells = append(columns[0].cells, strings.TrimSpace(date+" "+clock))
	}
	return columns, want, repeated
}

// sheetOf writes the columns as a file, with blank rows here and there, and tells the line
// of each row.
func sheetOf(t *rapid.T, s style, columns []written, rows int) (file string, mapping string, lines []int) {
	columns = rapid.Permutation(columns).Draw(t, "columns")
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.Comma = s.comma
	var sources []string
	write := func(cell func(w written) string) {
		var cells []string
		for _, w := range columns {
			cells = append(cells, cell(w))
		}
		_ = out.Write(cells) // the buffer takes everything
		out.Flush()
	}
	write(func(w written) string {
		if w.source != "" {
			sources = append(sources, w.source)
		}
		return w.heading
	})
	for i := range rows {
		b.WriteString(rapid.SampledFrom([]string{"", "", "\n", " \n\n"}).Draw(t, "blank"))
		lines = append(lines, 1+bytes.Count(b.Bytes(), []byte("\n")))
		write(func(w written) string { return w.cells[i] })
	}
	return b.String(), strings.Join(sources, ","), lines
}

// Whatever entries are written out as a sheet come back, each with its line.
func TestSheetsComeBack(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		s, rows := drawStyle(t, zone), rapid.IntRange(1, 4).Draw(t, "rows")
		columns, times, repeated := drawTimes(t, s, rows)
		numbers, names := make([][]float64, len(measures)), make([][]string, len(namings))
		for i := range measures {
			var w written
			w, numbers[i] = drawNumbers(t, s, i, rows)
			columns = append(columns, w)
		}
		for i := range namings {
			var w written
			w, names[i] = drawNames(t, i, rows)
			columns = append(columns, w)
		}
		file, sources, lines := sheetOf(t, s, columns, rows)
		m, err := ParseMapping(sources + ",kind==Note")
		require.NoError(t, err)
		got, err := Read(strings.NewReader(file), m, Options{Dates: s.dates, Zone: zone})
		require.NoError(t, err, file)
		require.Empty(t, texts(got.Faults), file)
		require.Equal(t, lines, got.Lines, file)
		require.Equal(t, repeated, got.Repeated, file)
		for i := range got.Entries {
			e := &got.Entries[i]
			require.Equal(t, journal.Note, e.Kind)
			require.True(t, e.Time.Equal(times[i]), "%s is not %s in %s", e.Time, times[i], file)
			for n := range measures {
				requireNumber(t, numbers[n][i], measures[n].field(e), file)
			}
			for n := range namings {
				require.Equal(t, names[n][i], namings[n].field(e), file)
			}
		}
	})
}

func requireNumber(t require.TestingT, want float64, got *float64, file string) {
	if want == 0 {
		require.Nil(t, got, file)
		return
	}
	require.NotNil(t, got, file)
	require.InEpsilon(t, want, *got, 1e-12, file)
}

// A number with one mark and three digits behind it is never a guess: if it is taken, only
// one of its two meanings is one that the column can hold.
func TestMarksAreNeverGuessed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mark := rapid.SampledFrom([]string{".", ","}).Draw(t, "mark")
		whole, rest := rapid.IntRange(1, 999).Draw(t, "whole"), rapid.IntRange(1000, 1999).Draw(t, "rest")
		text := strconv.Itoa(whole) + mark + strconv.Itoa(rest)[1:]
		c := cell{text, "", &manner{decimalComma: true}}
		thousands, decimals := float64(whole*1000+rest-1000), float64(whole)+float64(rest-1000)/1000

		_, _, err := number(c, quantity.ParseMoney)
		require.ErrorContains(t, err, "is unclear: ")
		s, _, err := number(c, quantity.ParseStrength)
		switch {
		case decimals <= 100:
			require.NoError(t, err)
			require.InEpsilon(t, decimals/100, float64(s), 1e-12)
		default:
			require.ErrorContains(t, err, "out of range")
		}
		require.GreaterOrEqual(t, thousands, 1000.0)
	})
}
