package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// drilled answers a set from standard input.
func drilled(t *testing.T, answers []string, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	env := System()
	env.In, env.Out, env.Err = strings.NewReader(strings.Join(answers, "\n")+"\n"), &stdout, &stderr
	env.Getenv = func(string) string { return "" }
	require.Zero(t, Run(env, append([]string{"drill", "--yard", demoYard}, args...)), "%s", stderr.String())
	return stdout.String()
}

// The printed key, typed in, is right for every problem of its set; an answer 3 % off is
// not.
func TestDrillAcceptsItsKey(t *testing.T) {
	for _, system := range []string{"us", "metric"} {
		for level := 1; level <= 3; level++ {
			set := []string{"--seed", strconv.Itoa(40 * level), "--level", strconv.Itoa(level), "--units", system}
			var d struct {
				Tables struct {
					Answers []struct{ Answer struct{ Value string } }
				}
			}
			out := answer(t, append([]string{"drill", "--yard", demoYard, "--print", "25", "--key", "--format", "json"}, set...)...)
			require.NoError(t, json.Unmarshal([]byte(out), &d))
			require.Len(t, d.Tables.Answers, 25)
			var right, off []string
			numbers := 0
			for _, a := range d.Tables.Answers {
				text := strings.ReplaceAll(a.Answer.Value, ",", "")
				right = append(right, text)
				number, unit, _ := strings.Cut(text, " ")
				x, err := strconv.ParseFloat(number, 64)
				if err != nil { // a word, or a strength with its sign
					off = append(off, text)
					continue
				}
				numbers++
				off = append(off, fmt.Sprintf("%.6g%s", 1.03*x, unit))
			}
			require.Contains(t, drilled(t, right, append(set, "--count", "25")...), "25 of 25 right.", "%v", set)
			require.Contains(t, drilled(t, off, append(set, "--count", "25")...), fmt.Sprintf("%d of 25 right.", 25-numbers), "%v", set)
			require.Greater(t, numbers, 5)
		}
	}
}

// A wrong answer is told how far off it is and shown the working; an empty line ends.
func TestDrillTalk(t *testing.T) {
	out := drilled(t, []string{"much", "1lb", ""}, "weak", "--seed", "3")
	require.Contains(t, out, `"much": not a weight`)
	require.Contains(t, out, "too little. It is")
	require.Contains(t, out, "Working")
	require.Contains(t, out, "0 of 1 right.")
	for _, line := range strings.Split(out, "\n") {
		require.LessOrEqual(t, len(line), 80, line)
	}
}

// A step of each working comes to the printed answer, within what a pocket calculator
// rounds.
func TestDrillWorkingReachesTheAnswer(t *testing.T) {
	for _, system := range []string{"us", "metric"} {
		for level := 1; level <= 3; level++ {
			about := fmt.Sprintf("--seed %d --level %d --units %s", 900+level, level, system)
			out := answer(t, strings.Fields("drill --yard "+demoYard+" --print 60 --key --working --format json "+about)...)
			var d struct {
				Tables struct {
					Answers []struct{ Answer struct{ Value string } }
				}
				Working []struct{ What, Result string }
			}
			require.NoError(t, json.Unmarshal([]byte(out), &d))
			numbers := 0
			for i, a := range d.Tables.Answers {
				want, unit, ok := shownAmount(a.Answer.Value)
				if !ok {
					continue
				}
				numbers++
				reached := false
				for _, step := range d.Working {
					got, of, ok := shownAmount(step.Result)
					mine := strings.HasPrefix(step.What, fmt.Sprintf("Problem %d. ", i+1))
					reached = reached || mine && ok && of == unit && math.Abs(got-want) <= 0.0006*want
				}
				require.True(t, reached, "%s: problem %d comes to %s", about, i+1, a.Answer.Value)
			}
			require.Greater(t, numbers, 30)
		}
	}
}

// shownAmount splits a shown quantity.
func shownAmount(text string) (float64, string, bool) {
	text = strings.ReplaceAll(text, ",", "")
	end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.-", r) })
	if end < 0 {
		return 0, "", false
	}
	x, err := strconv.ParseFloat(text[:end], 64)
	return x, strings.TrimSpace(text[end:]), err == nil
}

// No problem comes twice in a sheet.
func TestDrillSheetHasNoRepeats(t *testing.T) {
	for seed := 1; seed <= 12; seed++ {
		out := answer(t, strings.Fields(fmt.Sprintf("drill --yard %s --print 12 --level 1 --seed %d --format json", demoYard, seed))...)
		var d struct {
			Tables struct {
				Problems []struct{ Question struct{ Value string } }
			}
		}
		require.NoError(t, json.Unmarshal([]byte(out), &d))
		seen := map[string]bool{}
		for _, p := range d.Tables.Problems {
			require.False(t, seen[p.Question.Value], "seed %d: %s", seed, p.Question.Value)
			seen[p.Question.Value] = true
		}
		require.Len(t, seen, 12)
	}
}
