package show

import (
	"fmt"
	"math"

	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

const dayMinutes = 24 * 60

// ClockText shows a time as it was given: of day, or in minutes.
func ClockText(at quantity.Duration, clock bool) string {
	minutes := math.Round(float64(at / quantity.Minute))
	if !clock {
		return fmt.Sprintf("%.0f min", minutes)
	}
	days, m := int(minutes)/dayMinutes, int(minutes)%dayMinutes
	if m < 0 {
		days, m = days-1, m+dayMinutes
	}
	text := fmt.Sprintf("%d:%02d", m/60, m%60)
	switch {
	case days == 1:
		return text + " next day"
	case days == -1:
		return text + " the day before"
	case days != 0:
		return fmt.Sprintf("%s, day %+d", text, days)
	}
	return text
}

// TimeValue is a time for a figure or a table.
func TimeValue(at quantity.Duration, clock bool) report.Value {
	return report.Number(float64(at/quantity.Minute), "min", ClockText(at, clock))
}
