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
)

// Finding is a fault with the places that it concerns.
type Finding struct {
	Fault  Fault
	Places []string
}

// Setting is what a choice of open valves does.
type Setting struct {
	Open     []string // valves, in the plumbing's order
	Sources  []string // what the pump draws from
	Outlets  []string // where it pumps to
	Findings []Finding
}

// Does reports whether it moves from the one place to the other, and to and from nowhere else; the findings are not
// asked.
func (s Setting) Does(from, to string) bool {
	return slices.Equal(s.Sources, []string{from}) && slices.Equal(s.Outlets, []string{to})
}

// allowedNames lists what there is for a refusal, in the order in which a person looks for it.
func allowedNames(names []string, what string) fault.Word {
	return fault.Word(words.Joined(words.Natural(names), "none; the plumbing has no "+what))
}

// Judge tells what a setting of open valves does, with the pump running. Errors:
// InputError for a valve that is not there.
func Judge(p yard.Plumbing, open []string) (Setting, error) {
	n := network{p, map[string]bool{}}
	for _, name := range open {
		if !p.HasValve(name) {
			return Setting{}, fault.Input(fault.FieldOpen, "no valve is named %v; allowed: %v", fault.Word(words.Quoted(name)), allowedNames(p.Valves(), "valves"))
		}
		n.open[name] = true
	}
	return n.judge(true), nil
}

// judge tells what the open valves do, with the pump running or off. The rules stand in the
// order in which faults are reported.
func (n network) judge(pumping bool) Setting {
	in, out := n.reach(yard.PumpInlet, anyLink), n.reach(yard.PumpOutlet, anyLink)
	s := Setting{Open: n.openValves(), Sources: inOrder(n.sources(), in), Outlets: inOrder(n.ends(), out)}
	air, touched := inOrder(n.Outlets, in), n.unprotected()
	// In a ring the pump has a source and an outlet: only the ring itself is reported.
	ring := in[yard.PumpOutlet]
	atPump := pumping && !ring
	for _, rule := range []struct {
		fault  Fault
		places [][]string // one list a finding
	}{
		{Ring, once(pumping && ring)},
		{DryRun, once(atPump && len(s.Sources) == 0)},
		{TwoSources, once(atPump && len(s.Sources) > 1, s.Sources...)},
		{DrawsAir, once(atPump && len(air) > 0, air...)},
		{DeadHead, once(atPump && len(s.Outlets) == 0)},
		{TwoOutlets, once(atPump && len(s.Outlets) > 1, s.Outlets...)},
		{Backflow, once(len(touched) > 0, touched...)},
		{TanksJoined, n.joined()},
		{AlsoRuns, n.alsoRuns(pumping, out)},
	} {
		for _, places := range rule.places {
			s.Findings = append(s.Findings, Finding{rule.fault, places})
		}
	}
	return s
}

// once is one finding with its places, or none.
func once(found bool, places ...string) [][]string {
	if !found {
		return nil
	}
	return [][]string{places}
}
