package sheet

import (
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // the tests need the same zones everywhere

	"github.com/stretchr/testify/require"
)

func TestParseDates(t *testing.T) {
	for _, d := range []Dates{MonthFirst, DayFirst} {
		again, err := ParseDates(strings.ToUpper(d.String()))
		require.NoError(t, err)
		require.Equal(t, d, again)
	}
	_, err := ParseDates("y/m/d")
	require.EqualError(t, err, `"y/m/d" is no order of dates; allowed: m/d/y, d/m/y (2026-01-15 is read in both)`)
}

func clockOf(t testing.TB, text string, dates Dates, zone *time.Location) (time.Time, int, error) {
	t.Helper()
	m := &manner{zone: zone, dates: dates}
	at, err := cell{text: text, in: m}.time()
	return at, m.repeated, err
}

// The same moment in every form that spreadsheets are set to.
func TestTimes(t *testing.T) {
	zone := time.FixedZone("", -5*3600)
	both := []Dates{MonthFirst, DayFirst}
	for _, c := range []struct {
		want  string
		dates []Dates
		texts []string
	}{
		{"2026-01-15T18:40:00-05:00", both, []string{
			"2026-01-15 18:40", "2026-1-15 18:40", "2026-01-15T18:40", "2026-01-15 6:40 PM", "2026-01-15T18:40:00-05:00", "2026-01-15T23:40:00Z",
		}},
		{"2026-01-15T18:40:00-05:00", both[:1], []string{
			"1/15/2026 18:40", "01/15/2026 6:40 PM", "1/15/26 6:40PM", "1/15/26 06:40 pm", "1/15/2026 6:40:00 PM", "1/15/2026 06:40:00pm", "1/15/2026  18:40:00.0",
			"1/15/2026 6:40\u202fPM", "1/15/2026\u00a06:40 PM",
		}},
		{"2026-01-15T18:40:00-05:00", both[1:], []string{"15/1/2026 18:40", "15/01/26 6:40 PM", "15.1.2026 18:40", "15.01.26 18:40:00"}},
		{"2026-02-01T00:00:00-05:00", both[:1], []string{"2/1/2026", "2/1/26 12:00 AM", "2/1/26 0:00"}},
		{"2026-02-01T12:30:15-05:00", both[1:], []string{"1/2/2026 12:30:15", "1.2.26 12:30:15 PM"}},
		{"2026-01-15T18:40:30.25-05:00", both, []string{"2026-01-15 18:40:30.25", "2026-01-15 6:40:30.250PM"}},
		{"2068-12-31T00:00:00-05:00", both[:1], []string{"12/31/68"}},
		{"1969-12-31T00:00:00-05:00", both[:1], []string{"12/31/69"}},
		{"2024-02-29T00:00:00-05:00", both[1:], []string{"29/2/24", "29.02.2024", "2024-02-29"}},
	} {
		want, err := time.Parse(time.RFC3339, c.want)
		require.NoError(t, err)
		for _, dates := range c.dates {
			for _, text := range c.texts {
				got, repeated, err := clockOf(t, text, dates, zone)
				require.NoError(t, err, "%s %s", dates, text)
				require.True(t, got.Equal(want), "%s %s: %s", dates, text, got)
				require.Zero(t, repeated)
			}
		}
	}
}

func TestTimesRefused(t *testing.T) {
	const monthFirst = " is no time; allowed: one like 2026-01-15 06:40 or 1/15/2026 6:40 (month first), or a date alone"
	const dayFirst = " is no time; allowed: one like 2026-01-15 06:40 or 15/1/2026 6:40 (day first), or a date alone"
	const alone = " is a time without its date; allowed: both, in one column or in two, like time=Date+Time"
	for _, c := range []struct {
		dates Dates
		texts []string
		want  string
	}{
		{MonthFirst, []string{"15/1/2026", "15/1/26 6:40 PM", "15.1.2026", "1.2.2026"}, monthFirst + "; or, with the day first, with --dates d/m/y"},
		{DayFirst, []string{"1/15/2026", "1/15/26 6:40"}, dayFirst + "; or, with the month first, with --dates m/d/y"},
		{MonthFirst, []string{
			"yesterday", "2/30/2026", "30/2/2026", "2026-02-29", "13/13/2026", "0/1/2026", "1/0/2026", "1/15", "1/15/026", "1/15/20266", "26-01-15",
			"1/15-2026", "2026/01/15", "1/15/2026 25:00", "1/15/2026 24:00", "1/15/2026 6:60", "1/15/2026 6:4", "1/15/2026 6:40:60", "1/15/2026 13:00 PM",
			"1/15/2026 0:30 AM", "1/15/2026 6:40 XM", "1/15/2026 6:40 P M", "1/15/2026 6", "1/15/2026 6:40:30.", "1/15/2026 6:40:30.1234567891",
			"1/15/2026 0:00 6:40", "-1/15/2026", "1/15/2026 6:40PM PM", "46037.27", "1/15/2026T", "T",
		}, monthFirst},
		{DayFirst, []string{"1.15.2026 6:40 AM and later", "30.2.2026", "15.1/2026", "15.1."}, dayFirst},
		{MonthFirst, []string{"6:40", "6:40 PM", "18:40:30", "6:40pm"}, alone},
	} {
		for _, text := range c.texts {
			_, _, err := clockOf(t, text, c.dates, time.UTC)
			require.Error(t, err, text)
			require.True(t, strings.HasSuffix(err.Error(), c.want), "%s: %v", text, err)
		}
	}
}

// Where clocks were changed: 15 U.S.C. 260a has New York skip 2:00 to 3:00 on the second
// Sunday of March and repeat 1:00 to 2:00 on the first of November; directive 2000/84/EC
// has Berlin do so at 1:00 UTC on the last Sundays of March and October.
func TestChangesOfClocks(t *testing.T) {
	for _, c := range []struct{ zone, text, want string }{ // no want: skipped; a star: repeated
		{"America/New_York", "3/8/2026 1:59", "2026-03-08T01:59:00-05:00"},
		{"America/New_York", "3/8/2026 2:00", ""},
		{"America/New_York", "3/8/2026 2:59:59", ""},
		{"America/New_York", "3/8/2026 3:00", "2026-03-08T03:00:00-04:00"},
		{"America/New_York", "11/1/2026 0:59", "2026-11-01T00:59:00-04:00"},
		{"America/New_York", "11/1/2026 1:00", "*2026-11-01T01:00:00-04:00"},
		{"America/New_York", "11/1/2026 1:59:59", "*2026-11-01T01:59:59-04:00"},
		{"America/New_York", "11/1/2026 2:00", "2026-11-01T02:00:00-05:00"},
		{"America/New_York", "2026-11-01T01:30:00-05:00", "2026-11-01T01:30:00-05:00"}, // the second, by its zone
		{"Europe/Berlin", "3/29/2026 2:30", ""},
		{"Europe/Berlin", "10/25/2026 2:30", "*2026-10-25T02:30:00+02:00"},
		{"Europe/Berlin", "10/25/2026 3:00", "2026-10-25T03:00:00+01:00"},
		// Half an hour, from memory and from the time zone database.
		{"Australia/Lord_Howe", "4/5/2026 1:29", "2026-04-05T01:29:00+11:00"},
		{"Australia/Lord_Howe", "4/5/2026 1:30", "*2026-04-05T01:30:00+11:00"},
		{"Australia/Lord_Howe", "4/5/2026 2:00", "2026-04-05T02:00:00+10:30"},
		{"Australia/Lord_Howe", "10/4/2026 2:15", ""},
		// Midnight is skipped, and repeated: a date alone is the beginning of its day.
		{"America/Santiago", "9/6/2026 0:30", ""},
		{"America/Santiago", "9/6/2026", "2026-09-06T01:00:00-03:00"},
		{"America/Havana", "11/1/2026", "2026-11-01T00:00:00-04:00"},
		{"America/Havana", "11/1/2026 0:00", "*2026-11-01T00:00:00-04:00"},
		{"UTC", "11/1/2026 1:30", "2026-11-01T01:30:00Z"},
	} {
		zone, err := time.LoadLocation(c.zone)
		require.NoError(t, err)
		got, repeated, err := clockOf(t, c.text, MonthFirst, zone)
		if c.want == "" {
			require.ErrorContains(t, err, "does not exist: the clock was put forward over it; allowed: a time that the clock showed", "%s %s", c.zone, c.text)
			continue
		}
		require.NoError(t, err, "%s %s", c.zone, c.text)
		want, found := strings.CutPrefix(c.want, "*")
		require.Equal(t, want, got.Format(time.RFC3339), c.zone)
		require.Equal(t, found, repeated == 1, "%s %s", c.zone, c.text)
	}
}

// Only the repeated times of rows that became entries are counted.
func TestRepeatedTimesAreCounted(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	log := "Date,Note,Due\n11/1/2026 1:30,a,\n11/1/2026 1:40,,\n11/1/2026 1:45,b,11/1/2026 1:50\n11/2/2026 1:30,c,\n"
	rows, err := Read(strings.NewReader(log), mapping(t, "time=Date,note=Note,due=Due,kind==note"), Options{Zone: zone})
	require.NoError(t, err)
	require.Equal(t, []string{"line 3: a note needs words"}, texts(rows.Faults))
	require.Equal(t, []int{2, 4, 5}, rows.Lines)
	require.Equal(t, 3, rows.Repeated)
}
