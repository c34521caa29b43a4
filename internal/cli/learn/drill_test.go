package learn

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"brineyard/internal/cli/run"
	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// demoYard is the yard file of the demo.
var demoYard = filepath.Join("..", "..", "..", "testdata", "yard", "thistlewick.toml")

// ask runs drill on the demo's yard, with text on standard input, at a moment of which the
// last digits are 34567.
func ask(in string, args ...string) (string, error) {
	var out bytes.Buffer
	env := run.System()
	env.In, env.Out = strings.NewReader(in), &out
	env.Getenv = func(string) string { return "" }
	env.Now = func() time.Time { return time.Unix(0, 1234567) }
	g := &run.Globals{}
	cmd := drillCommand.Cobra(&env, g)
	g.Bind(cmd.PersistentFlags())
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	cmd.SetArgs(append([]string{"--yard", demoYard}, args...))
	err := cmd.Execute()
	return out.String(), err
}

// drilled returns what drill shows for answers.
func drilled(t *testing.T, answers []string, args ...string) string {
	t.Helper()
	out, err := ask(strings.Join(answers, "\n")+"\n", args...)
	require.NoError(t, err)
	return out
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
			out := drilled(t, nil, append([]string{"--print", "25", "--key", "--format", "json"}, set...)...)
			require.NoError(t, json.Unmarshal([]byte(out), &d))
			require.Len(t, d.Tables.Answers, 25)
			var right, off []string
			numbers := 0
			for _, a := range d.Tables.Answers {
				text := quantity.Plain(a.Answer.Value)
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

// The working of a problem about valves says what is open and what that does.
func TestDrillOfValves(t *testing.T) {
	out := drilled(t, nil, strings.Fields("valves --seed 4 --print 6 --key --working --level 1 --format csv")...)
	require.Regexp(t, `(?m)^working,"?Problem 1\. Open: `, out)
	require.Regexp(t, `(?m)^working,"?Problem \d\. (Good to|Do not) pump: `, out)
}

// The working of a blend goes on from the volumes in the question, in its unit.
func TestDrillOfBlends(t *testing.T) {
	for _, system := range []string{"us", "metric"} {
		set := strings.Fields("blend --seed 5 --print 1 --level 1 --format csv --units " + system)
		question := regexp.MustCompile(`([0-9, ]*[0-9]) (?:gal|L) of brine`).FindStringSubmatch(drilled(t, nil, set...))
		require.NotNil(t, question)
		require.Contains(t, drilled(t, nil, append(set, "--key", "--working")...), "parts x density: "+quantity.Plain(strings.TrimSpace(question[1]))+" x ")
	}
}

// What is typed on the command line is named in a refusal, a topic as it was typed; without
// a seed the clock gives one.
func TestDrillRequest(t *testing.T) {
	for line, want := range map[string]string{
		"Beer":                        `"Beer": no such topic`,
		"--level 4":                   "--level 4: no such level",
		"--key":                       "--key: goes with a sheet",
		"--print 2":                   "",
		"--format json":               "--format json: questions are asked as text",
		"--key --format json WEAK":    "--key: goes with a sheet",
		"--level 4 Beer --format csv": "--format csv",
	} {
		out, err := ask("", strings.Fields(line)...)
		if want == "" {
			require.NoError(t, err, line)
			require.Contains(t, out, "Set 34567, level 1.", line)
			continue
		}
		require.ErrorContains(t, err, want, line)
		require.Empty(t, out, line)
	}
}

// A step of each working comes to the printed answer, within what a pocket calculator
// rounds.
func TestDrillWorkingReachesTheAnswer(t *testing.T) {
	for _, system := range []string{"us", "metric"} {
		for level := 1; level <= 3; level++ {
			about := fmt.Sprintf("--seed %d --level %d --units %s", 900+level, level, system)
			out := drilled(t, nil, strings.Fields("--print 60 --key --working --format json "+about)...)
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
	text = quantity.Plain(text)
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
		out := drilled(t, nil, strings.Fields(fmt.Sprintf("--print 12 --level 1 --seed %d --format json", seed))...)
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

// The way to an answer does not hold the answer; an answer that was skipped is shown.
func TestDrillWayKeepsTheAnswer(t *testing.T) {
	numbers := 0
	for level := 1; level <= 3; level++ {
		for seed := range 25 {
			out := drilled(t, []string{"?", "SKIP", "quit"}, "--seed", strconv.Itoa(seed), "--level", strconv.Itoa(level), "--count", "2")
			before, after, found := strings.Cut(out, "\nSkipped. It is ")
			require.True(t, found, out)
			before, _, found = strings.Cut(before, "\n\nWorking\n")
			require.True(t, found, out)
			require.Contains(t, after, "0 of 0 right, 1 skipped.")
			answer, _, _ := strings.Cut(after, ".\n")
			_, way, found := strings.Cut(before, "> ")
			require.True(t, found, out)
			if strings.ContainsAny(answer, "0123456789") {
				numbers++
				require.NotContains(t, way, answer)
			}
		}
	}
	require.Greater(t, numbers, 30)
}

// A reading is worked with the rule that the question gives, and the verdict is the last that a
// screen shows before the next problem.
func TestDrillWorkingIsOfAHand(t *testing.T) {
	rule := regexp.MustCompile(`shows ([0-9.]+)% in it at ([0-9.]+) F\. In such brine it shows ([0-9.]+)% too (much|little) for every 10 F`)
	for seed := range 20 {
		out := drilled(t, []string{"1%"}, "reading", "--level", "2", "--seed", strconv.Itoa(seed), "--count", "1")
		m := rule.FindStringSubmatch(strings.Join(strings.Fields(out), " "))
		require.NotNil(t, m, out)
		number := func(text string) float64 {
			x, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			return x
		}
		want := number(m[1]) - number(m[3])*(60-number(m[2]))/10
		by := regexp.MustCompile(`True strength, by hand\n.*\n.* = ([0-9.]+)%`).FindStringSubmatch(out)
		require.NotNil(t, by, out)
		require.InDelta(t, want, number(by[1]), 1e-3, out)
		_, after, found := strings.Cut(out, "Working\n")
		require.True(t, found)
		require.Contains(t, after, "\nNot right: ")
		require.NotContains(t, out, "Laliberte")
	}
}
