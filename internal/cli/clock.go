package cli

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"brineyard/internal/quantity"
)

const dayMinutes = 24 * 60

// moment reads a clock time like 10:05, or minutes from the start like 20; clock
// tells which.
func moment(text string) (at quantity.Duration, clock bool, err error) {
	hours, minutes, isClock := strings.Cut(text, ":")
	if !isClock {
		m, err := strconv.ParseFloat(text, 64)
		if err != nil || !(m >= 0 && m <= 10*dayMinutes) || strings.ContainsAny(text, "xXpP_nN") {
			return 0, false, usagef("not a time; write it like 10:05, or in minutes like 20")
		}
		return quantity.Duration(m) * quantity.Minute, false, nil
	}
	h, err1 := strconv.ParseUint(hours, 10, 8)
	m, err2 := strconv.ParseUint(minutes, 10, 8)
	if err1 != nil || err2 != nil || h > 23 || m > 59 || len(minutes) != 2 {
		return 0, false, usagef("not a time of day; write it like 10:05, from 0:00 to 23:59")
	}
	return quantity.Duration(h*60+m) * quantity.Minute, true, nil
}

// hourText shows a time of day alone.
func hourText(at quantity.Duration) string {
	m := (int(math.Round(float64(at/quantity.Minute)))%dayMinutes + dayMinutes) % dayMinutes
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}

// clockText shows a time as it was given: of day, or in minutes.
func clockText(at quantity.Duration, clock bool) string {
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
