package bind

import (
	"regexp"
	"strconv"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

const dayMinutes = 24 * 60

// fourDigits is a time of day as it is called over a radio.
var fourDigits = regexp.MustCompile(`^([0-9]{2})([0-9]{2})$`)

// Moment reads a clock time like 10:05, or minutes from the start like 20; clock tells which.
func Moment(text string) (at quantity.Duration, clock bool, err error) {
	hours, minutes, isClock := strings.Cut(text, ":")
	if m := fourDigits.FindStringSubmatch(text); m != nil { // 0530 is half past five, and no 530 minutes
		hours, minutes, isClock = m[1], m[2], true
	}
	if !isClock {
		m, err := strconv.ParseFloat(text, 64)
		if err != nil || !(m >= 0 && m <= 10*dayMinutes) || strings.ContainsAny(text, "xXpP_nN") {
			return 0, false, fault.Refuse("not a time; write it like 10:05, or in minutes like 20")
		}
		return quantity.Duration(m) * quantity.Minute, false, nil
	}
	h, err1 := strconv.ParseUint(hours, 10, 8)
	m, err2 := strconv.ParseUint(minutes, 10, 8)
	if err1 != nil || err2 != nil || h > 23 || m > 59 || len(minutes) != 2 {
		return 0, false, fault.Refuse("not a time of day; write it like 10:05, from 0:00 to 23:59")
	}
	return quantity.Duration(h*60+m) * quantity.Minute, true, nil
}

// NextDay takes a time of day that is long before the one before it to the day after.
func NextDay(before, at quantity.Duration) quantity.Duration {
	for before-at > dayMinutes/2*quantity.Minute {
		at += dayMinutes * quantity.Minute
	}
	return at
}
