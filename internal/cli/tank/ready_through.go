package tank

import (
	"cmp"
	"fmt"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/level"
	"brineyard/internal/quantity"
	"brineyard/internal/ready"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// through asks for water that runs once through a bed.
type through struct {
	request ready.ThroughRequest
	flow    *bind.Value[quantity.Flow]
	bed     *bind.Value[quantity.Mass]
	salt    quantity.Mass
	entries int // of the journal that tell of the bed
}

func (t *through) given() bool { return t.flow.Given() }

// bind binds the flow and the bed.
func (t *through) bind(b *bind.Set) {
	t.flow = bind.Of(b, bind.Flow, &t.request.Flow, "flow", "water that runs once, upward, through a bed of salt: how strong it leaves")
	t.bed = bind.Of(b, bind.Mass, &t.salt, "bed", "salt of that bed, as delivered; the tank's unless given")
	volume := bind.Of(b, bind.Volume, &t.request.Volume, "volume", "brine wanted of it")
	b.Then(func(*bind.Scope) error {
		flag := "volume"
		switch {
		case t.flow.Given() || !t.bed.Given() && !volume.Given():
			return nil
		case t.bed.Given():
			flag = "bed"
		}
		return fault.Refuse("--%s: there is no bed that water runs through once without --flow; allowed: both", flag)
	})
}

// samples reads FLOW=READING, each of the brine that left at that flow.
func (t *through) samples(q *readyAt, b *bind.Set, s *bind.Scope) error {
	t.request.Before = nil
	for _, text := range s.Args {
		flow, what, ok := strings.Cut(text, "=")
		if !ok {
			return fault.Refuse("%s: not a reading behind its flow; allowed: like 30gal/min=21.5%%", words.Quoted(text))
		}
		at, _, err := quantity.Meant(quantity.ParseFlow, s.System, flow)
		if err != nil || !(at > 0) {
			return fault.Refuse("%s: flow %s: %v", words.Quoted(text), words.Quoted(flow), cmp.Or(err, fault.Refuse("nothing runs; allowed: above 0 gal/min")))
		}
		sample, err := q.sample(b, s, text, what)
		if err != nil {
			return err
		}
		reading, err := brine.Reading(sample)
		if err != nil {
			return err
		}
		t.request.Before = append(t.request.Before, ready.Passage{Flow: at, Strength: reading.True, Deviation: quantity.Strength(reading.Sure.Deviation())})
	}
	return nil
}

// complete takes from the yard what was not typed, and gives every passage the bed.
func (q *readyAt) complete(y *yard.Yard) error {
	t := &q.flow
	bulk, salt := level.UsualBulk, cmp.Or(t.salt, q.tank.Bed)
	if y != nil && y.Pile.Bulk > 0 {
		bulk = y.Pile.Bulk
	}
	if salt == 0 {
		return fault.Refuse("--flow %s: how much salt lies in the bed? allowed: --bed, like --bed 2000lb, or --tank with a bed in the yard file", t.flow.Quoted())
	}
	t.request.Bed, t.request.Band = quantity.Volume(float64(salt)/float64(bulk)), q.request.Band
	t.request.Temperature = q.degrees.True(q.temp)
	if !q.allAt.Given() {
		t.request.Temperature = q.charge.Warm
	}
	t.entries = 0
	for _, p := range q.tank.Passages {
		water := ready.WaterFlow(p.Flow, p.Strength, t.request.Temperature)
		t.request.Before = append(t.request.Before, ready.Passage{Flow: water, Strength: p.Strength})
		t.entries++
	}
	for i := range t.request.Before {
		t.request.Before[i].Bed = t.request.Bed
	}
	return nil
}

// runsThrough answers for a bed that water runs through once.
func (q *readyAt) runsThrough(s *run.Session) (run.Reply, error) {
	v := s.View
	if err := q.complete(s.Yard); err != nil {
		return run.Reply{}, err
	}
	r := q.flow.request
	out, err := ready.Through(r)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: throughFigures(v, r, out),
		Words: func(d *report.Document) {
			d.Title, d.Verdict, d.Notes = "Water once through a bed", throughVerdict(v, r, out), q.throughNotes(v, out)
			d.Cautions = []string{show.CautionPump, show.CautionEntry, show.CautionLocal}
			d.Next = "check, with a reading of what leaves the bed."
		},
		Working: func() []report.Step { return derive.Through(v, r, out) },
	}, nil
}

// spanText is a quantity with its range in brackets.
func spanText[Q quantity.Quantity](v show.View, s ready.Span, as func(float64) Q) string {
	half := as((s.High - s.Low) / 2)
	return v.Say("%v (%s)", v.Sure(as(s.Value), half), v.Range(as(s.Low), as(s.High), half))
}

func asStrength(x float64) quantity.Strength { return quantity.Strength(x) }
func asFlow(x float64) quantity.Flow         { return quantity.Flow(x) }

func throughFigures(v show.View, r ready.ThroughRequest, out ready.ThroughResult) []report.Figure {
	strength := v.Figure("outflow_strength", "Leaves at", asStrength(out.Strength.Value))
	strength.Value.Text = spanText(v, out.Strength, asStrength)
	flow := v.Figure("target_flow", v.Say("Let in for %v", r.Band.Target), asFlow(out.OnTarget.Value))
	flow.Value.Text = spanText(v, out.OnTarget, asFlow)
	takes := report.Figure{Key: "time", Label: "It takes", Value: report.Nothing("min", "no volume given"), Quiet: true}
	if r.Volume > 0 {
		takes = v.Figure("time", v.Say("%v of brine take", r.Volume), out.Takes)
	}
	return []report.Figure{
		strength, flow,
		v.Figure("outflow", "Brine that leaves", out.Out), takes,
		detail(v.Figure("contact", "Time of contact, bed volume over flow", out.Contact)),
		detail(v.Figure("saturation", "Saturation", out.Saturation)),
		show.Quiet(v.Figure("outflow_strength_low", "Leaves at, low end", asStrength(out.Strength.Low))),
		show.Quiet(v.Figure("outflow_strength_high", "Leaves at, high end", asStrength(out.Strength.High))),
		show.Quiet(report.Figure{Key: "bed_constant", Label: "Constant of the bed", Value: rateValue(out.Constant.Value, "")}),
		show.Quiet(report.Figure{Key: "decision", Label: "May it be pumped", Value: report.Word(out.Decision.String())}),
	}
}

// throughVerdict is one sentence.
func throughVerdict(v show.View, r ready.ThroughRequest, out ready.ThroughResult) string {
	leaves := v.Say("With %v in, the brine leaves at %s", r.Flow, spanText(v, out.Strength, asStrength))
	switch out.Decision {
	case yard.MayPump:
		if r.Volume > 0 {
			leaves += v.Say("; %v take %v", r.Volume, out.Takes)
		}
		return leaves + ". Read what leaves it before it goes to store."
	case yard.TooWeak:
		return leaves + v.Say(", too weak: let in no more than %v for %v.", asFlow(out.OnTarget.Low), r.Band.Target)
	case yard.TooStrong:
		return leaves + v.Say(", above %v: let in about %v for %v, or thin it in the tank.", r.Band.High, asFlow(out.OnTarget.Value), r.Band.Target)
	}
	return leaves + v.Say(", which may lie outside %v to %v: read what leaves, and set it towards %v.", r.Band.Low, r.Band.High, asFlow(out.OnTarget.Value))
}

// throughNotes say what it rests on.
func (q *readyAt) throughNotes(v show.View, out ready.ThroughResult) []string {
	known := fmt.Sprintf("It goes by %s of this bed", show.Plural(len(q.flow.request.Before), "reading", "readings"))
	if q.flow.entries > 0 {
		known += fmt.Sprintf(", %d of them batches of %s in the journal", q.flow.entries, q.tank.Name)
	}
	return []string{
		known + ": a bed that is topped up to the same height leaves the same strength at the same flow.",
		v.Say("More time on the salt brings it nearer to saturation (%v); a channel through the bed, sludge or a low bed leaves it weaker.", out.Saturation),
	}
}
