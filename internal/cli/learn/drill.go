package learn

import (
	"strconv"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/drill"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
)

var drillCommand = run.Command{
	Use:   "drill [TOPIC]",
	Short: "Practice problems from the yard's own numbers",
	Long: "drill asks, and takes an answer with its unit. It says whether that is right, or\n" +
		"how far off. It names the mistake that leads to a wrong answer. Then it shows\n" +
		"the working. Topics are\n" +
		words.Joined(drill.Topics(), "none") + ". A line of ?\n" +
		"shows the way, skip shows the answer. An empty line or quit ends it.",
	Example: "  brineyard drill strong --level 2 --seed 7\n" +
		"  brineyard drill --print 10 --seed 7 --key",
	Args: oneTopic,
	New:  func() run.Question { return &practice{request: drill.Request{Level: drill.Lowest}, count: 5} },
}

// oneTopic takes at most one word.
func oneTopic(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return fault.Refuse("unexpected word %s; allowed: one topic", words.Quoted(args[1]))
	}
	return nil
}

// practice asks for problems, on a sheet or one after another.
type practice struct {
	request drill.Request
	seed    seed
	count   int // of problems to ask
	sheet   int // problems on a sheet; 0 to ask instead
	key     bool
}

// seed is a flag that takes a whole number, to have the same problems again.
type seed struct {
	number uint64
	given  bool
}

// Set reads the number.
func (n *seed) Set(text string) error {
	x, err := strconv.ParseUint(text, 10, 32)
	if err != nil {
		return fault.Refuse("not the number of a set of problems; allowed: 0 to 4294967295")
	}
	n.number, n.given = x, true
	return nil
}

// String returns the number in force.
func (n *seed) String() string {
	if !n.given {
		return ""
	}
	return strconv.FormatUint(n.number, 10)
}

// Type names the kind of value in help.
func (n *seed) Type() string { return "number" }

// Bind binds the request.
func (q *practice) Bind(b *bind.Set) {
	const what = "whole number of them"
	bind.Count(b, &q.request.Level, "level", "1: round numbers; 2: temperature and the salt's quality; 3: two ideas at once", what)
	b.Flags().Var(&q.seed, "seed", "which problems; a new set unless given")
	bind.Count(b, &q.count, "count", "how many to ask", what)
	bind.Count(b, &q.sheet, "print", "print so many problems as a sheet instead of asking", what)
	bind.Switch(b, &q.key, "key", "with --print: the answers")
	b.SaysOf(drill.FieldLevel, func() string { return "--level " + strconv.Itoa(q.request.Level) })
	topic := "--" + drill.FieldTopic
	b.Then(func(s *bind.Scope) error {
		if len(s.Args) == 1 {
			q.request.Topic, topic = drill.Topic(strings.ToLower(s.Args[0])), words.Quoted(s.Args[0])
		}
		return nil
	})
	b.SaysOf(drill.FieldTopic, func() string { return topic })
	b.Then(func(s *bind.Scope) error {
		q.request.System, q.request.Shop, q.request.Seed = s.System, shopOf(s.Standing()), q.seed.number
		if !q.seed.given {
			q.request.Seed = uint64(s.Now().UnixNano()) % 100000
		}
		if q.key && q.sheet == 0 {
			return fault.Refuse("--key: goes with a sheet; allowed: with --print, like --print 10")
		}
		return nil
	})
}

// Answer prints a sheet, or asks.
func (q *practice) Answer(s *run.Session) (run.Reply, error) {
	switch format := s.Globals.Format.Name; {
	case q.sheet > 0:
		return q.print(s)
	case format != report.Formats()[0].Name:
		return run.Reply{}, fault.Refuse("--format %s: questions are asked as text; allowed: with --print, like --print 10", format)
	}
	return run.Reply{}, q.ask(s)
}

// shopOf gathers the yard's numbers for problems; none without a yard file.
func shopOf(y *yard.Yard) drill.Shop {
	if y == nil {
		return drill.Shop{}
	}
	glass, _ := y.UsualGlass(gauge.PercentSalt)
	return drill.Shop{
		Glass: glass.Name, Division: glass.Division, Band: y.Band(), RockSalt: y.RockSalt(), Bucket: y.Pile.Bucket,
		PumpFlow: y.Pump.Flow, Calibration: y.Calibration, Plumbing: y.Plumbing,
		Tanks: y.Tanks, Liquids: y.Liquids, Trucks: y.Trucks,
	}
}
