package sheet

import (
	"io"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/require"

	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/quantity"
)

func mapping(t testing.TB, text string) Mapping {
	t.Helper()
	m, err := ParseMapping(text)
	require.NoError(t, err)
	return m
}

func TestParseMapping(t *testing.T) {
	require.Equal(t, Mapping{
		{Column: "volume", Heading: "Gallons made", Unit: "gal"},
		{Column: "time", Heading: "Start: date"},
		{Column: "kind", Value: "batch"},
		{Column: "note", Heading: "Remarks, if any"},
		{Column: "cost", Heading: "Cost:gal"},
	}, mapping(t, `volume=Gallons made:gal, time = Start: date,kind==batch,"note=Remarks, if any",cost=Cost:gal`))
	for text, want := range map[string]string{
		"":                       `mapping: not a list; allowed: COLUMN=HEADING pairs with commas between, like time=Date,volume=Gallons made:gal,kind==batch`,
		"time=Date\nkind==batch": `mapping: not a list; allowed: COLUMN=HEADING pairs with commas between, like time=Date,volume=Gallons made:gal,kind==batch`,
		"kind==batch":            `mapping: time is missing; expected one like time=Date`,
		"time=Date":              `mapping: kind is missing; expected one like kind=Type, or kind==batch if all rows are batches`,
		"time=Date,time=D":       `mapping: time is there twice; allowed: once`,
		"time":                   `mapping: time has no heading; allowed: time=HEADING or time==VALUE`,
		"time=":                  `mapping: time has no heading; allowed: time=HEADING or time==VALUE`,
		"time==":                 `mapping: time has no heading; allowed: time=HEADING or time==VALUE`,
		"cancels=Undo":           `mapping: "cancels" is no column of a journal; allowed: time, kind, tank, from, liquid, volume, nacl, kcl, cacl2, mgcl2, temp, scale, reading, salt, water, operator, truck, route, cost, note, line, ticket, purity, moisture, hours, distance, due`,
		"time=Date,,kind==batch": `mapping: "" is no column of a journal; allowed: time, kind, tank, from, liquid, volume, nacl, kcl, cacl2, mgcl2, temp, scale, reading, salt, water, operator, truck, route, cost, note, line, ticket, purity, moisture, hours, distance, due`,
	} {
		_, err := ParseMapping(text)
		require.EqualError(t, err, want)
	}
	_, err := Read(strings.NewReader("Date\n"), Mapping{{Column: "volume", Heading: "V", Unit: "lb"}}, Options{})
	require.EqualError(t, err, `mapping: "lb" is no unit of volume`)
}

func TestImport(t *testing.T) {
	zone := time.FixedZone("", -5*3600)
	log := journal.ByteOrderMark + "Date,Gallons made,Test,Salt (lb),Brine temp [C],What,Who,Paid,Remarks\r\n" +
		"1/15/2026 6:40,\"1,095\",23.3,\"2,430\",5,Batch,'=ines,$12.50\r\n" +
		",,,,,,,,\r\n" +
		"2026-01-16,500 L,23.3%,1ton,41F,batch,'s-Gravenhage\r\n" +
		"\"2026-01-17T08:00:00Z\",,,,,note,\"two\nlines\",,valve drips\r\n"
	m := mapping(t, "time=date,volume=Gallons made:gal,nacl=Test,salt=Salt,temp=Brine temp [C],kind=What,operator=Who,cost=Paid,note=Remarks,tank==mixer")
	rows, err := Read(strings.NewReader(log), m, Options{Zone: zone})
	require.NoError(t, err)
	require.Empty(t, rows.Faults)
	require.Equal(t, []int{2, 4, 5}, rows.Lines)
	entries := rows.Entries
	e := entries[0]
	require.True(t, e.Time.Equal(time.Date(2026, 1, 15, 6, 40, 0, 0, zone)))
	require.InEpsilon(t, float64(1095*quantity.Gallon), float64(*e.Volume), 1e-12)
	require.InEpsilon(t, float64(0.233), float64(*e.NaCl), 1e-12)
	require.InEpsilon(t, float64(2430*quantity.Pound), float64(*e.Salt), 1e-12)
	require.InDelta(t, float64(quantity.Celsius(5)), float64(*e.Temp), 1e-9)
	require.EqualValues(t, 12.5, *e.Cost)
	require.Equal(t, []any{journal.Batch, "mixer", "=ines", 0}, []any{e.Kind, e.Tank, e.Operator, e.Number})
	e = entries[1]
	require.True(t, e.Time.Equal(time.Date(2026, 1, 16, 0, 0, 0, 0, zone)))
	require.InEpsilon(t, float64(0.5), float64(*e.Volume), 1e-12)
	require.InEpsilon(t, float64(2000*quantity.Pound), float64(*e.Salt), 1e-12)
	require.InDelta(t, float64(quantity.Celsius(5)), float64(*e.Temp), 1e-9)
	require.Equal(t, "'s-Gravenhage", e.Operator)
	require.Equal(t, "two\nlines", entries[2].Operator)
	require.Nil(t, entries[2].Volume)
	path := filepath.Join(t.TempDir(), "north.csv")
	_, err = disk.Append(path, disk.Options{}, entries)
	require.NoError(t, err)
	a, err := disk.Verify(path)
	require.NoError(t, err)
	require.True(t, a.Sound())
	require.Equal(t, 3, a.Rows)
}

// All that is wrong is told at once, each with its line and heading.
func TestImportFaults(t *testing.T) {
	log := "When,Made,Kind,Tank\n" +
		"1/15/26 5:40 PM,100 gal,batch,mixer\n" +
		"15/1/2026,lots,boil,mixer\n" +
		",5,undo,mixer\n" +
		"1.15.26,100 gal,batch,mixer,more\n" +
		"1/15/2026,100 gal,ba\"tch,mixer\n" +
		"1/16/2026,200 gal,LOAD,mixer\n"
	rows, err := Read(strings.NewReader(log), mapping(t, "time=When,volume=Made,kind=Kind,tank=Tank"), Options{})
	require.NoError(t, err)
	form := "; allowed: one like 2026-01-15 06:40 or 1/15/2026 6:40 (month first), or a date alone"
	kinds := "; allowed: batch, reading, correction, transfer, load, unload, delivery, order, spill, sale, loan, gift, clean, rinse, count, work, note"
	require.Equal(t, []string{
		`line 2: a batch needs volume and strength, or salt and water, or all of them`,
		`line 3: When: "15/1/2026" is no time` + form + "; or, with the day first, with --dates d/m/y",
		`line 3: Made: "lots": not a volume; write it like 500gal or 1900L`,
		`line 3: Kind: "boil" is no kind of event` + kinds,
		`line 4: When: empty; a row needs its time`,
		`line 4: Made: "5" has no unit; allowed: one in the cell, in the heading, or in the mapping, like volume=HEADING:gal`,
		`line 4: Kind: "undo" is no kind of event` + kinds,
		`line 5: 5 cells; expected up to 4, as there are headings`,
		`line 5: When: "1.15.26" is no time` + form,
		`line 6: a quote is out of place`,
		`line 7: a load needs volume and the tank it came from`,
	}, texts(rows.Faults))
	require.Empty(t, rows.Entries)
}

func TestImportHeadings(t *testing.T) {
	m := mapping(t, "time=Date,kind==note")
	for log, want := range map[string]string{
		"":              "line 1: no headings: the file is empty",
		"When,\"Who\n":  "line 1: no headings: a quote is out of place",
		"When,Who\n":    `line 1: no heading "Date" for time; the file has "When", "Who"`,
		"Date,Who,date": `line 1: the heading "Date" is there twice; allowed: once`,
	} {
		_, err := Read(strings.NewReader(log), m, Options{})
		require.EqualError(t, err, want)
	}
	_, err := Read(io.MultiReader(strings.NewReader("Date\n"), lines{}), m, Options{})
	require.EqualError(t, err, "too large to be imported; allowed: up to 64 MiB")
	_, err = Read(strings.NewReader("\xff\xfeD\x00"), m, Options{})
	require.EqualError(t, err, "line 1: text in UTF-16; allowed: a file that the spreadsheet saved as CSV in UTF-8")
	_, err = Read(io.MultiReader(strings.NewReader("Date\n"), iotest.ErrReader(io.ErrUnexpectedEOF)), m, Options{})
	require.ErrorIs(t, err, io.ErrUnexpectedEOF)
}

// lines are empty ones without end.
type lines struct{}

func (lines) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '\n'
	}
	return len(p), nil
}

func FuzzImport(f *testing.F) {
	f.Add("Date,Clock,Made\n1/15/2026,6:40 PM,5gal\n", false)
	f.Add("Date,Clock,Made (L)\n2026-01-15,6:40PM,'=5\n\"", false)
	f.Add("Date;Clock;Made [gal]\n15.1.2026;;1.750,5\n\n;06:40:30;1.750\n", true)
	f.Add("Date\tClock\tMade\n8/3/2026\t2:30\t23,3\n", true)
	zone, err := time.LoadLocation("America/New_York")
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, log string, dayFirst bool) {
		o := Options{Zone: zone}
		if dayFirst {
			o.Dates = DayFirst
		}
		rows, err := Read(strings.NewReader(log), mapping(t, "time=Date+Clock,volume=Made,kind==batch,tank==mixer,nacl==23.3,note==all"), o)
		if err != nil {
			require.NotContains(t, err.Error(), "\n")
		}
		ends := strings.Count(log, "\n") + 1
		for _, f := range rows.Faults {
			require.NotContains(t, f.Text, "\n")
			require.True(t, f.Line > 1 && f.Line <= ends, "line %d of %d", f.Line, ends)
		}
		require.Len(t, rows.Lines, len(rows.Entries))
		require.True(t, slices.IsSorted(rows.Lines))
		if len(rows.Entries) > 0 {
			_, err := disk.Append(filepath.Join(t.TempDir(), "north.csv"), disk.Options{}, rows.Entries)
			require.NoError(t, err)
		}
	})
}

func texts(faults []journal.Fault) []string {
	var all []string
	for _, f := range faults {
		all = append(all, f.String())
	}
	return all
}
