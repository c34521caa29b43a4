package standing

import (
	"fmt"
	"math"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

// By is who said a figure: an entry of the journal, or the yard file.
func By(s yard.Said) report.Value {
	if !s.ByJournal() {
		return report.Word("yard file")
	}
	return report.Word(fmt.Sprintf("entry %d", s.Entry))
}

// Age is how long ago a figure was said, in hours for programs. The yard file does not
// tell.
func Age(s yard.Said, now time.Time) report.Value {
	if !s.ByJournal() {
		return report.Nothing("h", "-")
	}
	age := now.Sub(s.Time)
	return report.Number(age.Hours(), "h", ageText(age))
}

// ageText shows an age as a person would: what is beyond two days in days, beyond two hours
// in hours.
func ageText(age time.Duration) string {
	const day = 24 * time.Hour
	switch {
	case age < 0:
		return "0 min" // clocks differ
	case age < 2*time.Hour:
		return fmt.Sprintf("%.0f min", math.Floor(age.Minutes()))
	case age < 2*day:
		return fmt.Sprintf("%.0f h", math.Floor(age.Hours()))
	}
	return show.Plural(int(age/day), "day", "days")
}
