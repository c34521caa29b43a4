package zone

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func says(text string) func(string) string {
	return func(name string) string { return map[string]string{Variable: text}[name] }
}

// A rule tells the same time as the zone of the database that it describes, each hour of nine years:
// the rules are the last lines of the zones' files (IANA time zone database).
func TestRules(t *testing.T) {
	for rule, name := range map[string]string{
		"EST5EDT,M3.2.0,M11.1.0":               "America/New_York",
		"CST6CDT,M3.2.0/2,M11.1.0/2:00":        "America/Chicago",
		"NST3:30NDT,M3.2.0,M11.1.0":            "America/St_Johns",
		"CET-1CEST,M3.5.0,M10.5.0/3":           "Europe/Berlin",
		"AEST-10AEDT,M10.1.0,M4.1.0/3":         "Australia/Sydney",
		"<-03>3":                               "America/Sao_Paulo",
		"<+0545>-5:45":                         "Asia/Kathmandu",
		"<+1030>-10:30<+11>-11,M10.1.0,M4.1.0": "Australia/Lord_Howe",
		"MST7":                                 "America/Phoenix",
	} {
		want, err := time.LoadLocation(name)
		require.NoError(t, err)
		got, err := Local(says(rule))
		require.NoError(t, err, rule)
		for at := time.Date(2024, 1, 1, 0, 30, 0, 0, time.UTC); at.Year() < 2033; at = at.Add(time.Hour) {
			require.Equal(t, at.In(want).Format("2006-01-02 15:04 -0700 MST"), at.In(got).Format("2006-01-02 15:04 -0700 MST"), rule)
		}
	}
}

// Days without leap days, and days from nought: 1 March is J60 in any year, and day 60 (from 0) of
// a leap year, 59 of another.
func TestJulianDays(t *testing.T) {
	at, err := Local(says("AAA5BBB,J60,J300"))
	require.NoError(t, err)
	for _, year := range []int{2027, 2028} {
		before, after := time.Date(year, 3, 1, 6, 59, 0, 0, time.UTC), time.Date(year, 3, 1, 7, 1, 0, 0, time.UTC)
		require.Equal(t, "01:59 AAA", before.In(at).Format("15:04 MST"))
		require.Equal(t, "03:01 BBB", after.In(at).Format("15:04 MST"))
	}
}

func TestNames(t *testing.T) {
	local, err := Local(says(""))
	require.NoError(t, err)
	require.Equal(t, time.Local, local)
	for _, name := range []string{"America/New_York", ":America/New_York", "UTC", "EST5EDT"} {
		_, err := Local(says(name))
		require.NoError(t, err, name)
	}
	path := filepath.Join(t.TempDir(), "there")
	require.NoError(t, os.WriteFile(path, data("QQQ", -7200, "QQQ2"), 0o644))
	at, err := Local(says(path))
	require.NoError(t, err)
	require.Equal(t, "10:00 QQQ", time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC).In(at).Format("15:04 MST"))
}

// What the library would take for UTC is refused, and so is a rule that is none.
func TestRefused(t *testing.T) {
	for _, text := range []string{
		"America/Nowhere", ":", "XYZ5ABC", "EST5EDT,M3.2.0", "EST5EDT,M13.2.0,M11.1.0", "EST5EDT,M3.6.0,M11.1.0", "EST5EDT,J0,J300", "EST5EDT,J366,J300",
		"EST5EDT,M3.2.0,M11.1.0,M12.1.0", "EST25", "EST5:60", "E5", "<EST5", "../../etc/passwd", "/no/such/file", "\x1b[31m5",
	} {
		_, err := Local(says(text))
		require.ErrorContains(t, err, Variable+"=", text)
		require.NotContains(t, err.Error(), "\x1b")
	}
	path := filepath.Join(t.TempDir(), "here")
	require.NoError(t, os.WriteFile(path, []byte("no zone"), 0o644))
	_, err := Local(says(path))
	require.ErrorContains(t, err, "no file of a time zone")
}

// FuzzRule finds no text that makes a zone of no name or stops the program.
func FuzzRule(f *testing.F) {
	f.Add("EST5EDT,M3.2.0,M11.1.0")
	f.Add("<-03>3")
	f.Fuzz(func(t *testing.T, text string) {
		at, ok := ruled(text)
		if !ok {
			return
		}
		name, offset := time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC).In(at).Zone()
		require.NotEmpty(t, name)
		require.LessOrEqual(t, max(offset, -offset), 168*3600)
	})
}
