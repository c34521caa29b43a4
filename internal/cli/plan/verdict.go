package plan

import (
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/storm"
)

// verdict says first what does not stay clear at the low, then whether all of it can be had and by when to begin, and
// last whether the pavement is too cold for it.
func verdict(v show.View, r storm.Request, p storm.Plan) string {
	text := productionVerdict(v, r, p)
	if names := notClear(p); len(names) > 0 {
		text = v.Say("Something forms at %v in %s: see to that first. ", r.Low, strings.Join(names, ", ")) + text
	}
	if !p.Practice {
		text += v.Say(" At %v of pavement agencies do not use liquids.", r.Low)
	}
	return text
}

// notClear names the liquids that go out, and the tanks of brine, in which something forms at the low.
func notClear(p storm.Plan) []string {
	var names []string
	for _, line := range p.Cold {
		if !line.Clear {
			names = append(names, line.Liquid)
		}
	}
	for _, line := range p.Supply {
		if line.Liquid == balance.BrineName && !line.Clear && line.Usable > 0 {
			names = append(names, line.Where)
		}
	}
	return names
}

func productionVerdict(v show.View, r storm.Request, p storm.Plan) string {
	start, latest := clock(r.Start), clock(p.Production.Latest)
	switch {
	case p.Short == 0 && p.ReserveGap > 0:
		return v.Say("Every route can be served, but the reserve lacks %v%s.", p.ReserveGap, because(p)) + beginBy(p, start)
	case p.Short > 0 && p.OnlyTimeLacks():
		return v.Say("Short by %v%s: there is not time enough; work would have to begin by %s to have all of it by %s.", p.Short, alsoReserve(v, p), latest, start)
	case p.Short > 0:
		return v.Say("Short by %v%s%s.", p.Short, alsoReserve(v, p), because(p)) + beginBy(p, start)
	case p.Production.Batches == 0:
		return v.Say("The tanks hold enough: %v wanted, no batch to make.", p.Demanded)
	}
	return v.Say("All of it by %s: %v wanted, %s, done at %s; begin by %s at the latest.", start, p.Demanded,
		show.Plural(p.Production.Batches, "batch", "batches"), clock(p.Production.DoneAt), latest)
}

// clock shows a time of day.
func clock(at quantity.Duration) string { return show.ClockText(at, true) }

// timeOf is a time of day for a figure or a table.
func timeOf(at quantity.Duration) report.Value { return show.TimeValue(at, true) }

// alsoReserve tells what the reserve lacks besides.
func alsoReserve(v show.View, p storm.Plan) string {
	if p.ReserveGap == 0 {
		return ""
	}
	return v.Say(", and by %v of the reserve", p.ReserveGap)
}

// beginBy says when work has to begin for what is made, if anything is.
func beginBy(p storm.Plan, start string) string {
	latest := clock(p.Production.Latest)
	switch {
	case p.Production.Batches == 0 && !p.Production.Late:
		return ""
	case p.Production.Late:
		return " For all that can be made work would have to begin by " + latest + "."
	}
	return " Begin by " + latest + " to have the rest by " + start + "."
}

// shortageWords say why there is less than wanted; {} stands for what it concerns.
var shortageWords = map[storm.Shortage]string{
	storm.NoTime:      "there is not time enough",
	storm.NoTruck:     "no truck carries for {}",
	storm.NoDrySalt:   "there is not salt enough to pre-wet",
	storm.LiquidEnds:  "{} runs out",
	storm.ToCorrect:   "{} holds brine out of the band, to be corrected first",
	storm.SaltEnds:    "the salt pile ends",
	storm.TanksFull:   "the storage tanks are full",
	storm.NoMixer:     "there is no mixing tank",
	storm.NoStorage:   "there is no storage tank for brine",
	storm.OutOfBand:   "the storage tanks hold brine out of the band or on its edge, to be corrected or read again first",
	storm.TooManyRuns: "a plan holds no more batches",
}

// because says why there is less than wanted, in brackets.
func because(p storm.Plan) string {
	var reasons []string
	for _, r := range p.Reasons() {
		reasons = append(reasons, strings.ReplaceAll(shortageWords[r.Why], "{}", strings.Join(r.Names, ", ")))
	}
	if len(reasons) == 0 {
		return ""
	}
	return " (" + strings.Join(reasons, "; ") + ")"
}

// lackWords name what a route lacks.
func lackWords(l storm.Lack) string {
	switch l.Why {
	case storm.LiquidEnds:
		return l.Liquid
	case storm.NoDrySalt:
		return "salt"
	}
	return string(l.Why) // brine or truck
}
