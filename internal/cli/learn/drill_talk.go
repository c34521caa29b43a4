package learn

import (
	"bufio"
	"errors"
	"fmt"
	"math"
	"strings"

	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/drill"
	"brineyard/internal/fault"
	"brineyard/internal/report"
	"brineyard/internal/words"
)

// talk asks problems one after another and keeps the score.
type talk struct {
	*run.Session
	in           *bufio.Scanner
	right, asked int
	skipped      int
}

// ask asks the problems of a set, until they or the answers end.
func (q *practice) ask(s *run.Session) error {
	t := &talk{Session: s, in: bufio.NewScanner(s.Env.In)}
	set := drill.NewSet(q.request)
	for i := range q.count {
		p, err := set.Next()
		if err != nil {
			return err
		}
		if i == 0 {
			t.say("Set %d, level %d. %s", q.request.Seed, q.request.Level, howToAnswer)
		}
		t.say("")
		t.say("%d. %s", i+1, questionText(p))
		v, said, err := t.hear(p)
		switch said {
		case ended:
			t.score()
			return err
		case skipped:
			t.skipped++
			err = t.close(p, "Skipped. It is "+rightAnswer(p)+".", true)
		case answered:
			err = t.judge(p, v)
		}
		if err != nil {
			return err
		}
	}
	t.score()
	return nil
}

// howToAnswer is what a line may be.
const howToAnswer = "Answer with a number and its unit, or the word. ? shows the way, skip the answer; quit or an empty line ends it."

// A said is what was made of a problem.
type said int

const (
	answered said = iota
	skipped
	ended
)

// hear reads lines until one is an answer, or leaves the problem.
func (t *talk) hear(p drill.Problem) (drill.Verdict, said, error) {
	for {
		fmt.Fprint(t.Env.Out, "> ")
		if !t.in.Scan() {
			t.say("")
			return drill.Verdict{}, ended, t.in.Err()
		}
		switch strings.ToLower(strings.TrimSpace(t.in.Text())) {
		case "", "quit":
			t.say("")
			return drill.Verdict{}, ended, nil
		case "skip":
			return drill.Verdict{}, skipped, nil
		case "?":
			t.way(p)
			continue
		}
		v, err := p.Judge(t.in.Text())
		if err == nil {
			return v, answered, nil
		}
		t.say("%s", words.OneLine(t.noAnswer(err)))
	}
}

// way says in what steps a problem is worked, without the sums.
func (t *talk) way(p drill.Problem) {
	for i, step := range workingOf(t.View, p) {
		if step.Formula != "" { // without one it is what is found
			t.say("%d. %s: %s", i+1, step.What, step.Formula)
		}
	}
	t.say("%s", howToAnswer)
}

// noAnswer tells why a line is no answer to the problem.
func (t *talk) noAnswer(err error) string {
	var input *fault.InputError
	if !errors.As(err, &input) {
		return err.Error()
	}
	return words.Quoted(t.in.Text()) + ": " + fault.Sentence(input.Reason, input.Args, t.View.System)
}

// judge says right or how far off, and shows the working where it was wrong or asked for.
func (t *talk) judge(p drill.Problem, v drill.Verdict) error {
	t.asked++
	right := rightAnswer(p)
	verdict := "Right: " + right + "."
	if v.Right {
		t.right++
	} else {
		verdict = "Not right: " + farOff(t.View, p, v) + ". It is " + right + "."
		if m := v.Mistake; m != nil {
			verdict += " Your answer is what this gives: " + m.Name + ". " + m.Explain
		}
	}
	return t.close(p, verdict, !v.Right || t.Globals.Working)
}

// close ends a problem: the working, and then the verdict, which stays on the screen.
func (t *talk) close(p drill.Problem, verdict string, working bool) error {
	if working {
		if err := report.Text(t.Env.Out, &report.Document{Working: workingOf(t.View, p)}); err != nil {
			return err
		}
		t.say("")
	}
	return report.Text(t.Env.Out, &report.Document{Verdict: verdict})
}

func (t *talk) score() {
	if t.skipped > 0 {
		t.say("%d of %d right, %d skipped.", t.right, t.asked, t.skipped)
		return
	}
	t.say("%d of %d right.", t.right, t.asked)
}

// say writes a line that is wrapped to the terminal. It drops a write error because the next
// judgement meets the same error and returns it.
func (t *talk) say(format string, args ...any) {
	_ = report.Text(t.Env.Out, &report.Document{Verdict: fmt.Sprintf(format, args...)})
}

// questionText is the text of a problem, with the words to choose from.
func questionText(p drill.Problem) string {
	text := p.Text()
	if len(p.Answer.Words) > 0 {
		text += " (" + strings.Join(p.Answer.Words, ", ") + ")"
	}
	return text
}

// rightAnswer shows the answer as closely as it is judged: four digits, where a weight as
// it is loaded would be rounded to buckets.
func rightAnswer(p drill.Problem) string {
	shown := p.Answer.Value.In(p.System)
	if p.Answer.Kind == drill.KindWord || p.Answer.Kind == drill.KindStrength {
		return shown.String()
	}
	decimals := max(0, 3-int(math.Floor(math.Log10(math.Abs(shown.Value)))))
	return shown.Fixed(shown.Value, decimals) + " " + shown.Unit
}

// farOff tells the difference in the unit in which the answer is judged.
func farOff(view show.View, p drill.Problem, v drill.Verdict) string {
	way := "too much"
	if v.Off < 0 {
		way = "too little"
	}
	switch p.Answer.Kind {
	case drill.KindWord:
		return view.Say("it is not %v", v.Given)
	case drill.KindStrength:
		return fmt.Sprintf("%.2f percentage points %s", 100*math.Abs(v.Off), way)
	}
	return fmt.Sprintf("%.3g %% %s", 100*math.Abs(v.Off), way)
}
