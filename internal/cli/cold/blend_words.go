package cold

import (
	"sort"
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

func (m mixed) figures(v show.View) []report.Figure {
	r, b := m.request, m.made
	var figures []report.Figure
	if m.solved != nil {
		figures = append(figures, show.Detail(
			v.Figure("last_share", "Share of "+m.last(v), m.solved.Share),
			v.Figure("base_strength", "Strength of the base", m.solved.BaseStrength))...)
	}
	figures = append(figures, v.Cold(b.Cold)...)
	figures = append(figures, v.Composition(b.Liquid)...)
	figures = append(figures, show.Detail(
		v.Figure("density", v.Say("Density at %v", r.Temperature), b.Density),
		v.Figure("chloride_per_volume", "Chloride", b.Chloride))...)
	figures = append(figures, show.IfKnown(v, "cost_per_volume", "Cost", b.Cost, b.Priced))
	figures = append(figures, show.Detail(
		v.ExpectedReading(r.Instrument, r.Temperature, b.Reading, b.OnScale),
		show.IfKnown(v, "heat_released", "Heat given off (below 0: taken up)", b.Heat, b.HeatKnown),
		show.IfKnown(v, "final_temp", v.Say("Temperature, from %v", r.Temperature), b.FinalTemp, b.HeatKnown))...)
	if m.asked.into.given() {
		figures = append(figures, m.asked.into.figures(v, b)...)
	}
	return figures
}

// last describes the last part, whose share is looked for.
func (m mixed) last(v show.View) string {
	return v.Describe(m.request.Parts[len(m.request.Parts)-1].Liquid)
}

func (m mixed) words(v show.View, d *report.Document) {
	d.Title, d.Verdict = "Blend", m.verdict(v)
	d.Tables = []report.Table{m.meterTable(v)}
	if t := m.asked.into; t.given() {
		d.Doubts = show.Said(v.Doubt(t.Name, t.Said, t.clock()))
	}
	d.Notes = append(v.ColdNotes(m.made.Cold), m.notes(v)...)
	d.Cautions = show.LiquidCautions(m.made.Liquid)
	d.Next = "freeze (--liquid) shows what a cold night makes of it."
}

// verdict says what was found and what the cold does to it, after that it does not fit.
func (m mixed) verdict(v show.View) string {
	verdict := v.ColdVerdict(m.made.Cold)
	if m.solved != nil {
		verdict = m.found(v, verdict)
	}
	t := m.asked.into
	switch {
	case t.given() && m.made.Total > t.Capacity:
		return v.Say("%sit does not fit, %v in a tank of %v. %s", t.stands(v), m.made.Total, t.Capacity, verdict)
	case m.solved != nil && t.given():
		return t.stands(v) + strings.ToLower(verdict[:1]) + verdict[1:]
	case m.solved != nil:
		return verdict
	}
	return m.steps(v) + ": " + strings.ToLower(verdict[:1]) + verdict[1:]
}

// steps say what goes in and in which order: by its volume where that is known, else by its share.
func (m mixed) steps(v show.View) string {
	t := m.asked.into
	text, then := "", "First "
	if t.given() {
		text, then = t.stands(v), "pump "
	}
	for n, i := range m.meterOrder() {
		if t.given() && n == 0 {
			continue
		}
		p := m.request.Parts[i]
		amount := v.Say("%v", m.share(i))
		if t.given() || m.request.Volume > 0 {
			amount = v.Say("%v", m.made.Amounts[i])
		}
		text += then + amount + " of " + v.Describe(p.Liquid)
		then = ", then "
	}
	return text
}

// found says which share and which base meet the temperatures that were given; cold says
// what the cold does to it.
func (m mixed) found(v show.View, cold string) string {
	share := v.Say("%v of the blend as %s", m.solved.Share, m.last(v))
	base := v.Say("base brine of up to %v", m.solved.BaseStrength)
	if m.solved.AnyBase {
		base = v.Say("any base, even saturated (%v)", m.solved.BaseStrength)
	}
	ice, keepClear, icePoint := m.asked.iceAt, m.asked.keepClear, show.TemperatureOf(m.made.Cold.Ice)
	switch {
	case keepClear == nil:
		return v.Say("Take %s for an ice point of %v. %s", share, *ice, cold)
	case ice == nil:
		return v.Say("Take %s: no salt falls out down to %v. Ice forms at %v.", base, *keepClear, icePoint)
	}
	return v.Say("Take %s and %s: ice forms at %v and no salt falls out above %v.", share, base, icePoint, *keepClear)
}

// meterTable lists the parts in the order in which they go in, with their volumes where a
// volume of blend is wanted.
func (m mixed) meterTable(v show.View) report.Table {
	t := report.Table{
		Key:   "parts",
		Title: "Parts, in the order in which they go in",
		Columns: []report.Column{
			{Key: "step", Label: ""}, {Key: "liquid", Label: "Liquid"}, {Key: "share", Label: "Share"},
		},
	}
	known := m.asked.into.given() || m.request.Volume > 0
	if known {
		t.Title = v.Say("To meter for %v, in this order", m.made.Total)
		t.Columns = append(t.Columns, report.Column{Key: "volume", Label: "Volume"})
	}
	for n, i := range m.meterOrder() {
		p := m.request.Parts[i]
		row := []report.Value{report.Word(show.Ordinal(n)), report.Word(v.Describe(p.Liquid)), v.Value(m.share(i))}
		if known {
			row = append(row, v.Value(m.made.Amounts[i]))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// share is what the i-th part is of all.
func (m mixed) share(i int) quantity.Fraction {
	all := 0.0
	for _, p := range m.request.Parts {
		all += p.Amount
	}
	return quantity.Fraction(m.request.Parts[i].Amount / all)
}

// meterOrder puts the light liquids first, so that the heavy ones are pumped into a tank that
// already turns over. Common practice, no source. The contents of the tank come before the
// liquids added to it.
func (m mixed) meterOrder() []int {
	order := make([]int, len(m.request.Parts))
	weight := make([]float64, len(order))
	for i, p := range m.request.Parts {
		order[i] = i
		if rho, err := p.Liquid.Density(m.request.Temperature); err == nil {
			weight[i] = float64(rho)
		}
	}
	if !m.asked.into.given() {
		sort.SliceStable(order, func(a, b int) bool { return weight[order[a]] < weight[order[b]] })
	}
	return order
}

// notes say what the figures rest on.
func (m mixed) notes(v show.View) []string {
	r, b := m.request, m.made
	var notes []string
	if _, plain := b.Liquid.Strength(); !plain && b.OnScale {
		notes = append(notes, v.Say("A percent hydrometer is marked for plain salt brine: in this blend it shows %v, which is not its strength (%s) and does not tell its ice point. Use it only to see that the blend came out as planned.",
			r.Instrument.Scale.Quantity(b.Reading), v.CompositionText(b.Liquid)))
	}
	if len(b.Liquid.Products) > 0 {
		notes = append(notes, "What heat a product gives off in mixing is not known.")
	}
	limits := solution.OutOfRange(solution.DensityFit, b.Liquid.Composition, float64(r.Temperature))
	if b.HeatKnown {
		limits = append(limits, solution.OutOfRange(solution.HeatFit, b.Liquid.Composition, float64(r.Temperature))...)
	}
	if first := b.Cold.First(); first.Found {
		limits = append(limits, solution.OutOfRange(solution.Saturation, b.Liquid.Composition, first.Temperature)...)
	}
	for _, l := range limits {
		notes = append(notes, v.RangeNote(l))
	}
	notes = append(notes, show.CalciumNotes(b.Liquid)...)
	if len(r.Parts) > 1 && !r.ByWeight {
		notes = append(notes, "Volumes shrink a little in mixing: shares are of what goes in, the total of what comes out.")
	}
	return notes
}
