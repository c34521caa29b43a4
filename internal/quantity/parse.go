package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// dimension describes how one kind of quantity may be written.
type dimension struct {
	name    string // with its article, for messages
	example string
	units   []unit  // the first is the one that a bare number takes
	low     float64 // SI, inclusive
	high    float64 // SI, inclusive
}

// unit has the spellings of a unit and the line that takes it to SI.
type unit struct {
	names []string
	scale float64
	shift float64
}

// parse reads a number and a unit, with or without a space between them. bare
// is true when there is no unit.
func (d *dimension) parse(text string) (si float64, bare bool, err error) {
	number, name := split(strings.TrimSpace(text))
	value, err := strconv.ParseFloat(number, 64)
	switch {
	case strings.HasPrefix(name, ","):
		return 0, false, fmt.Errorf("%s takes no commas; write it like %s", d.name, d.example)
	case number == "" || (err != nil && !math.IsInf(value, 0)):
		return 0, false, fmt.Errorf("not %s; write it like %s", d.name, d.example)
	}
	u := d.units[0]
	if name != "" {
		var ok bool
		if u, ok = d.unit(name); !ok {
			return 0, false, fmt.Errorf("%q is no unit of %s; allowed: %s", shorten(name), d.name, d.unitNames())
		}
	}
	si = value*u.scale + u.shift
	if !(si >= d.low-slack(d.low) && si <= d.high+slack(d.high)) {
		return 0, false, fmt.Errorf("out of range; allowed: %s to %s", u.text(d.low), u.text(d.high))
	}
	return si, name == "", nil
}

// text returns a value in SI in this unit, for a message.
func (u unit) text(si float64) string {
	number := strconv.FormatFloat((si-u.shift)/u.scale, 'g', 4, 64)
	if exact := math.Round((si - u.shift) / u.scale); math.Abs(exact) < 1e15 && math.Abs(exact) >= 1000 {
		number = strconv.FormatFloat(exact, 'f', -1, 64)
	}
	if len(u.names) == 0 {
		return number
	}
	return number + u.names[0]
}

// slack allows for the rounding of a limit that is written in another unit than SI.
func slack(limit float64) float64 { return 1e-12 * math.Abs(limit) }

// split divides text after its leading number: sign, digits, point, exponent.
func split(text string) (number, rest string) {
	i := 0
	for i < len(text) && (text[i] == '+' || text[i] == '-') && i == 0 {
		i++
	}
	start := i
	for i < len(text) && (isDigit(text[i]) || text[i] == '.') {
		i++
	}
	if i == start {
		return "", text
	}
	if j := exponent(text[i:]); j > 0 {
		i += j
	}
	return text[:i], strings.TrimSpace(text[i:])
}

// exponent returns the length of a leading e12, e+12 or e-12, else 0.
func exponent(text string) int {
	if len(text) < 2 || (text[0] != 'e' && text[0] != 'E') {
		return 0
	}
	i := 1
	if text[i] == '+' || text[i] == '-' {
		i++
	}
	start := i
	for i < len(text) && isDigit(text[i]) {
		i++
	}
	if i == start {
		return 0
	}
	return i
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func (d *dimension) unit(name string) (unit, bool) {
	for _, u := range d.units {
		for _, n := range u.names {
			if strings.EqualFold(n, name) {
				return u, true
			}
		}
	}
	return unit{}, false
}

func (d *dimension) unitNames() string {
	var names []string
	for _, u := range d.units {
		if len(u.names) > 0 {
			names = append(names, u.names[0])
		}
	}
	if len(names) == 0 {
		return "a plain number"
	}
	return strings.Join(names, ", ")
}

// shorten keeps a message on its line.
func shorten(text string) string {
	const most = 24
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "..."
	}
	return text
}
