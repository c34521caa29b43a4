package cli

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var leadingNumber = regexp.MustCompile(`^-?[0-9.]+`)

func leading(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(leadingNumber.FindString(text), 64)
	require.NoError(t, err, text)
	return x
}

// lastDigit is the value of one in the last of the six digits printed of a result.
func lastDigit(result string) float64 {
	x, err := strconv.ParseFloat(leadingNumber.FindString(result), 64)
	if err != nil || x == 0 {
		return 1e-6
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-5)
}

var unitWords = regexp.MustCompile(`(lb/ft3|kg/m3|ft3|m3|lb/gal|kg/L|gal/min|L/min|min|cm|in|gal/mi|gal/acre|gal/ton|lb/mi|L/km|L/ha|L/t|kg/km|mph|km/h|acre|ha|mi|km|gal|lb|kg|L|ft|m|h|g|%)`)

// evaluate works out an expression of numbers, + - x / and brackets.
func evaluate(t *testing.T, text string) float64 {
	t.Helper()
	p := &calculator{rest: strings.ReplaceAll(unitWords.ReplaceAllString(text, ""), " ", "")}
	value := p.sum()
	require.Empty(t, p.rest, text)
	return value
}

type calculator struct{ rest string }

func (p *calculator) next(c string) bool {
	rest, found := strings.CutPrefix(p.rest, c)
	p.rest = rest
	return found
}

func (p *calculator) sum() float64 {
	value := p.product()
	for {
		switch {
		case p.next("+"):
			value += p.product()
		case p.next("-"):
			value -= p.product()
		default:
			return value
		}
	}
}

func (p *calculator) product() float64 {
	value := p.factor()
	for {
		switch {
		case p.next("x"):
			value *= p.factor()
		case p.next("/"):
			value /= p.factor()
		default:
			return value
		}
	}
}

func (p *calculator) factor() float64 {
	if p.next("(") {
		value := p.sum()
		p.next(")")
		return value
	}
	text := leadingNumber.FindString(p.rest)
	p.rest = p.rest[len(text):]
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN()
	}
	return value
}
