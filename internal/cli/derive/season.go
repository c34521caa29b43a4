package derive

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/season"
	"brineyard/internal/working"
)

// Season is the salt balance.
func Season(v show.View, p season.Report) []report.Step {
	if p.Entries == 0 {
		return nil
	}
	b, k := p.Salt, begin(v)
	had, delivered, left, inBrine := k.Of(b.Opening), k.Of(b.Delivered), k.Of(b.Closing), k.Of(b.InBrine)
	gone := k.Step("Salt gone from the pile", "had + delivered - left", had.Unit(), had, delivered, left)
	moisture, purity := working.Share(b.Rock.Moisture), working.Share(b.Rock.Purity)
	wet := k.Step("Water in it", "salt gone x moisture", had.Unit(), gone, moisture)
	sludge := k.Step("What does not dissolve", "salt gone x (1 - moisture) x (1 - purity)", had.Unit(), gone, moisture, purity)
	k.Read("NaCl in the brine made, and added in corrections", "volumes x densities x strengths of the entries", inBrine)
	if !b.Explains() {
		return k.Steps()
	}
	if b.Elsewhere == 0 {
		k.Step("Not explained", "gone - water - insolubles - in the brine", had.Unit(), gone, wet, sludge, inBrine)
		return k.Steps()
	}
	elsewhere := k.Of(b.Elsewhere)
	k.Read("NaCl that was spread dry, lost, sold, lent, given, or is on beds", "the entries, at the salt's purity", elsewhere)
	k.Step("Not explained", "gone - water - insolubles - in the brine - elsewhere", had.Unit(), gone, wet, sludge, inBrine, elsewhere)
	return k.Steps()
}
