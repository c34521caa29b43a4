package cli

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// How many command lines are drawn of a command, and how many of them it has to answer: the
// others lie outside what it takes.
const (
	linesDrawn    = 50
	linesAnswered = 40
)

// workedCommand is a command that shows its working.
type workedCommand struct {
	name  string
	draw  func(*lines) string
	goals []goal
}

// goal is a figure of the answer, and the step of the working that comes to it.
type goal struct {
	figure string
	step   string  // a pattern of what the step works out; the last such step counts
	like   string  // another step, which comes to the same, where none comes to the figure
	within float64 // of the figure's size,
	of     string  // or of that of another figure, from which it is a difference,
	least  float64 // or of this, if that is more
	seldom bool    // random lines come to it now and then
	// when the step has to be there; nil for wherever the figure is a number above 0.
	when func(workedAnswer) bool
}

// How far a step may be from the figure, which is worked out in full.
const (
	// A number of six digits is right to 5 in a million; no step here joins more than ten.
	sixDigits = 5e-5
	// A difference of two strengths of six digits is right to 1 in 1000: those drawn with
	// six digits are 0.1 % apart, and nearer ones are printed with more digits.
	apart = 1e-3
)

// workedAnswer is an answer with its working.
type workedAnswer struct {
	Figures map[string]struct {
		Value any
		Unit  string
	}
	Tables  map[string][]map[string]struct{ Value any }
	Working []workedStep
	Notes   []string
}

// number is a figure; false where it is a word or not known.
func (a workedAnswer) number(key string) (float64, bool) {
	x, ok := a.Figures[key].Value.(float64)
	return x, ok
}

// is reports whether a figure is a certain word.
func (a workedAnswer) is(key, word string) bool { return a.Figures[key].Value == word }

// none reports whether a figure is nothing.
func (a workedAnswer) none(key string) bool {
	x, ok := a.number(key)
	return !ok || x == 0
}

// A pocket calculator that is fed what is printed comes to what is printed, and in the end to
// the answer: over command lines drawn at random, of every command that shows a working.
func TestWorkingOfRandomRequests(t *testing.T) {
	for i, c := range workedCommands {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := &lines{Rand: rand.New(rand.NewPCG(13, uint64(i))), folder: t.TempDir(), t: t}
			answered, reached := 0, map[string]int{}
			for range linesDrawn {
				line := c.draw(d)
				a, ok := askWorked(t, line)
				if !ok {
					continue
				}
				answered++
				follow(t, line, a.Working)
				c.reach(t, line, a, reached)
			}
			require.GreaterOrEqual(t, answered, linesAnswered)
			for _, g := range c.goals {
				if !g.seldom {
					require.GreaterOrEqual(t, reached[g.figure+g.step], 3, "%s is never reached", g.figure)
				}
			}
		})
	}
}

// askWorked asks with --working; false where the command refuses the request.
func askWorked(t *testing.T, line string) (a workedAnswer, ok bool) {
	t.Helper()
	status, out, errs := invoke(t, append(demoFields(line), "--working", "--format", "json")...)
	if status != 0 {
		require.Equal(t, 2, status, "%s: %s", line, errs)
		return a, false
	}
	require.NoError(t, json.Unmarshal([]byte(out), &a), line)
	return a, true
}

// follow puts every step into a calculator.
func follow(t *testing.T, line string, steps []workedStep) {
	t.Helper()
	for _, s := range steps {
		if s.Numbers == "" {
			continue
		}
		require.NotRegexp(t, `x [0-9.]+%|[0-9.]% x`, s.Numbers, "%s: a calculator multiplies with the fraction", line)
		require.InDelta(t, leading(t, s.Result), evaluate(t, s.Numbers), 0.6*lastDigit(s.Result), "%s: %s: %s = %s", line, s.What, s.Numbers, s.Result)
	}
}

// reach compares the figures with their steps, the last of which ends the working.
func (c workedCommand) reach(t *testing.T, line string, a workedAnswer, reached map[string]int) {
	t.Helper()
	if len(a.Working) == 0 {
		require.Regexp(t, "^No working here: ", strings.Join(a.Notes[:min(1, len(a.Notes))], ""), line)
		return
	}
	last := -1
	for _, g := range c.goals {
		want, known := g.value(t, a)
		if g.when != nil && !g.when(a) || g.when == nil && (!known || want == 0) {
			continue
		}
		at := lastStep(a.Working, g.step)
		require.GreaterOrEqual(t, at, 0, "%s: no step of %s for %s", line, g.step, g.figure)
		got := inUnitOf(leading(t, a.Working[at].Result), a.Working[at].Result, a.Figures[g.figure].Unit)
		require.InDelta(t, want, got, g.tolerance(a, want, a.Working[at].Result), "%s: %s: %v", line, g.figure, a.Working[at])
		reached[g.figure+g.step]++
		last = max(last, at)
	}
	if c.goals != nil {
		require.Equal(t, len(a.Working)-1, last, "%s: the last step reaches no figure: %v", line, a.Working[len(a.Working)-1])
	}
}

// value is what the step has to come to; false where that is not known.
func (g goal) value(t *testing.T, a workedAnswer) (float64, bool) {
	if g.like == "" {
		return a.number(g.figure)
	}
	at := lastStep(a.Working, g.like)
	if at < 0 {
		return 0, false
	}
	return leading(t, a.Working[at].Result), true
}

// tolerance is how far a step may be off: what the digits of its numbers allow, or, of a
// reading to expect, what its own do.
func (g goal) tolerance(a workedAnswer, want float64, result string) float64 {
	if g.within == 0 && strings.HasSuffix(result, "kg/L") {
		return 1000 * lastDigit(result)
	}
	if g.within == 0 {
		_, decimals, _ := strings.Cut(leadingNumber.FindString(result), ".")
		return 0.65 * math.Pow(10, -float64(len(decimals)))
	}
	size := math.Max(math.Abs(want), g.least)
	if beside, ok := a.number(g.of); ok {
		size = math.Max(size, math.Abs(beside))
	}
	return g.within * size
}

// lastStep is the place of the last step that works something out; -1 for none.
func lastStep(steps []workedStep, what string) int {
	pattern := regexp.MustCompile("^(" + what + ")")
	for i := len(steps) - 1; i >= 0; i-- {
		if pattern.MatchString(steps[i].What) {
			return i
		}
	}
	return -1
}

// inUnitOf turns a density of a working, which is multiplied with liters, into that of a figure.
func inUnitOf(x float64, result, unit string) float64 {
	if unit == "kg/m3" && strings.HasSuffix(result, "kg/L") {
		return 1000 * x
	}
	return x
}
