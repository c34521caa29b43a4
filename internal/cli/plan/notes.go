package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/storm"
)

// note is one that a plan has on a condition.
type note struct {
	holds bool
	text  string
}

// notes are those that hold, in this order.
func notes(v show.View, r storm.Request, p storm.Plan) []string {
	var texts []string
	for _, n := range slices.Concat(practiceNotes(v, r, p), supplyNotes(v, r, p), planNotes(v, r, p)) {
		if n.holds {
			texts = append(texts, n.text)
		}
	}
	return texts
}

func practiceNotes(v show.View, r storm.Request, p storm.Plan) []note {
	return []note{
		{true, "Rates are the agency's; priorities and passes the yard and storm file's."},
		{p.Better != nil, betterNote(v, r, p.Better)},
		{!p.Practice, v.Say("Below %v of pavement agencies do not use liquids (MN field handbook; MaineDOT: plow only).", storm.ColdestPavement())},
	}
}

// betterNote proposes a blend that melts more, where there is one.
func betterNote(v show.View, r storm.Request, b *storm.BetterBlend) string {
	if b == nil {
		return ""
	}
	text := v.Say("At %v, %v of %s in the brine would melt %v instead of %v", r.Low, b.Share, b.Additive, b.PerVolume, b.Before)
	if b.DropsSalt {
		text += v.Say(", but salt falls out of that in a tank below %v: meter it in as you load", show.TemperatureOf(b.SaltOut))
	}
	return text + "."
}

// supplyNotes are about what stands in store.
func supplyNotes(v show.View, r storm.Request, p storm.Plan) []note {
	var all []note
	for _, l := range p.Supply {
		fix := ""
		if l.Fix != nil {
			fix = v.Say("Tank %s is out of the band and left out until corrected: %s.", l.Where, v.CorrectionSteps(*l.Fix))
		}
		all = append(all, []note{
			{!l.Clear && !l.First.Found, v.Say("%s (%s): its data sheet ends at %v, above the low of %v.", l.Where, l.Liquid, show.TemperatureOf(l.First), r.Low)},
			{!l.Clear && l.First.Found, v.Say("%s (%s): %s forms in it at %v, above the low of %v; what the low makes of it, freeze --liquid says.",
				l.Where, l.Liquid, show.SolidKind(l.First.Solid), show.TemperatureOf(l.First), r.Low)},
			{l.Fix != nil, fix},
			{l.Edge, v.Say("Tank %s is on the edge of the band by its last reading (%v) and left out until a finer reading decides.", l.Where, l.Strength)},
		}...)
	}
	return all
}

func planNotes(v show.View, r storm.Request, p storm.Plan) []note {
	pr := p.Production
	return []note{
		{len(r.Trucks) == 0, "There is no truck, so loading is not planned."},
		{r.DownBy > 0 && p.InTime < p.Bound*0.999, v.Say("No plan brings more than %v down in time; this one brings %v.", p.Bound, p.InTime)},
		{pr.InMixers > 0, v.Say("%v of brine have no room in storage: load them from the mixers.", pr.InMixers)},
		{r.Pile.OnHand == nil, "The yard file does not say what the salt pile holds (salt.pile), so salt is taken to suffice."},
		{p.Cost.Missing, "Some prices are not known, so the cost is that of the rest."},
		{len(pr.Corrected) > 0, "Corrected first, since that puts more on the road: " + strings.Join(pr.Corrected, ", ") + "; read it again before it is loaded."},
		{pr.Swallowed > 0, v.Say("%v of what is made stay below the suctions of empty tanks.", pr.Swallowed)},
		{true, afterNote(v, p)},
	}
}

// afterNote says what is left after the storm, for how many more of its kind, and what to order where not for one.
func afterNote(v show.View, p storm.Plan) string {
	a := p.After
	left := []string{v.Say("%v of brine", a.Brine)}
	if a.Pile != nil {
		left = append(left, v.Say("%v of salt", *a.Pile))
	}
	for _, l := range a.Liquids {
		left = append(left, v.Say("%v of %s", l.OnHand, l.Name))
	}
	text := "After it " + strings.Join(left, ", ") + " are left"
	switch {
	case math.IsInf(a.Storms, 1):
		return text + "."
	case a.Storms >= 1:
		return text + fmt.Sprintf(": enough for %.1f more such storms, and then %s ends.", a.Storms, a.Ends)
	}
	return text + ": not enough for another such storm; order " + a.Ends + "."
}
