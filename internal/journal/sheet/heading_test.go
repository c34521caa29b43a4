package sheet

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A plus joins the headings of date and clock time, unless it belongs to one.
func TestDateAndClockInTwoColumns(t *testing.T) {
	when := time.Date(2026, 1, 15, 18, 40, 0, 0, time.UTC)
	for _, c := range []struct{ mapping, log string }{
		{"time=Date+Time", "Date,Time\n1/15/2026,6:40 PM\n"},
		{"time= date + time ", "Time,Other,Date\n6:40:00PM,x,1/15/2026\n"},
		{"time=Date+Time", "Date,Time,Date+Time\n1/1/2026,1:00,1/15/2026 18:40\n"},
		{"time=Day+month+Clock+zone", "Day+month,Clock+zone\n1/15/2026,18:40\n"},
		{"time=Date+Time", "\ufeff\"Date\";Time\n2026-01-15;18:40\n"},
	} {
		rows, err := Read(strings.NewReader(c.log), mapping(t, c.mapping+",kind==note,note==x"), Options{})
		require.NoError(t, err, c.log)
		require.Empty(t, texts(rows.Faults), c.log)
		require.Len(t, rows.Entries, 1)
		require.True(t, rows.Entries[0].Time.Equal(when), "%s: %s", c.log, rows.Entries[0].Time)
	}
	for log, want := range map[string]string{
		"Date,Clock\n":     `line 1: no heading "Time" for time; the file has "Date", "Clock"`,
		"Day,Time\n":       `line 1: no heading "Date" for time; the file has "Day", "Time"`,
		"Day,Clock\n":      `line 1: no heading "Date+Time" for time; the file has "Day", "Clock"`,
		"Date,Time,TIME\n": `line 1: the heading "Time" is there twice; allowed: once`,
		"Date;Time;date\n": `line 1: the heading "Date" is there twice; allowed: once`,
	} {
		_, err := Read(strings.NewReader(log), mapping(t, "time=Date+Time,kind==note"), Options{})
		require.EqualError(t, err, want)
	}
	// Only times are in two columns.
	_, err := Read(strings.NewReader("Date,A,B\n"), mapping(t, "time=Date,note=A+B,kind==note"), Options{})
	require.EqualError(t, err, `line 1: no heading "A+B" for note; the file has "Date", "A", "B"`)
}

func TestHalvesOfATime(t *testing.T) {
	log := "Date,Time,On,At\n1/15/2026,,,\n,6:40,,\n6:40,6:40,,\n1/15/2026,6:40,1/16/2026,7:00\n1/15/2026,6:40,,7:00\n"
	rows, err := Read(strings.NewReader(log), mapping(t, "time=Date+Time,due=On+At,kind==note,note==x"), Options{})
	require.NoError(t, err)
	require.Equal(t, []string{
		`line 3: Date+Time: "6:40" is a time without its date; allowed: both, or neither where the time may be missing`,
		`line 4: Date+Time: "6:40 6:40" is no time; allowed: one like 2026-01-15 06:40 or 1/15/2026 6:40 (month first), or a date alone`,
		`line 6: On+At: "7:00" is a time without its date; allowed: both, or neither where the time may be missing`,
	}, texts(rows.Faults))
	require.Equal(t, []int{2, 5}, rows.Lines)
	require.Equal(t, "2026-01-16 07:00", rows.Entries[1].Due.Format("2006-01-02 15:04"))
}

// The headings tell what stands between the cells; where none fits, the refusal lists what
// a person sees.
func TestSeparators(t *testing.T) {
	m := mapping(t, "time=Date,note=What,kind==note")
	for _, log := range []string{
		"Date,What\n2026-01-15,a;b\n", "Date;What\n2026-01-15;a;\n", "Date\tWhat\n2026-01-15\ta;\n",
		"sep;Date;What, if any;What\n;2026-01-15;c;a;\n", "Date;Tank,What\tWhat;What\n2026-01-15;;a\n",
	} {
		rows, err := Read(strings.NewReader(log), m, Options{})
		require.NoError(t, err, log)
		require.Empty(t, texts(rows.Faults), log)
		require.Equal(t, "a", rows.Entries[0].Note[:1], log)
	}
	for log, want := range map[string]string{
		"Date,Who\n":    `line 1: no heading "What" for note; the file has "Date", "Who"`,
		"Date;Who\n":    `line 1: no heading "What" for note; the file has "Date", "Who"`,
		"Date\tWho\n":   `line 1: no heading "What" for note; the file has "Date", "Who"`,
		"Date Who, If;": `line 1: no heading "Date" for time; the file has "Date Who", "If;"`,
	} {
		_, err := Read(strings.NewReader(log), m, Options{})
		require.EqualError(t, err, want)
	}
}

// Faults and entries keep their lines behind blank ones, cells of several lines, and quotes
// out of place.
func TestLines(t *testing.T) {
	log := strings.ReplaceAll("\"Da\nte\",What\n"+ // 1, 2
		"2026-01-15,a\n"+ // 3
		"\n"+
		" ,\n"+
		"2026-01-16,\"two\n\nlines\"\n"+ // 6 to 8
		"2026-01-17,b\"c\n"+ // 9
		"2026-01-17,d\n"+ // 10
		"soon,\"e\nf\"\n"+ // 11, 12
		"2026-01-18,\"g\nh\"i\n"+ // 13, 14
		"2026-01-19,\n"+ // 15
		"2026-01-20,k\n"+ // 16
		"2026-01-20,k,l\n"+ // 17
		"2026-01-21,\"m\n", "\n", "\r\n") // 18
	rows, err := Read(strings.NewReader(log), mapping(t, "time=Da te,note=What,kind==note"), Options{})
	require.NoError(t, err)
	require.Equal(t, []int{3, 6, 10, 16}, rows.Lines)
	var faulty []int
	for _, f := range rows.Faults {
		faulty = append(faulty, f.Line)
	}
	require.Equal(t, []int{9, 11, 13, 15, 17, 18}, faulty)
}

// Names that come again share their memory, and no entry holds on to its row.
func TestNamesAreKeptOnce(t *testing.T) {
	m := &manner{names: map[string]string{}}
	row := "mixer,mixer"
	require.Equal(t, "mixer", m.kept(row[:5]))
	require.Len(t, m.names, 1)
	long := strings.Repeat("x", 33)
	require.Equal(t, long, m.kept(long))
	require.Len(t, m.names, 1)
}

// As many rows as there is room for are read.
func TestTooManyRows(t *testing.T) {
	for log, want := range map[string]string{
		"a\n\nb\n": "", "a\nb\nc\n": "too many rows to be imported; allowed: up to 1000000, not counting blank ones",
	} {
		s := &sheet{in: reader(strings.NewReader(log), ','), room: 2, width: 1}
		err := s.rows()
		if want == "" {
			require.NoError(t, err)
			require.Equal(t, []int{1, 3}, s.Lines)
			continue
		}
		require.EqualError(t, err, want)
	}
}
