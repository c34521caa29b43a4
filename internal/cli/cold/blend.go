package cold

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

var blendCommand = run.Command{
	Screen: true,
	Use:    "blend SHARE:LIQUID ...",
	Short:  "What a mix becomes, and the share or base for a temperature",
	Long: "blend tells what a mix of liquids becomes. It says when ice forms in it and\n" +
		"when salt falls out. A liquid is brine, nacl, cacl2, mgcl2 or kcl with its\n" +
		"strength. It may be water, or a liquid of the yard file by name. --ice-at\n" +
		"finds the share of the last part for an ice point. --keep-clear finds how\n" +
		"strong the first part may be before salt falls out.",
	Example: "  brineyard blend 80:brine@23.3% 20:cacl2@32%\n" +
		"  brineyard blend 80:brine@23.3% 20:cacl2@32% --keep-clear 0F --volume 1000gal",
	New:  func() run.Question { return &blend{} },
	Rows: true,
}

type blend struct {
	request          brine.BlendRequest
	into             baseTank
	iceAt, keepClear *quantity.Temperature // nil where not asked
	record           run.Record
}

// Bind binds the request.
func (q *blend) Bind(b *bind.Set) {
	r := &q.request
	bind.OneOf(b, &r.ByWeight, "by", "shares by volume or weight", "volume",
		bind.Option[bool]{Word: "volume", Means: false}, bind.Option[bool]{Word: "weight", Means: true})
	b.Says(fault.FieldParts, "the parts")
	b.Says(fault.FieldLiquid, "the blend")
	q.record.Bind(b, func(*bind.Scope) bool { return q.into.given() }, "with --additive-into and a tank of the yard file")
	b.Then(q.readParts)
	q.into.bind(b, &r.Parts)
	var volume *bind.Value[quantity.Volume]
	var keepClear *bind.Value[quantity.Temperature]
	b.Then(func(*bind.Scope) error {
		switch {
		case q.into.given() && keepClear.Given():
			return fault.Refuse("%s and %s: what stands in the tank has its strength; allowed: one of them", q.into.said(), keepClear.Said())
		case q.into.given() && volume.Given():
			return fault.Refuse("%s and %s: the tank sets the volume; allowed: one of them", q.into.said(), volume.Said())
		case len(r.Parts) == 0:
			return bind.LackOfWords(fault.Refuse("no parts; allowed: two or more, like 80:brine@23.3%% 20:cacl2@32%%"),
				"Which parts? e.g. 80:brine@23.3% 20:cacl2@32%", "")
		}
		return nil
	})
	volume = bind.Of(b, bind.Volume, &r.Volume, "volume", "blend wanted, for the amounts to meter")
	volume.NotZero(b, "no blend", "above 0")
	bind.Of(b, bind.Temperature, &r.Temperature, "temp", "temperature of the parts; 60F unless given", bind.Default(quantity.Fahrenheit(60)))
	bind.Glass(b, &r.Instrument)
	bindGoal(b, &q.iceAt, "ice-at", "find the share of the last part that has this ice point")
	keepClear = bindGoal(b, &q.keepClear, "keep-clear", "find the strength of the first part at which no salt falls out down to this temperature")
}

// readParts reads the words without a flag.
func (q *blend) readParts(s *bind.Scope) error {
	q.request.Parts = nil
	for _, text := range s.Args {
		p, err := s.Part(text)
		if err != nil {
			return err
		}
		q.request.Parts = append(q.request.Parts, p)
	}
	return nil
}

// bindGoal binds a temperature that the blend is to meet.
func bindGoal(b *bind.Set, to **quantity.Temperature, name, usage string) *bind.Value[quantity.Temperature] {
	goal := bind.Optional(b, bind.Temperature, to, name, usage)
	b.Then(func(*bind.Scope) error {
		t := float64(goal.Typed())
		return fault.If(goal.Given() && !(t >= solution.Floor && t <= solution.FitCeiling), name,
			"outside the model; allowed: %v to %v", quantity.Temperature(solution.Floor), quantity.Temperature(solution.FitCeiling))
	})
	return goal
}

// Answer mixes the parts, and finds the share or the base that was asked for.
func (q *blend) Answer(s *run.Session) (run.Reply, error) {
	m, err := q.mix()
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: m.figures(s.View),
		Words: func(d *report.Document) {
			m.words(s.View, d)
		},
		Working: func() []report.Step { return derive.Blend(s.View, m.request, m.made) },
		Record:  &q.record, Entries: m.entries(),
	}, nil
}
