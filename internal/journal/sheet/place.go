package sheet

import (
	"fmt"
	"time"

	"brineyard/internal/words"
)

// in returns the time at which the clock of the place shows the moment: the first of two,
// which is counted. A moment that the clock skips is refused; but a date alone means when
// its day begins there.
func (m *moment) in(c cell) (time.Time, error) {
	t := time.Date(m.year, time.Month(m.month), m.day, m.hour, m.minute, m.second, m.nano, c.in.zone)
	first, times := t, 0
	for _, u := range neighbours(t) {
		if m.shownAt(u) {
			if times == 0 || u.Before(first) {
				first = u
			}
			times++
		}
	}
	switch {
	case times == 0 && m.dateAlone:
		return nearestChange(t), nil
	case times == 0:
		return t, fmt.Errorf("%s does not exist: the clock was put forward over it; allowed: a time that the clock showed, or one with its zone, like 2026-01-15T06:40:00-05:00", words.Quoted(c.text))
	case times > 1 && !m.dateAlone:
		c.in.repeated++
	}
	return first, nil
}

// shownAt tells whether the clock of the place shows the moment at a time.
func (m *moment) shownAt(t time.Time) bool {
	year, month, day := t.Date()
	hour, minute, second := t.Clock()
	return year == m.year && int(month) == m.month && day == m.day && hour == m.hour && minute == m.minute && second == m.second
}

// neighbours are a time, and those at which the clock would show the same if it went as it
// does before and after the stretch of the time's offset.
func neighbours(t time.Time) []time.Time {
	all := []time.Time{t}
	_, offset := t.Zone()
	start, end := t.ZoneBounds()
	if !start.IsZero() {
		start = start.Add(-1)
	}
	for _, there := range []time.Time{start, end} {
		if there.IsZero() {
			continue
		}
		if _, other := there.Zone(); other != offset {
			all = append(all, t.Add(time.Duration(offset-other)*time.Second))
		}
	}
	return all
}

// nearestChange is when the clock was changed that skips a time.
func nearestChange(t time.Time) time.Time {
	start, end := t.ZoneBounds()
	if start.IsZero() || !end.IsZero() && end.Sub(t) < t.Sub(start) {
		return end
	}
	return start
}
