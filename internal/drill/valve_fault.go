package drill

import (
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
)

// Safe is the answer for a setting in which the lineup finds no fault.
const Safe = "safe"

// faultWords are the answers to choose from.
func faultWords() []string {
	return []string{Safe, string(lineup.DryRun), string(lineup.TwoSources), string(lineup.TwoOutlets), string(lineup.DeadHead)}
}

// fault draws a setting, safe or not, and asks for its fault.
func (b board) fault(d *draw) (draft, error) {
	open, want := b.changed(d)
	open = b.inOrder(open)
	s := b.judge(open)
	if want == "" || verdict(s) != want {
		return draft{}, errUnfit
	}
	var out draft
	out.Question = "The pump starts with these valves open: %v. All others are shut. Is that safe for the pump, or what is wrong?"
	out.Args = []quantity.Quantity{listed(open)}
	out.Answer = wordAnswer(want, faultWords())
	// The answer of a hand who takes one side of the pump for the other.
	mirror := map[string]string{
		Safe:                      string(lineup.TwoSources),
		string(lineup.DryRun):     string(lineup.DeadHead),
		string(lineup.DeadHead):   string(lineup.DryRun),
		string(lineup.TwoSources): string(lineup.TwoOutlets),
		string(lineup.TwoOutlets): string(lineup.TwoSources),
	}
	out.Mistakes = []Mistake{halfChecked.to(fault.Word(Safe)), wrongSide.to(fault.Word(mirror[want]))}
	b.note(&out.Working, open)
	return out, nil
}

// changed opens one valve more than the move needs, shuts one, or leaves them, and returns the answer that
// this should lead to; empty where it teaches nothing.
func (b board) changed(d *draw) (open []string, want string) {
	open = b.move.Setting.Open
	if d.rng.IntN(4) == 0 {
		return open, Safe
	}
	if d.rng.IntN(2) == 0 {
		v := oneOf(d, open)
		open = without(open, v)
		if len(b.judge(open).Sources) == 0 {
			return open, string(lineup.DryRun)
		}
		return open, string(lineup.DeadHead)
	}
	closed := b.shut(open)
	if len(closed) == 0 {
		return open, ""
	}
	open = with(open, oneOf(d, closed))
	if s := b.judge(open); len(s.Sources) > 1 {
		return open, string(lineup.TwoSources)
	} else if len(s.Outlets) < 2 {
		return open, "" // nothing changed that is worth asking for
	}
	return open, string(lineup.TwoOutlets)
}

// verdict is the one word for a setting; empty where one word does not say it. Two
// sources level out past the pump besides, as the same fault.
func verdict(s lineup.Setting) string {
	word := Safe
	for _, f := range s.Findings {
		switch f.Fault {
		case lineup.DryRun, lineup.DeadHead, lineup.TwoSources, lineup.TwoOutlets:
			if word != Safe {
				return ""
			}
			word = string(f.Fault)
		case lineup.TanksJoined, lineup.AlsoRuns:
			if len(s.Sources) < 2 {
				return ""
			}
		default:
			return ""
		}
	}
	return word
}
