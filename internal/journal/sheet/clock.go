package sheet

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"brineyard/internal/words"
)

// Dates is the order in which a sheet writes day, month and year. A date with the year first
// (2026-01-15) is read in any order. A year of two digits is one from 1969 to 2068.
type Dates int

// The orders of dates.
const (
	MonthFirst Dates = iota // 1/15/2026
	DayFirst                // 15/1/2026 or 15.1.2026
)

// orders are the words and an example of each order.
var orders = [...]struct{ name, first, example string }{
	MonthFirst: {"m/d/y", "month", "1/15/2026"},
	DayFirst:   {"d/m/y", "day", "15/1/2026"},
}

// String returns the word for the order, which ParseDates reads.
func (d Dates) String() string { return orders[d].name }

// ParseDates reads the word for an order of dates: m/d/y or d/m/y.
func ParseDates(text string) (Dates, error) {
	for d, o := range orders {
		if strings.EqualFold(text, o.name) {
			return Dates(d), nil
		}
	}
	return MonthFirst, fmt.Errorf("%s is no order of dates; allowed: m/d/y, d/m/y (2026-01-15 is read in both)", words.Quoted(text))
}

// other is the order that it is not.
func (d Dates) other() Dates { return DayFirst - d }

// moment is what a clock and a calendar show.
type moment struct {
	year, month, day     int
	hour, minute, second int
	nano                 int
	dateAlone            bool
}

// time reads a time; one without a zone is of the place. A date alone is the beginning of
// its day.
func (c cell) time() (time.Time, error) {
	if len(c.text) > len(time.DateOnly) && c.text[len(time.DateOnly)] == 'T' {
		if t, err := time.Parse(time.RFC3339, c.text); err == nil {
			return t, nil
		}
	}
	fields := strings.Fields(c.text)
	if len(fields) == 1 { // a T may stand for the space
		if date, clock, found := strings.Cut(fields[0], "T"); found {
			fields = []string{date, clock}
		}
	}
	var m moment
	if m.setClock(fields) {
		return time.Time{}, fmt.Errorf("%s is a time without its date; allowed: both, in one column or in two, like time=Date+Time", words.Quoted(c.text))
	}
	if len(fields) == 0 || !m.setDate(fields[0], c.in.dates) {
		return time.Time{}, c.noTime(fields)
	}
	m.dateAlone = len(fields) == 1
	if !m.dateAlone && !m.setClock(fields[1:]) {
		return time.Time{}, c.noTime(nil)
	}
	return m.in(c)
}

// noTime refuses what is no time, and names the other order if that could be meant.
func (c cell) noTime(fields []string) error {
	order := orders[c.in.dates]
	allowed := "one like 2026-01-15 06:40 or " + order.example + " 6:40 (" + order.first + " first), or a date alone"
	other := c.in.dates.other()
	if len(fields) > 0 && (&moment{}).setDate(fields[0], other) {
		allowed += "; or, with the " + orders[other].first + " first, with --dates " + other.String()
	}
	return fmt.Errorf("%s is no time; allowed: %s", words.Quoted(c.text), allowed)
}

// setDate takes a date that is on the calendar.
func (m *moment) setDate(text string, order Dates) bool {
	mark := strings.IndexAny(text, "-/.")
	if mark < 0 || (text[mark] == '.' && order != DayFirst) {
		return false
	}
	parts := strings.Split(text, text[mark:mark+1])
	if len(parts) != 3 {
		return false
	}
	year, month, day := parts[2], parts[0], parts[1]
	switch {
	case text[mark] == '-':
		year, month, day = parts[0], parts[1], parts[2]
	case order == DayFirst:
		month, day = day, month
	}
	var ok [3]bool
	m.year, ok[0] = digits(year, 4, 4)
	if len(year) == 2 && text[mark] != '-' {
		m.year, ok[0] = digits(year, 2, 2)
		m.year += 1900
		if m.year < 1969 {
			m.year += 100
		}
	}
	m.month, ok[1] = digits(month, 1, 2)
	m.day, ok[2] = digits(day, 1, 2)
	t := time.Date(m.year, time.Month(m.month), m.day, 0, 0, 0, 0, time.UTC)
	return ok == [3]bool{true, true, true} && int(t.Month()) == m.month && t.Day() == m.day
}

// setClock takes a clock time of 12 or 24 hours: 6:40, 06:40:30, 6:40PM, 6:40 pm.
func (m *moment) setClock(fields []string) bool {
	if len(fields) < 1 || len(fields) > 2 {
		return false
	}
	text, half := fields[0], ""
	if n := len(text) - 2; n > 0 && len(fields) == 1 && strings.HasSuffix(strings.ToUpper(text), "M") {
		text, half = text[:n], strings.ToUpper(text[n:])
	} else if len(fields) == 2 {
		half = strings.ToUpper(fields[1])
	}
	parts := strings.Split(text, ":")
	if len(parts) < 2 || len(parts) > 3 {
		return false
	}
	var ok bool
	if m.hour, ok = digits(parts[0], 1, 2); !ok || m.hour > 23 {
		return false
	}
	if m.minute, ok = digits(parts[1], 2, 2); !ok || m.minute > 59 {
		return false
	}
	if len(parts) == 3 && !m.setSecond(parts[2]) {
		return false
	}
	switch {
	case half == "" && len(fields) == 1:
		return true
	case m.hour < 1 || m.hour > 12 || half != "AM" && half != "PM":
		return false
	}
	m.hour %= 12
	if half == "PM" {
		m.hour += 12
	}
	return true
}

// setSecond takes seconds with up to nine decimals.
func (m *moment) setSecond(text string) bool {
	whole, fraction, found := strings.Cut(text, ".")
	var ok bool
	if m.second, ok = digits(whole, 2, 2); !ok || m.second > 59 {
		return false
	}
	if found {
		if _, ok = digits(fraction, 1, 9); ok {
			m.nano, _ = digits((fraction + "00000000")[:9], 9, 9)
		}
	}
	return ok
}

// digits reads a number of least to most digits.
func digits(text string, least, most int) (int, bool) {
	if len(text) < least || len(text) > most || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	return n, err == nil
}
