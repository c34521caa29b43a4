package bind

import (
	"strings"
	"time"

	"brineyard/internal/fault"
	"brineyard/internal/words"
)

// Layouts of times on the command line.
const (
	dayLayout    = "2006-01-02"
	minuteLayout = "2006-01-02 15:04"
)

// AtHelp is what the help says of a flag that At reads.
const AtHelp = "`time` of it, like \"2026-01-14 05:40\", or 05:40 alone; now unless given"

// clockAhead is how far ahead of the machine's clock a time of day may be and still be meant
// today.
const clockAhead = 5 * time.Minute

// At reads when something was: as Day does, or a time of day alone, which is the latest such
// one that was. Errors: no such time, or none at all; both name the flag.
func At(s *Scope, flag, typed string) (time.Time, error) {
	if clock, err := time.Parse("15:04", strings.TrimSpace(typed)); err == nil {
		return latest(flag, typed, clock, s.Now())
	}
	return Day(s, flag, typed)
}

// Day reads a day, or a day and a time of day, in the zone of the machine. Errors: no such
// time, or none at all; both name the flag.
func Day(s *Scope, flag, typed string) (time.Time, error) {
	text := strings.TrimSpace(typed)
	now := s.Now()
	if at, err := time.ParseInLocation(time.RFC3339, text, now.Location()); err == nil {
		return at, nil
	}
	for _, layout := range []string{minuteLayout, "2006-01-02T15:04", dayLayout} {
		meant, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		return onClock(flag, typed, meant, now.Location())
	}
	return time.Time{}, fault.Refuse("--%s %s: not a time; allowed: like 2026-01-14 or \"2026-01-14 05:40\"", flag, words.Quoted(typed))
}

// onClock is the moment at which the clock on the wall shows what is meant, which is in UTC.
func onClock(flag, typed string, meant time.Time, zone *time.Location) (time.Time, error) {
	at, shown := OnTheWall(meant, meant.Hour()*60+meant.Minute(), zone)
	if !shown {
		return at, fault.Refuse("--%s %s: there is no such time, as the clocks go forward; allowed: an hour later", flag, words.Quoted(typed))
	}
	return at, nil
}

// latest is the latest moment that has a time of day: today's, or yesterday's where today's is
// to come.
func latest(flag, typed string, clock, now time.Time) (time.Time, error) {
	day := now
	for range 2 {
		at, err := onClock(flag, typed, time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), 0, 0, time.UTC), now.Location())
		if err != nil || !at.After(now.Add(clockAhead)) {
			return at, err
		}
		day = time.Date(now.Year(), now.Month(), now.Day()-1, 12, 0, 0, 0, now.Location())
	}
	return time.Time{}, fault.Refuse("--%s %s: that was not in the last day; allowed: with its date", flag, words.Quoted(typed))
}
