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
			t.say("Set %d, level %d. Answer with a number and its unit, or the word; an empty line ends it.", q.request.Seed, q.request.Level)
		}
		t.say("")
		t.say("%d. %s", i+1, questionText(p))
		v, answered, err := t.hear(p)
		if !answered {
			t.score()
			return err
		}
		if err := t.judge(p, v); err != nil {
			return err
		}
	}
	t.score()
	return nil
}

// hear reads lines until one is an answer; false at the end.
func (t *talk) hear(p drill.Problem) (drill.Verdict, bool, error) {
	for {
		fmt.Fprint(t.Env.Out, "> ")
		if !t.in.Scan() || strings.TrimSpace(t.in.Text()) == "" {
			t.say("")
			return drill.Verdict{}, false, t.in.Err()
		}
		v, err := p.Judge(t.in.Text())
		if err == nil {
			return v, true, nil
		}
		t.say("%s", words.OneLine(t.noAnswer(err)))
	}
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
	d := &report.Document{Verdict: "Right: " + right + "."}
	if v.Right {
		t.right++
	} else {
		d.Verdict = "Not right: " + farOff(t.View, p, v) + ". It is " + right + "."
		if m := v.Mistake; m != nil {
			d.Verdict += " Your answer is what this gives: " + m.Name + ". " + m.Explain
		}
	}
	if !v.Right || t.Globals.Working {
		d.Working = workingOf(t.View, p)
	}
	return report.Text(t.Env.Out, d)
}

func (t *talk) score() { t.say("%d of %d right.", t.right, t.asked) }

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
