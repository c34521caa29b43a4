// Package zone finds the time zone of the place: that of the machine, or the one that the variable
// TZ names or describes. What the library would take for UTC in silence is used, or refused.
package zone

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
	_ "time/tzdata" // for machines without a database of zones

	"brineyard/internal/words"
)

// Variable is the one that sets the zone of a process.
const Variable = "TZ"

// Local returns the time zone by what TZ says:
//
//	nothing               the machine's zone
//	America/New_York      that zone of the database, also with a colon before it
//	/etc/localtime        the zone in that file
//	EST5EDT,M3.2.0,M11.1.0  a rule as POSIX has it (IEEE Std 1003.1, Base Definitions, 8.3)
//
// An error, of one line, tells of a zone that is not there, and of a rule that is none.
func Local(getenv func(string) string) (*time.Location, error) {
	text := getenv(Variable)
	if text == "" {
		return time.Local, nil
	}
	name := strings.TrimPrefix(text, ":")
	if filepath.IsAbs(name) {
		return fromFile(text, name)
	}
	if at, err := time.LoadLocation(name); err == nil && name != "" {
		return at, nil
	}
	if at, ok := ruled(text); ok {
		return at, nil
	}
	return nil, fmt.Errorf("%s=%s: no such time zone; allowed: a zone like America/New_York that this machine has, "+
		"or a rule with its changes like EST5EDT,M3.2.0,M11.1.0", Variable, words.Quoted(text))
}

// fromFile reads the zone in a file.
func fromFile(text, path string) (*time.Location, error) {
	data, err := os.ReadFile(path)
	if err == nil {
		var at *time.Location
		if at, err = time.LoadLocationFromTZData(filepath.Base(path), data); err == nil {
			return at, nil
		}
	}
	return nil, fmt.Errorf("%s=%s: no file of a time zone; allowed: one that can be read, or a zone like America/New_York", Variable, words.Quoted(text))
}
