package show

import (
	"fmt"
	"time"

	"brineyard/internal/yard"
)

// oneDay is the age beyond which what was said of a yard may no longer be so.
const oneDay = 24 * time.Hour

// Source says in brackets, behind a space, who said what stands somewhere, and when: the yard
// file, or the journal with its time.
func (v View) Source(s yard.Said, now time.Time) string {
	if v.NumbersOnly {
		return ""
	}
	return " (" + SourceText(s, now) + ")"
}

// SourceText is Source without brackets.
func SourceText(s yard.Said, now time.Time) string {
	if !s.ByJournal() {
		return "yard file"
	}
	text := "journal, " + When(s.Time, now)
	if s.Doubt != nil {
		text += ", but a reading contradicts it"
	}
	return text
}

// When says when something was, as it is told on a day: 6:10 today, 22:40 yesterday, 14 Jan,
// 3 days ago.
func When(then, now time.Time) string {
	then = then.In(now.Location())
	days := daysBetween(then, now)
	switch {
	case days == 0:
		return clockOf(then) + " today"
	case days == 1:
		return clockOf(then) + " yesterday"
	case days < 0:
		return then.Format("2 Jan ") + clockOf(then)
	case then.Year() != now.Year():
		return then.Format("2 Jan 2006") + ", " + Plural(days, "day", "days") + " ago"
	}
	return then.Format("2 Jan") + ", " + Plural(days, "day", "days") + " ago"
}

// clockOf is the time of day, as the clock on the wall shows it.
func clockOf(t time.Time) string { return fmt.Sprintf("%d:%02d", t.Hour(), t.Minute()) }

// daysBetween counts midnights.
func daysBetween(then, now time.Time) int {
	day := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(day(now).Sub(day(then)) / oneDay)
}

// Said is a list of the sentence, empty where nothing is to be said.
func Said(sentence string) []string {
	if sentence == "" {
		return nil
	}
	return []string{sentence}
}

// Doubt says in a sentence why what the journal has of a tank may be wrong: a reading that
// contradicts it, or its age. It says nothing where it may be relied on.
func (v View) Doubt(tank string, s yard.Said, now time.Time) string {
	switch {
	case s.Doubt != nil:
		return v.Say("Entry %d read %v in %s where the entries make it %v: something was not recorded, so look at the level before you act.",
			s.Doubt.Entry, s.Doubt.Read, tank, s.Doubt.Expected)
	case s.ByJournal() && now.Sub(s.Time) > oneDay:
		return v.Say("The last entry about %s is of %s: look at the level before you act.", tank, When(s.Time, now))
	}
	return ""
}
