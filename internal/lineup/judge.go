// Package lineup finds the valves to open for a move, and judges a setting of open valves.
package lineup

import (
	"slices"

	"brineyard/internal/fault"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Fault says what is wrong with a setting of the valves.
type Fault string

// The faults of a setting.
const (
	DryRun      Fault = "dry run"      // no open suction
	DrawsAir    Fault = "draws air"    // an open end on the suction side
	TwoSources  Fault = "two sources"  // it draws from more than one place
	DeadHead    Fault = "dead head"    // no open outlet
	TwoOutlets  Fault = "two outlets"  // it pumps to more than one place
	Ring        Fault = "ring"         // the outlet leads back to the suction
	Backflow    Fault = "backflow"     // fresh water joined to brine, unprotected
	TanksJoined Fault = "tanks joined" // they level out past the pump
	AlsoRuns    Fault = "also runs"    // water or brine runs where it is not pumped
	FillOpen    Fault = "fill open"    // fresh water runs into a tank that is pumped round
	SupplyShort Fault = "supply short" // it gives less than the pump moves
)

// Finding is a fault with the places that it concerns.
type Finding struct {
	Fault  Fault
	Places []string
}

// Setting is what a choice of open valves does.
type Setting struct {
	Open     []string // valves, in the plumbing's order, three-way ones by the way in which they stand
	Valves   []string // of them, those that are opened
	Turned   []Stand  // and those that are turned
	Sources  []string // what the pump draws from
	Outlets  []string // where it pumps to
	Findings []Finding
}

// Stand is how a three-way valve is turned.
type Stand struct{ Valve, To string }

// Does reports whether it moves from the one place to the other, and to and from nowhere else; the findings are not
// asked.
func (s Setting) Does(from, to string) bool {
	return slices.Equal(s.Sources, []string{from}) && slices.Equal(s.Outlets, []string{to})
}

// allowedNames lists what there is for a refusal, in the order in which a person looks for it.
func allowedNames(names []string, what string) fault.Word {
	return fault.Word(words.Joined(words.Natural(names), "none; the plumbing has no "+what))
}

// Judge tells what a setting of open valves does, with a pump running; no name is the first pump. Errors:
// InputError for a pump or a valve that is not there, and a three-way valve that stands no way or both.
func Judge(p yard.Plumbing, pump string, open []string) (Setting, error) {
	running, err := pumpNamed(p, pump)
	if err != nil {
		return Setting{}, err
	}
	n := network{p, running, map[string]bool{}}
	for _, name := range open {
		if !p.HasValve(name) {
			return Setting{}, fault.Input(fault.FieldOpen, "no valve is named %v; allowed: %v", fault.Word(words.Quoted(name)), allowedNames(p.Valves(), "valves"))
		}
		n.open[name] = true
	}
	for _, turn := range p.Turns() {
		if stands := inOrder(turn.Ways, n.open); len(stands) != 1 {
			return Setting{}, fault.Input(fault.FieldOpen, "three-way valve %v stands one way; allowed: %v", fault.Word(turn.Valve), allowedNames(turn.Ways, "ways"))
		}
	}
	return n.judge(true), nil
}

// FieldPump names the pump that is to run, in refusals.
const FieldPump = "pump"

// pumpNamed finds a pump; no name is the first.
func pumpNamed(p yard.Plumbing, name string) (yard.Pump, error) {
	var names []string
	for i, pump := range p.AllPumps() {
		if pump.Name == name || i == 0 && name == "" {
			return pump, nil
		}
		if pump.Name != "" {
			names = append(names, pump.Name)
		}
	}
	return yard.Pump{}, fault.Input(FieldPump, "no such pump; allowed: %v", allowedNames(names, "other pumps"))
}

// judge tells what the open valves do, with the pump running or off. The rules stand in the
// order in which faults are reported.
func (n network) judge(pumping bool) Setting {
	in, out := n.reach(n.pump.In(), yard.Link.Back), n.reach(n.pump.Out(), yard.Link.Onward)
	s := Setting{Open: n.openValves(), Valves: n.opened(), Turned: n.turned(), Sources: inOrder(n.sources(), in), Outlets: inOrder(n.ends(), out)}
	air, touched := inOrder(n.Outlets, in), n.unprotected()
	// In a ring the pump has a source and an outlet: only the ring itself is reported.
	ring := in[n.pump.Out()]
	atPump := pumping && !ring
	runs, fill := n.fillOpen(s, n.alsoRuns(pumping, out))
	for _, rule := range []struct {
		fault  Fault
		places [][]string // one list a finding
	}{
		{Ring, once(pumping && ring)},
		{DryRun, once(atPump && len(s.Sources) == 0)},
		{TwoSources, once(atPump && len(s.Sources) > 1, s.Sources...)},
		{SupplyShort, once(atPump && slices.Equal(s.Sources, []string{yard.FreshWater}) && n.supplyShort(), yard.FreshWater)},
		{DrawsAir, once(atPump && len(air) > 0, air...)},
		{DeadHead, once(atPump && len(s.Outlets) == 0)},
		{TwoOutlets, once(atPump && len(s.Outlets) > 1, s.Outlets...)},
		{Backflow, once(len(touched) > 0, touched...)},
		{FillOpen, fill},
		{TanksJoined, n.joined()},
		{AlsoRuns, runs},
	} {
		for _, places := range rule.places {
			s.Findings = append(s.Findings, Finding{rule.fault, places})
		}
	}
	return s
}

// fillOpen takes out of what also runs the fresh water into a tank that is pumped round: its level falls as the salt
// takes the brine's place, the float lets more in, and the batch ends weak and over-full. Common practice, no source.
func (n network) fillOpen(s Setting, runs [][]string) (rest, fill [][]string) {
	for _, pair := range runs {
		if pair[0] == yard.FreshWater && len(s.Sources) == 1 && slices.Equal(s.Sources, s.Outlets) && s.Sources[0] == pair[1] {
			fill = append(fill, pair[1:])
			continue
		}
		rest = append(rest, pair)
	}
	return rest, fill
}

// supplyShort reports whether the pump moves more than the supply is known to give.
func (n network) supplyShort() bool {
	return n.Supply > 0 && n.pump.Flow > 0 && n.Supply < n.pump.Flow
}

// once is one finding with its places, or none.
func once(found bool, places ...string) [][]string {
	if !found {
		return nil
	}
	return [][]string{places}
}
