package learn

import (
	"slices"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/show"
	"brineyard/internal/drill"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/working"
)

// workingOf is the working of the command that answers the same question, and the way from
// its figures to what the problem asks for.
func workingOf(v show.View, p drill.Problem) []report.Step {
	var steps []report.Step
	if p.Working.GlassResult != nil {
		steps = byRule(v, p.Working)
	}
	return slices.Concat(steps, calculated(v, p.Working), closing(v, p.Working.Closing))
}

// byRule goes from what the glass shows to the strength with the rule that the question gives, as a hand
// does it, and then says what the formula of the density makes of it.
func byRule(v show.View, w drill.Working) []report.Step {
	sheet := working.New(v.System)
	marked, sample := quantity.Temperature(w.Glass.Instrument.Calibration), w.Glass.Temperature
	what, off, sign := "Colder than it is marked for", "Shows too much, in percent of salt", "-"
	warm, cold := marked, sample
	if sample > marked {
		what, off, sign = "Warmer than it is marked for", "Shows too little, in percent of salt", "+"
		warm, cold = sample, marked
	}
	rule, each := working.Percent(w.Rule).In(""), sheet.Of(w.Each).In("")
	apart := sheet.Step(what, "the one temperature - the other", "", sheet.Of(warm).In(""), sheet.Of(cold).In(""))
	wrong := sheet.StepAs(off, "the rule x the difference / what the rule goes by", "{} x {} / {}", "", rule, apart, each)
	sheet.StepAs("True strength, by hand", "reading "+sign+" that", "{} "+sign+" {}", "%", working.Percent(quantity.Strength(w.Glass.Reading)).In(""), wrong)
	sheet.Read("The same from the formula of the density", "which brineyard reading shows with --working", working.Percent(w.GlassResult.True))
	return sheet.Steps()
}

// calculated is the working of a calculator's result.
func calculated(v show.View, w drill.Working) []report.Step {
	switch {
	case w.Correction != nil:
		return derive.Correct(v, *w.Correct, *w.Correction)
	case w.CheckResult != nil:
		return derive.Correct(v, w.Check.Correction(*w.CheckResult), w.CheckResult.Correction)
	case w.BatchResult != nil:
		return derive.Batch(v, *w.Batch, *w.BatchResult)
	case w.BlendResult != nil:
		return derive.Blend(v, inParts(v.System, *w.Blend), *w.BlendResult)
	case w.TruckResult != nil:
		return derive.Truck(v, *w.Truck, *w.TruckResult)
	case w.LineupSetting != nil:
		return judged(*w.LineupSetting)
	}
	return nil
}

// inParts gives a blend of volumes in numbers of the user's unit, as the question has it.
func inParts(system quantity.System, r brine.BlendRequest) brine.BlendRequest {
	r.Parts = slices.Clone(r.Parts)
	for i := range r.Parts {
		if !r.ByWeight {
			r.Parts[i].Amount = quantity.Volume(r.Parts[i].Amount).In(system).Value
		}
	}
	return r
}

// judged is what a setting of valves does.
func judged(s lineup.Setting) []report.Step {
	verdict, notes := show.SettingWords(s)
	steps := []report.Step{{What: "Open: " + strings.Join(s.Open, ", ")}, {What: verdict}}
	for _, note := range notes {
		steps = append(steps, report.Step{What: note})
	}
	return steps
}

// closing is the way from a calculator's figures to what a problem asks for. A step goes on
// from the printed result of one before it, where that is among its numbers.
func closing(v show.View, closing []drill.Closing) []report.Step {
	sheet := working.New(v.System)
	printed := func(q quantity.Quantity) working.Term {
		switch x := q.(type) {
		case quantity.Density:
			return sheet.Density(x)
		case quantity.Strength:
			return working.Share(x)
		case quantity.Fraction:
			return working.Number(float64(x), "")
		}
		return sheet.Of(q)
	}
	results := map[quantity.Quantity]working.Term{}
	for _, c := range closing {
		var terms []working.Term
		for _, q := range c.Args {
			term, known := results[q]
			if !known {
				term = printed(q)
			}
			terms = append(terms, term)
		}
		results[c.Result] = sheet.StepAs(c.What, c.Formula, c.Numbers, printed(c.Result).Unit(), terms...)
	}
	return sheet.Steps()
}
