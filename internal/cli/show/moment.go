package show

import (
	"fmt"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// moment is the time that the clock on the wall shows at a time of a plan, which counts from the midnight that the view has.
func (v View) moment(at quantity.Duration) time.Time {
	return v.Midnight.Add(time.Duration(float64(at)*float64(time.Second)) + 30*time.Second).Truncate(time.Minute)
}

// Hour is a time of day.
func (v View) Hour(at quantity.Duration) string {
	m := v.moment(at)
	return fmt.Sprintf("%d:%02d", m.Hour(), m.Minute())
}

// Days is how many midnights lie before a time.
func (v View) Days(at quantity.Duration) int {
	m, first := v.moment(at), v.Midnight
	day := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(day(m).Sub(day(first)).Hours() / 24)
}

// Clock is a time of day, with its date where that is not the first day or the next.
func (v View) Clock(at quantity.Duration) string {
	m, first := v.moment(at), v.Midnight
	switch m.Format(time.DateOnly) {
	case first.Format(time.DateOnly):
		return v.Hour(at)
	case first.AddDate(0, 0, 1).Format(time.DateOnly):
		return v.Hour(at) + " next day"
	case first.AddDate(0, 0, -1).Format(time.DateOnly):
		return v.Hour(at) + " the day before"
	}
	return m.Format("2006-01-02 ") + v.Hour(at)
}

// TimeOf is a time of day for a figure or a table.
func (v View) TimeOf(at quantity.Duration) report.Value {
	return report.Number(float64(at/quantity.Minute), "min", v.Clock(at))
}
