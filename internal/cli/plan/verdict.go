package plan

import (
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
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

// productionVerdict says whether all is down in time, and else what is left out and why.
func productionVerdict(v show.View, r storm.Request, p storm.Plan) string {
	made := ""
	if p.Production.Batches > 0 {
		made = v.Say(", %s, done at %s", show.Plural(p.Production.Batches, "batch", "batches"), v.Clock(p.Production.DoneAt))
	}
	switch {
	case p.Short > 0 || p.Production.Late:
		return lateVerdict(v, r, p)
	case p.ReserveGap > 0:
		return v.Say("All of it%s, but the reserve lacks %v%s.", downBy(v, r, p), p.ReserveGap, because(p)) + beginBy(v, r, p)
	case p.Production.Batches == 0:
		return v.Say("The tanks hold enough: all of it%s, %v wanted, no batch to make.", downBy(v, r, p), p.Demanded)
	}
	return v.Say("All of it%s: %v wanted%s.", downBy(v, r, p), p.Demanded, made) + beginBy(v, r, p)
}

// downBy says by when all is down: by the time that was asked for, or when the last truck is back.
func downBy(v show.View, r storm.Request, p storm.Plan) string {
	switch {
	case r.DownBy > 0:
		return " is down by " + v.Clock(r.DownBy)
	case len(p.Loading.Loads) > 0:
		return " is down by " + v.Clock(p.Loading.LastBack())
	}
	return " can be had"
}

// lateVerdict says what is down in time, what is left out, and why.
func lateVerdict(v show.View, r storm.Request, p storm.Plan) string {
	text := v.Say("Short by %v%s%s.", p.Short, alsoReserve(v, p), because(p))
	if r.DownBy > 0 {
		text = v.Say("%v of %v are down by %s%s%s; left out by then: %s.", p.InTime, p.Demanded, v.Clock(r.DownBy), alsoReserve(v, p), because(p), leftOut(v, p))
		if p.Production.Late {
			text += v.Say(" What comes later is down by %s.", v.Clock(p.Loading.LastBack()))
		}
	}
	return text + beginBy(v, r, p)
}

// mostNamed is how many routes a verdict names.
const mostNamed = 3

// leftOut names the routes that are not whole in time, with what each lacks then.
func leftOut(v show.View, p storm.Plan) string {
	var names []string
	more := 0
	for _, r := range p.Routes {
		lacks := r.Demanded - r.InTime
		if r.Lack == (storm.Lack{}) || lacks <= 0 {
			continue
		}
		if len(names) == mostNamed {
			more++
			continue
		}
		names = append(names, v.Say("%s (%v)", r.Route.Name, lacks))
	}
	if more > 0 {
		names = append(names, show.Plural(more, "route more", "routes more"))
	}
	return strings.Join(names, ", ")
}

// alsoReserve tells what the reserve lacks besides.
func alsoReserve(v show.View, p storm.Plan) string {
	if p.ReserveGap == 0 {
		return ""
	}
	return v.Say(", and by %v of the reserve", p.ReserveGap)
}

// beginBy says when work has to begin for what is made, if anything is.
func beginBy(v show.View, r storm.Request, p storm.Plan) string {
	latest := v.Clock(p.Production.Latest)
	switch {
	case p.Production.Earlier:
		return " For all that can be had in time work would have to begin by " + latest + "."
	case p.Production.Batches == 0 || p.Production.Late || len(r.Trucks) == 0:
		return ""
	case p.Production.Latest < r.Now+quantity.Minute:
		return " Begin at once."
	}
	return " Begin by " + latest + " at the latest."
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
	return string(l.Why) // brine, time or truck
}
