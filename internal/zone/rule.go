package zone

import (
	"encoding/binary"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// The parts of a rule: a name of letters or in angle brackets, what is added to local time to get
// that of Greenwich, and a day of the year with the time of the change.
const (
	nameForm   = `([A-Za-z]{3,}|<[A-Za-z0-9+-]{3,}>)`
	offsetForm = `([+-]?[0-9]{1,3}(?::[0-9]{2}){0,2})`
	changeForm = `,(?:J[0-9]{1,3}|[0-9]{1,3}|M[0-9]{1,2}\.[1-5]\.[0-6])(?:/[+-]?[0-9]{1,3}(?::[0-9]{2}){0,2})?`
)

var ruleForm = regexp.MustCompile(`^` + nameForm + offsetForm + `(?:` + nameForm + offsetForm + `?` + changeForm + changeForm + `)?$`)

// ruled makes the zone of a rule; ok is unset where it is none. One with a summer time has to say
// when that begins and ends: what holds without is different on every machine.
func ruled(text string) (at *time.Location, ok bool) {
	parts := ruleForm.FindStringSubmatch(text)
	if parts == nil || !inRange(text) {
		return nil, false
	}
	offset, ok := seconds(parts[2])
	if !ok {
		return nil, false
	}
	at, err := time.LoadLocationFromTZData(text, data(strings.Trim(parts[1], "<>"), -offset, text))
	return at, err == nil
}

// inRange checks the months and days of a rule, which its form lets through.
func inRange(text string) bool {
	for _, change := range strings.Split(text, ",")[1:] {
		day, _, _ := strings.Cut(change, "/")
		most, least := 365, 0
		switch {
		case strings.HasPrefix(day, "J"):
			day, least = day[1:], 1
		case strings.HasPrefix(day, "M"):
			day, _, _ = strings.Cut(day[1:], ".")
			least, most = 1, 12
		}
		if n, err := strconv.Atoi(day); err != nil || n < least || n > most {
			return false
		}
	}
	return true
}

// seconds reads h, h:mm or h:mm:ss with a sign.
func seconds(text string) (sum int, ok bool) {
	sign := 1
	if strings.HasPrefix(text, "-") {
		sign = -1
	}
	scale := 3600
	for i, part := range strings.Split(strings.TrimLeft(text, "+-"), ":") {
		n, err := strconv.Atoi(part)
		if err != nil || i == 0 && n > 24 || i > 0 && n > 59 {
			return 0, false
		}
		sum += n * scale
		scale /= 60
	}
	return sign * sum, true
}

// data is a zone as the database has it (RFC 9636, version 2): without any change that was, and
// with the rule for all that come.
func data(name string, offset int, rule string) []byte {
	chars := name + "\x00"
	header := func(b []byte) []byte {
		b = append(b, "TZif2"...)
		b = append(b, make([]byte, 15)...)
		for _, count := range []uint32{0, 0, 0, 0, 1, uint32(len(chars))} {
			b = binary.BigEndian.AppendUint32(b, count)
		}
		b = binary.BigEndian.AppendUint32(b, uint32(int32(offset)))
		b = append(b, 0, 0) // no summer time; the name begins at 0
		return append(b, chars...)
	}
	return append(header(header(nil)), "\n"+rule+"\n"...)
}
