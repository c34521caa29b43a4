package bind

import "time"

// OnTheWall is the moment at which the clock on the wall of a zone shows so many minutes after the midnight of a day; shown is
// false where the clocks go forward over that time.
func OnTheWall(day time.Time, minutes int, zone *time.Location) (at time.Time, shown bool) {
	at = time.Date(day.Year(), day.Month(), day.Day(), 0, minutes, 0, 0, zone)
	return at, at.Hour() == minutes/60%24 && at.Minute() == minutes%60
}
