package cli

import (
	"bufio"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/derive"
	"brineyard/internal/drill"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

type drillOptions struct {
	level, count, sheet whole
	seed                seed
	key                 bool
}

// seed is a flag that takes a whole number, to have the same problems again.
type seed struct {
	value uint64
	given bool
}

// Set reads the number.
func (n *seed) Set(text string) error {
	x, err := strconv.ParseUint(text, 10, 32)
	if err != nil {
		return allowed("not the number of a set of problems", []string{"0 to 4294967295"})
	}
	n.value, n.given = x, true
	return nil
}

// String returns the number in force.
func (n *seed) String() string {
	if !n.given {
		return ""
	}
	return strconv.FormatUint(n.value, 10)
}

// Type names the kind of value in help.
func (n *seed) Type() string { return "number" }

func newDrill(env *Env, g *globals) *cobra.Command {
	o := &drillOptions{level: whole{1}, count: whole{5}}
	var topics []string
	for _, t := range drill.Topics() {
		topics = append(topics, string(t))
	}
	cmd := &cobra.Command{
		Use:   "drill [TOPIC]",
		Short: "Practice problems from the yard's own numbers",
		Long: "drill asks, takes an answer with its unit, and says whether it is right, how far\n" +
			"off it is, and which mistake leads to it; then it shows the working. Topics are\n" +
			strings.Join(topics, ", ") + ". An empty line or\n" +
			"the end of the input ends it.",
		Example: "  brineyard drill strong --level 2 --seed 7\n" +
			"  brineyard drill --print 10 --seed 7 --key",
		Args: oneTopic,
		RunE: func(_ *cobra.Command, args []string) error { return runDrill(env, g, o, args) },
	}
	f := cmd.Flags()
	f.Var(&o.level, "level", "1: round numbers; 2: temperature and the salt's quality; 3: two ideas at once")
	f.Var(&o.seed, "seed", "which problems; a new set unless given")
	f.Var(&o.count, "count", "how many to ask")
	f.Var(&o.sheet, "print", "print so many problems as a sheet instead of asking")
	f.BoolVar(&o.key, "key", false, "with --print: the answers")
	return cmd
}

// oneTopic takes at most one word.
func oneTopic(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return usagef("unexpected word %s; allowed: one topic", words.Quoted(args[1]))
	}
	return nil
}

func runDrill(env *Env, g *globals, o *drillOptions, args []string) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	r := drill.Request{Level: o.level.value, System: s.system, Shop: s.drillShop(), Seed: o.seed.value}
	s.origin[drill.FieldLevel] = said("--level " + itoa(o.level.value))
	if len(args) == 1 {
		r.Topic = drill.Topic(strings.ToLower(args[0]))
		s.origin[drill.FieldTopic] = said(words.Quoted(args[0]))
	}
	if !o.seed.given {
		r.Seed = uint64(env.Now().UnixNano()) % 100000
	}
	switch {
	case o.key && o.sheet.value == 0:
		return usagef("--key: goes with a sheet; allowed: with --print, like --print 10")
	case o.sheet.value > 0:
		return s.printDrill(r, o)
	case g.Format.Name != report.Formats[0].Name:
		return usagef("--format %s: questions are asked as text; allowed: with --print, like --print 10", g.Format.Name)
	}
	return s.askDrill(r, o.count.value)
}

// problem is the next of a set.
func (s *setting) problem(set *drill.Set) (drill.Problem, error) {
	p, err := set.Next()
	if err != nil {
		return p, s.inputError(err)
	}
	return p, nil
}

// problemText is the text, with the words to choose from.
func problemText(p drill.Problem) string {
	text := p.Text()
	if len(p.Answer.Words) > 0 {
		text += " (" + strings.Join(p.Answer.Words, ", ") + ")"
	}
	return text
}

// askDrill asks, judges and keeps the score.
func (s *setting) askDrill(r drill.Request, count int) error {
	set := drill.NewSet(r)
	p, err := s.problem(set)
	if err != nil {
		return err
	}
	in := bufio.NewScanner(s.env.In)
	s.say("Set %d, level %d. Answer with a number and its unit, or the word; an empty line ends it.", r.Seed, r.Level)
	right, asked := 0, 0
	for i := range count {
		if i > 0 {
			if p, err = s.problem(set); err != nil {
				return err
			}
		}
		s.say("")
		s.say("%d. %s", i+1, problemText(p))
		v, ok, err := s.answerTo(p, in)
		if err != nil || !ok {
			return errors.Join(err, s.score(right, asked))
		}
		asked++
		if v.Right {
			right++
		}
		if err := s.judged(p, v); err != nil {
			return err
		}
	}
	return s.score(right, asked)
}

// answerTo reads lines until one is an answer; false at the end.
func (s *setting) answerTo(p drill.Problem, in *bufio.Scanner) (drill.Verdict, bool, error) {
	for {
		fmt.Fprint(s.env.Out, "> ")
		if !in.Scan() || strings.TrimSpace(in.Text()) == "" {
			s.say("")
			return drill.Verdict{}, false, in.Err()
		}
		v, err := p.Judge(in.Text())
		if err == nil {
			return v, true, nil
		}
		s.origin[drill.FieldAnswer] = said(words.Quoted(in.Text()))
		s.say("%s", words.OneLine(s.inputError(err).Error()))
	}
}

// say writes a line that is wrapped to the terminal.
func (s *setting) say(format string, args ...any) {
	report.Text(s.env.Out, &report.Document{Verdict: fmt.Sprintf(format, args...)})
}

func (s *setting) score(right, asked int) error {
	s.say("%d of %d right.", right, asked)
	return nil
}

// judged says right or how far off, and shows the working where it was wrong or asked
// for.
func (s *setting) judged(p drill.Problem, v drill.Verdict) error {
	d := &report.Document{Verdict: s.show("Right: %s.", s.rightAnswer(p))}
	if !v.Right {
		d.Verdict = s.show("Not right: %s. It is %s.", s.farOff(p, v), s.rightAnswer(p))
		if m := v.Mistake; m != nil {
			d.Verdict += " Your answer is what this gives: " + m.Name + ". " + m.Explain
		}
	}
	if !v.Right || s.globals.Working {
		d.Working = s.drillWorking(p)
	}
	return report.Text(s.env.Out, d)
}

// rightAnswer shows the answer as closely as it is judged: four digits, where a weight as
// it is loaded would be rounded to buckets.
func (s *setting) rightAnswer(p drill.Problem) string {
	shown := p.Answer.Value.In(s.system)
	if p.Answer.Kind == drill.KindWord || p.Answer.Kind == drill.KindStrength {
		return shown.String()
	}
	decimals := max(0, 3-int(math.Floor(math.Log10(math.Abs(shown.Value)))))
	return quantity.Fixed(shown.Value, decimals) + " " + shown.Unit
}

// farOff tells the difference in the sense of the answer.
func (s *setting) farOff(p drill.Problem, v drill.Verdict) string {
	way := "too much"
	if v.Off < 0 {
		way = "too little"
	}
	switch p.Answer.Kind {
	case drill.KindWord:
		return fmt.Sprintf("it is not %v", v.Given.In(s.system))
	case drill.KindStrength:
		return fmt.Sprintf("%.2f percentage points %s", 100*math.Abs(v.Off), way)
	}
	return fmt.Sprintf("%.3g %% %s", 100*math.Abs(v.Off), way)
}

// printDrill makes a sheet, with its answers if asked for.
func (s *setting) printDrill(r drill.Request, o *drillOptions) error {
	problems := report.Table{Key: "problems", Title: "Problems", Columns: []report.Column{{Key: "number", Label: "No."}, {Key: "topic", Label: "Topic"}, {Key: "question", Label: "Question"}}}
	answers := report.Table{Key: "answers", Title: "Answers", Columns: []report.Column{{Key: "number", Label: "No."}, {Key: "answer", Label: "Answer"}}}
	set, working := drill.NewSet(r), []report.Step(nil)
	for i := range o.sheet.value {
		p, err := s.problem(set)
		if err != nil {
			return err
		}
		problems.Rows = append(problems.Rows, []report.Value{numberValue(i + 1), report.Word(string(p.Topic)), report.Word(problemText(p))})
		answer := report.Word(s.rightAnswer(p))
		answers.Rows = append(answers.Rows, []report.Value{numberValue(i + 1), answer})
		if !o.key || !s.globals.Working {
			continue
		}
		for _, step := range s.drillWorking(p) {
			step.What = "Problem " + itoa(i+1) + ". " + step.What
			working = append(working, step)
		}
	}
	d := &report.Document{
		Command: "drill", Title: "Practice problems",
		Verdict: fmt.Sprintf("Set %d, level %d. A pocket calculator will do.", r.Seed, r.Level),
		Tables:  []report.Table{problems},
	}
	if o.key {
		d.Verdict = fmt.Sprintf("Answers to set %d, level %d; right within 1 %%, a strength within 0.1.", r.Seed, r.Level)
		d.Tables, d.Working = []report.Table{answers}, working
	}
	return s.write(d)
}

// drillShop gathers the yard's numbers for problems.
func (s *setting) drillShop() drill.Shop {
	if s.yard == nil {
		return drill.Shop{}
	}
	y := s.yard
	return drill.Shop{
		Band: y.Band(), RockSalt: y.RockSalt(), Bucket: y.Pile.Bucket,
		PumpFlow: y.Pump.Flow, Calibration: y.Calibration, Plumbing: y.Plumbing,
		Tanks: y.Tanks, Liquids: y.Liquids, Trucks: y.Trucks,
	}
}

// inParts gives a blend of volumes in numbers of the user's unit, as the question has it.
func (s *setting) inParts(r brine.BlendRequest) brine.BlendRequest {
	parts := slices.Clone(r.Parts)
	for i := range parts {
		if !r.ByWeight {
			parts[i].Amount = quantity.Volume(parts[i].Amount).In(s.system).Value
		}
	}
	r.Parts = parts
	return r
}

// drillWorking is the working of the command that answers the same question.
func (s *setting) drillWorking(p drill.Problem) []report.Step {
	w := p.Working
	var steps []report.Step
	if w.GlassResult != nil {
		steps = derive.Reading(s.view(), w.GlassResult.Sample)
	}
	return append(append(steps, s.calculated(w)...), s.closing(w.Closing)...)
}

// calculated is the working of a calculator's result.
func (s *setting) calculated(w drill.Working) []report.Step {
	switch {
	case w.Correction != nil:
		return derive.Correct(s.view(), *w.Correct, *w.Correction)
	case w.CheckResult != nil:
		return append(derive.Reading(s.view(), w.Check.Sample), derive.Correct(s.view(), w.Check.Correction(*w.CheckResult), w.CheckResult.Correction)...)
	case w.BatchResult != nil:
		return derive.Batch(s.view(), *w.Batch, *w.BatchResult)
	case w.BlendResult != nil:
		return derive.Blend(s.view(), s.inParts(*w.Blend), *w.BlendResult)
	case w.TruckResult != nil:
		return derive.Truck(s.view(), *w.Truck, *w.TruckResult)
	case w.LineupSetting != nil:
		d := s.judgeDocument(w.Lineup.Plumbing, *w.LineupSetting)
		steps := []report.Step{{What: "Open: " + strings.Join(w.LineupSetting.Open, ", ")}, {What: d.Verdict}}
		for _, note := range d.Notes {
			steps = append(steps, report.Step{What: note})
		}
		return steps
	}
	return nil
}

// closing is the way from a calculator's figures to what a problem asks for.
func (s *setting) closing(closing []drill.Closing) []report.Step {
	p := &pocket{system: s.system}
	for _, c := range closing {
		numbers := c.Numbers
		for _, q := range c.Args {
			numbers = strings.Replace(numbers, "{}", p.as(q).text(), 1)
		}
		p.steps = append(p.steps, report.Step{What: c.What, Formula: c.Formula, Numbers: numbers, Result: p.as(c.Result).text()})
	}
	return p.steps
}
