package drill

import (
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
)

// Safe is the answer for a setting that the lineup finds nothing in.
const Safe = "safe"

// faultWords are the answers to what is wrong with a setting.
func faultWords() []string {
	return []string{Safe, string(lineup.DryRun), string(lineup.TwoSources), string(lineup.DeadHead)}
}

// fault makes a setting out of the move, right or wrong, and asks what it is.
func (b board) fault(d *draw) (sketch, error) {
	open, want := b.changed(d)
	open = b.inOrder(open)
	s := b.judge(open)
	if want == "" || verdict(s) != want {
		return sketch{}, errUnfit
	}
	var out sketch
	out.Question = "The pump starts with these valves open: %v. All others are shut. Is that safe for the pump, or what is wrong?"
	out.Args = []quantity.Quantity{listed(open)}
	out.Answer = wordAnswer(want, faultWords())
	// What the other side of the pump would make of the same number of valves.
	mirror := map[string]string{
		Safe:                      string(lineup.TwoSources),
		string(lineup.DryRun):     string(lineup.DeadHead),
		string(lineup.DeadHead):   string(lineup.DryRun),
		string(lineup.TwoSources): Safe,
	}
	out.Mistakes = []Mistake{halfChecked.to(Word(Safe)), wrongSide.to(Word(mirror[want]))}
	b.note(&out.Working, open)
	return out, nil
}

// changed opens one valve more than the move needs, or shuts one, and tells what is
// to come of it.
func (b board) changed(d *draw) (open []string, want string) {
	open = b.move.Setting.Open
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
	return open, Safe
}

// verdict is the one word for a setting; empty where one word does not say it. Two
// sources level out past the pump besides, as the same fault.
func verdict(s lineup.Setting) string {
	word := Safe
	for _, f := range s.Findings {
		switch f.Fault {
		case lineup.DryRun, lineup.DeadHead, lineup.TwoSources:
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
