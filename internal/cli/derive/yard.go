package derive

import (
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/working"
)

// MixingTank is a mixing tank: what it works with, and what it can do with that.
type MixingTank struct {
	Name string
	With brine.CapabilityRequest
	Can  brine.Capability
}

// Yard follows a batch of each mixing tank, and what they make with one pump and one supply
// between them. Run are the places in the list of those that make the most.
func Yard(v show.View, tanks []MixingTank, run []int) []report.Step {
	k := begin(v)
	var all []cycle
	cycles := make([]cycle, len(tanks))
	for i, m := range tanks {
		if m.Can.PumpOff == 0 {
			continue
		}
		cycles[i] = k.chargeSteps(charge{
			name: m.Name, off: m.Can.PumpOff, mix: m.With.MixTime, target: m.With.Target, at: m.Can.BrineTemp, rock: m.With.RockSalt,
			waterAt: m.With.WaterTemp, supply: m.With.Supply, pump: m.With.PumpFlow, density: m.Can.Density, waterDensity: m.Can.WaterDensity,
		})
		if cycles[i].known {
			all = append(all, cycles[i])
		}
	}
	if len(all) > 1 {
		k.sharedSteps(all, cycles, run)
	}
	return k.Steps()
}

// sharedSteps are what all tanks make together, and those that make the most where they are
// not all.
func (k sheet) sharedSteps(all, cycles []cycle, run []int) {
	k.together(all)
	if len(run) == len(all) {
		return
	}
	var some []cycle
	for _, i := range run {
		some = append(some, cycles[i])
	}
	k.Read("Brine an hour, at most", k.Say("%s alone, as a further tank would keep the pump or the supply for longer than it is worth", namesOf(some)), k.together(some))
}

// together is what some tanks make: the sum of what each makes alone, over the time that
// what they wait for most, the pump or the supply, takes for it. A pump mixes and pumps off.
func (k sheet) together(some []cycle) working.Term {
	if len(some) == 1 {
		return some[0].anHour
	}
	names := namesOf(some)
	var made, pumping, filling []working.Term
	for _, c := range some {
		made = append(made, c.anHour)
		pumping = append(pumping, c.mix, c.pumpOff, c.whole)
		filling = append(filling, c.fill, c.whole)
	}
	sum := k.Sum("Brine an hour of "+names+", if none waited", "sum", made...)
	pump := k.StepAs("Hours that the pump needs for that", "(mix + pump off) / time of a batch, added up", repeated("({} + {}) / {}", len(some)), "", pumping...)
	supply := k.StepAs("Hours that the supply needs for it", "fill / time of a batch, added up", repeated("{} / {}", len(some)), "", filling...)
	most := pump
	if supply.Value() > pump.Value() {
		most = supply
	}
	return k.Step("Brine an hour of "+names+", with one pump and one supply", "sum / the more of the two", k.VolumeUnit(), sum, most)
}

// repeated adds up so many of an expression.
func repeated(expression string, times int) string {
	return strings.TrimSuffix(strings.Repeat(expression+" + ", times), " + ")
}

func namesOf(some []cycle) string {
	var names []string
	for _, c := range some {
		names = append(names, c.name)
	}
	return strings.Join(names, " and ")
}
