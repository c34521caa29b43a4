package cold

import (
	"math"
	"strings"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/cli/standing"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// tonight is what the cold does to every tank of the yard in which it is known what stands.
type tonight struct {
	low     quantity.Temperature // 0 for not asked
	nights  []brine.Night
	tanks   []yard.Tank // of nights
	unknown []string
	weak    []yard.WeakLine
	now     time.Time
}

// tonight answers for every tank.
func (q *freeze) tonight(v show.View) (run.Reply, error) {
	t := tonight{low: q.request.At, weak: q.in.weak, now: q.in.clock()}
	r := brine.NightRequest{Low: t.low}
	for _, tank := range q.in.tanks {
		switch {
		case tank.Liquid == nil || tank.Contents == nil:
			t.unknown = append(t.unknown, tank.Name)
		case tank.Held() > 0:
			t.tanks = append(t.tanks, tank)
			r.Tanks = append(r.Tanks, brine.NightTank{Name: tank.Name, Liquid: tank.Liquid.Named(tank.Name), Low: tank.Low, High: tank.High})
		}
	}
	var err error
	if t.nights, err = brine.Nights(r); err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: t.figures(),
		Words:   func(d *report.Document) { t.words(v, d) },
	}, nil
}

// in are the names of the tanks in a state.
func (t tonight) in(s brine.NightState) []string {
	var names []string
	for _, n := range t.nights {
		if n.State == s {
			names = append(names, n.Tank.Name)
		}
	}
	return names
}

// first is the tank in which something forms at the highest temperature, among those that are in the worst state; false
// where none is known. A tank that is harmed comes before one that at worst may be.
func (t tonight) first() (warmest brine.Night, found bool) {
	for _, n := range t.nights {
		if n.State == brine.NightUnknown || found && n.State < warmest.State {
			continue
		}
		if !found || n.State > warmest.State || n.First.Temperature > warmest.First.Temperature {
			warmest, found = n, true
		}
	}
	return warmest, found
}

func (t tonight) figures() []report.Figure {
	count := func(key, label string, n int) report.Figure {
		return show.Quiet(report.Figure{Key: key, Label: label, Value: show.Count(n)})
	}
	figures := []report.Figure{count("tanks", "Tanks", len(t.nights)), count("tanks_unknown", "Tanks not known", len(t.unknown)+len(t.in(brine.NightUnknown)))}
	if t.low == 0 {
		return figures
	}
	return append(figures, count("tanks_forming", "Tanks in which something forms", len(t.in(brine.NightForms))),
		count("tanks_close", "Tanks close to it", len(t.in(brine.NightClose))))
}

func (t tonight) words(v show.View, d *report.Document) {
	d.Title, d.Verdict = "What the cold does to every tank", t.verdict(v)
	if len(t.nights) > 0 {
		d.Tables = []report.Table{t.table(v)}
	}
	d.Doubts = t.weakLines(v)
	for _, tank := range t.tanks {
		d.Doubts = append(d.Doubts, show.Said(v.Doubt(tank.Name, tank.Said, t.now))...)
	}
	if unknown := append(t.unknown, t.in(brine.NightUnknown)...); len(unknown) > 0 {
		d.Doubts = append(d.Doubts, "Nobody knows what is in "+strings.Join(unknown, ", ")+": read it before the cold does.")
	}
	if t.low == 0 && len(t.tanks) > 0 {
		d.Notes = append(d.Notes, "--at with tonight's low shows each tank's margin.")
	}
	d.Notes = append(d.Notes, "Lines, pumps and hoses that hold water or weak brine freeze long before a tank: drain them (common practice, no source).")
	if len(t.in(brine.NightForms)) > 0 {
		first, _ := t.first()
		low := strings.ReplaceAll(v.Say("%v", t.low), " ", "")
		d.Next = "freeze --tank " + words.Argument(first.Tank.Name) + " --at " + low + " tells how much forms in it."
		d.Cautions = []string{show.CautionPump, show.CautionLocal}
	}
}

// weakLines warn of lines that were rinsed: water freezes in them before anything does in a tank.
func (t tonight) weakLines(v show.View) []string {
	if t.low > quantity.Celsius(0) {
		return nil
	}
	var doubts []string
	for _, w := range t.weak {
		doubts = append(doubts, v.Say("Line %s holds water or weak brine since it was rinsed%s, and freezes a little below %v: drain it before the night.", w.Name, v.Source(w.Said, t.now), quantity.Celsius(0)))
	}
	return doubts
}

// verdict names the tanks that the night harms, else the one that is nearest to harm.
func (t tonight) verdict(v show.View) string {
	first, found := t.first()
	switch {
	case !found:
		return "Nothing is known to stand in any tank: nobody can say what the cold does."
	case t.low == 0:
		return v.Say("%s is the first that the cold harms: %s.", first.Tank.Name, t.onset(v, first))
	}
	forms, near := t.in(brine.NightForms), t.in(brine.NightClose)
	switch {
	case len(forms) > 0:
		text := v.Say("At %v the cold harms %s: %s.", t.low, strings.Join(forms, ", "), t.onset(v, first)) + advice[first.Cause]
		if len(near) > 0 {
			text += " " + v.Say("With less than %v to spare: %s.", brine.NightMargin, strings.Join(near, ", "))
		}
		return text
	case len(near) > 0:
		return v.Say("At %v no harm is sure, but with less than %v to spare: %s. At worst %s.", t.low, brine.NightMargin, strings.Join(near, ", "), t.onset(v, first))
	}
	return v.Say("At %v all that is known stays clear, by %v or more: %s.", t.low, brine.NightMargin, t.nearest(v, first))
}

// advice is what is done about it before the night.
var advice = [...]string{
	brine.NightOther:     " Ask freeze --tank about it before that.",
	brine.NightTooWeak:   " It is too weak for that: strengthen it first.",
	brine.NightTooStrong: " It is too strong for that: thin it first.",
	brine.NightTooCold:   " No plain brine stays clear at that: blend it or use it up first.",
}

// onset says what forms in a tank, and at which temperature.
func (t tonight) onset(v show.View, n brine.Night) string {
	if !n.First.Found {
		return v.Say("below %v nothing is known of it", show.TemperatureOf(n.First))
	}
	if show.SolidKind(n.First.Solid) == "ice" {
		return v.Say("ice forms in %s at %v", n.Tank.Name, show.TemperatureOf(n.First))
	}
	return v.Say("salt falls out in %s at %v", n.Tank.Name, show.TemperatureOf(n.First))
}

// nearest says which tank has the least to spare.
func (t tonight) nearest(v show.View, n brine.Night) string {
	if !n.First.Found {
		return v.Say("%s is known down to %v", n.Tank.Name, show.TemperatureOf(n.First))
	}
	return v.Say("%s is the nearest, by %v", n.Tank.Name, n.Margin)
}

func (t tonight) table(v show.View) report.Table {
	table := report.Table{Key: "tanks", Title: "Every tank", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "holds", Label: "Holds"}, {Key: "liquid", Label: "Of"}, {Key: "first_solid", Label: "Forms at"},
	}}
	if t.low != 0 {
		table.Columns = append(table.Columns, report.Column{Key: "margin", Label: "Margin"}, report.Column{Key: "state", Label: "Tonight"})
	}
	table.Columns = append(table.Columns, report.Column{Key: "by", Label: "By"}, report.Column{Key: "age", Label: "Age"})
	for i, n := range t.nights {
		held := v.Value(t.tanks[i].Held())
		row := []report.Value{report.Word(n.Tank.Name), held, report.Word(contents(v, n.Tank.Liquid)), t.firstSolid(v, n)}
		if t.low != 0 {
			row = append(row, t.margin(v, n), report.Word(stateWord(n.State)))
		}
		table.Rows = append(table.Rows, append(row, standing.By(t.tanks[i].Said), standing.Age(t.tanks[i].Said, t.now)))
	}
	return table
}

// contents names a liquid: a plain brine by its strength alone, to a tenth of a percent, which is
// what a reading tells.
func contents(v show.View, l balance.Liquid) string {
	if w, plain := l.Strength(); plain && w > 0 {
		return v.Say("%v", quantity.Strength(math.Round(1000*float64(w))/1000))
	}
	return v.CompositionText(l)
}

func (t tonight) firstSolid(v show.View, n brine.Night) report.Value {
	if n.State == brine.NightUnknown {
		return report.Nothing(v.Unit(quantity.Temperature(0)), "not known")
	}
	return v.ShortSolid(n.First)
}

// margin is by how much a tank stays above what forms first; nothing where that is not known.
func (t tonight) margin(v show.View, n brine.Night) report.Value {
	if n.State == brine.NightUnknown || !n.First.Found {
		return report.Nothing(v.Unit(n.Margin), "-")
	}
	return v.Value(n.Margin)
}

// stateWord is how a tank comes through the night.
func stateWord(s brine.NightState) string {
	return [...]string{brine.NightClear: "clear", brine.NightClose: "close", brine.NightForms: "harmed", brine.NightUnknown: "not known"}[s]
}
