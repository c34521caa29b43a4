package show

import (
	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// CorrectionSteps says what to do, in order: "draw off 40 gal, then add 61 gal of water".
func (v View) CorrectionSteps(c brine.Correction) string {
	text := ""
	if c.DrawOffFirst > 0 {
		text = v.Say("draw off %v first, then ", c.DrawOffFirst)
	}
	switch c.Additive {
	case brine.AddWater:
		return text + v.Say("add %v of water", c.Water)
	case brine.AddStock:
		return text + v.Say("add %v of stock", c.Stock)
	default:
		return text + v.Say("add %v of salt", c.Salt)
	}
}

// CorrectionFigures are what to add and what comes of it.
func (v View) CorrectionFigures(r brine.CorrectRequest, c brine.Correction) []report.Figure {
	fits := report.Nothing("", "not known")
	switch {
	case r.Capacity > 0 && c.DrawOffFirst > 0:
		fits = report.Word("no")
		fits.Text = v.Say("no, it would come to %v and the tank holds %v", c.WholeFinal, r.Capacity)
	case r.Capacity > 0:
		fits = report.Word("yes")
		fits.Text = v.Say("yes, the tank holds %v", r.Capacity)
	}
	figures := []report.Figure{QuietUnless(c.DrawOffFirst > 0, v.Figure("draw_off_first", "Draw off first", c.DrawOffFirst))}
	water := QuietUnless(c.Additive == brine.AddWater, v.Figure("water_to_add", "Water to add", c.Water))
	salt := QuietUnless(c.Additive == brine.AddSalt, v.Figure("salt_to_add", "Salt to add, as delivered", c.Salt))
	stock := QuietUnless(c.Additive == brine.AddStock, v.Figure("stock_to_add", "Stock to add", c.Stock))
	figures = append(figures, Ranged(v, water, ShareOf(c.Water, c.Share.Low), ShareOf(c.Water, c.Share.High))...)
	figures = append(figures, Ranged(v, salt, ShareOf(c.Salt, c.Share.Low), ShareOf(c.Salt, c.Share.High))...)
	figures = append(figures, Ranged(v, stock, ShareOf(c.Stock, c.Share.Low), ShareOf(c.Stock, c.Share.High))...)
	return append(figures,
		v.Figure("final_volume", "Comes to", c.Final),
		v.Figure("final_strength", "True strength then", c.Strength),
		v.Figure("expected_reading", v.Say("Reading then, at %v", r.Temperature), v.Marked(r.Instrument, c.Reading)),
		QuietUnless(r.Capacity > 0, report.Figure{Key: "fits", Label: "Fits the tank", Value: fits}),
	)
}

// ShareOf is an amount times a share of it.
func ShareOf[Q ~float64](q Q, share float64) Q { return Q(float64(q) * share) }

// Marked shows what to look for on an instrument, no finer than a glass of its marks is read.
func (v View) Marked(i gauge.Instrument, reading float64) quantity.Quantity {
	return v.Sure(i.Scale.Quantity(reading), i.Scale.Quantity(i.Division/2))
}

// CorrectionNotes say what the figures rest on.
func (v View) CorrectionNotes(r brine.CorrectRequest, c brine.Correction) []string {
	var notes []string
	if c.Solid {
		notes = append(notes, v.Say("At %v brine of %v is part solid: the tank has to be thawed and stirred before any of this holds.", r.Temperature, r.Strength))
	}
	if c.DrawOffFirst > 0 {
		notes = append(notes, v.Say("It does not fit as it is: what is drawn off goes to storage, not to a drain."))
	}
	if c.Additive == brine.AddSalt {
		notes = append(notes, v.Say("Salt of %v purity and %v moisture; it cools the tank a little, so let it come back to %v or read the thermometer again.",
			r.RockSalt.Purity, r.RockSalt.Moisture, r.Temperature))
	}
	return notes
}

// CorrectionCautions go with what is added.
func CorrectionCautions(c brine.Correction) []string {
	var cautions []string
	switch c.Additive {
	case brine.AnyAdditive:
		return nil
	case brine.AddWater:
		cautions = append(cautions, CautionBackflow)
	case brine.AddSalt:
		cautions = append(cautions, CautionEntry)
	}
	if c.DrawOffFirst > 0 {
		cautions = append(cautions, CautionDrain)
	}
	return append(cautions, CautionPump, CautionLocal)
}
