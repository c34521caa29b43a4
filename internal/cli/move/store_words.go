package move

import (
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

func storeFigures(v show.View, r brine.StoreRequest, out brine.StoreResult) []report.Figure {
	figures := correctionFigures(v, r, out)
	volume, now := "Volume", ""
	if out.Corrected {
		volume, now = "In the tank now", " now"
	}
	reading := v.ExpectedReading(r.Instrument, r.Temperature, out.Reading, out.OnScale)
	if now != "" {
		reading.Label += "," + now
	}
	low, high := out.Volumes(r)
	figures = append(figures, show.Ranged(v, v.Figure("volume", volume, out.Now.Volume), low, high)...)
	figures = append(figures, strengthFigures(v, "True strength"+now, out)...)
	figures = append(figures,
		v.Figure("density", v.Say("Density at %v", r.Temperature), out.Density),
		reading,
		fitsFigure(v, r, out))
	for _, f := range v.Composition(out.Now.Liquid) {
		figures = append(figures, show.Quiet(f))
	}
	return append(figures, v.Cold(out.Cold)...)
}

// correctionFigures are what brings the tank to target; none where that was not asked.
func correctionFigures(v show.View, r brine.StoreRequest, out brine.StoreResult) []report.Figure {
	if !out.Corrected {
		return nil
	}
	c := out.Correction
	stock := show.Ranged(v, v.Figure("stock_to_add", v.Say("Add of %v", r.With), c.Stock), show.ShareOf(c.Stock, c.Share.Low), show.ShareOf(c.Stock, c.Share.High))
	return []report.Figure{
		show.QuietUnless(c.DrawOffFirst > 0, v.Figure("draw_off_first", "Draw off first", c.DrawOffFirst)),
		stock[0], stock[1], stock[2],
		v.Figure("corrected_volume", "Comes to", c.Final),
		v.Figure("corrected_strength", "True strength then", c.Strength),
	}
}

// strengthFigures are the strength of plain salt brine, with its range; of another mix they tell the salts.
func strengthFigures(v show.View, label string, out brine.StoreResult) []report.Figure {
	w, plain := out.Now.Liquid.Strength()
	if !plain {
		none := report.Nothing("%", v.CompositionText(out.Now.Liquid))
		return []report.Figure{
			{Key: "strength", Label: label, Value: none},
			show.Quiet(report.Figure{Key: "strength_low", Label: label + ", low end", Value: report.Nothing("%", "none")}),
			show.Quiet(report.Figure{Key: "strength_high", Label: label + ", high end", Value: report.Nothing("%", "none")}),
		}
	}
	f := v.Figure("strength", label, v.Sure(w, out.Range.Half()))
	return show.Ranged(v, f, out.Range.Low, out.Range.High)
}

// fitsFigure says whether the tank holds it all, or has to be drawn off first.
func fitsFigure(v show.View, r brine.StoreRequest, out brine.StoreResult) report.Figure {
	if r.Capacity == 0 {
		return show.Quiet(report.Figure{Key: "fits", Label: "Fits the tank", Value: report.Nothing("", "not known")})
	}
	fits := report.Word(show.YesNo(out.Fits && (!out.Corrected || out.Correction.DrawOffFirst == 0)))
	fits.Text += v.Say(", the tank can hold %v", r.Capacity)
	return report.Figure{Key: "fits", Label: "Fits the tank", Value: fits}
}

// storeWords puts words around the figures; source says who said what the tank holds.
func storeWords(v show.View, d *report.Document, r brine.StoreRequest, out brine.StoreResult, source string) {
	d.Title, d.Verdict = "Storage tank", storeVerdict(v, r, out, source)
	d.Notes, d.Cautions = v.ColdNotes(out.Cold), show.LiquidCautions(out.Now.Liquid)
	if len(out.Each) > 0 {
		d.Tables = []report.Table{batchTable(v, r, out.Each)}
	}
}

func storeVerdict(v show.View, r brine.StoreRequest, out brine.StoreResult, source string) string {
	made := v.Say("The tank holds %v of %s", out.Now.Volume, v.Contents(out.Now.Liquid))
	if !out.Fits {
		made = v.Say("It does not fit: %v of %s, and the tank holds %v", out.Now.Volume, v.Contents(out.Now.Liquid), r.Capacity)
	}
	if source != "" {
		made += v.Say(", with its own %v%s", r.Lots[0].Volume, source)
	}
	c := out.Correction
	switch {
	case !out.Corrected:
		return made + "."
	case c.Additive == brine.AnyAdditive:
		return made + ", which is on target."
	}
	add := v.Say("Add %v of %v: that brings the tank to %v at %v. ", c.Stock, r.With, r.Target, c.Final)
	if c.DrawOffFirst > 0 {
		add = v.Say("Draw off %v first, then add %v of %v: that brings the tank to %v at %v. ", c.DrawOffFirst, c.Stock, r.With, r.Target, c.Final)
	}
	return add + strings.Replace(made, "The tank", "Before that it", 1) + "."
}

// batchTable shows the tank after each batch.
func batchTable(v show.View, r brine.StoreRequest, each []brine.Stored) report.Table {
	t := report.Table{
		Key:   "batches",
		Title: "The tank after each batch",
		Columns: []report.Column{
			{Key: "batch", Label: "Batch"}, {Key: "volume", Label: "Volume"}, {Key: "strength", Label: "Salt"}, {Key: "fits", Label: "Fits"},
		},
	}
	for i, state := range each {
		fits := "not known"
		if r.Capacity > 0 {
			fits = show.YesNo(state.Volume <= r.Capacity)
		}
		t.Rows = append(t.Rows, []report.Value{
			v.Value(quantity.Count(i + 1)), v.Value(state.Volume),
			v.Value(quantity.Strength(state.Liquid.Composition.Solute())), report.Word(fits),
		})
	}
	return t
}

// storeWorking adds up the lots, then goes to the target, if there is one.
func storeWorking(v show.View, r brine.StoreRequest, out brine.StoreResult) []report.Step {
	steps := derive.Store(v, r, out)
	if out.Corrected {
		steps = append(steps, derive.Correct(v, r.Correction(out), out.Correction)...)
	}
	return steps
}
