package move

import (
	"fmt"
	"slices"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/hydraulics"
	"brineyard/internal/lineup"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

var lineupCommand = run.Command{
	Screen: true,
	Use:    "lineup [FROM TO]",
	Short:  "Which valves in which order for a move, and what a setting does",
	Long: "lineup finds which valves to open for a move, and in which order. It goes by\n" +
		"the pipes in the yard file. --open judges a setting of open valves. It finds a\n" +
		"pump that draws nothing, or from two places. It finds a pump with no way out,\n" +
		"and water joined to brine. With --from and --to it tells whether that is the\n" +
		"move that is meant.",
	Example: "  brineyard lineup --from north --to truck-fill\n" +
		"  brineyard lineup --open S1,D2",
	New:       func() run.Question { return &valves{} },
	Rows:      true,
	NoWorking: "No working here: a setting of valves is looked at, not worked out.",
}

// valves asks one of three things: a move, a setting, or a rinse.
type valves struct {
	from, to, open string
	pump           string
	rinse          bool
	meant          bool                                  // the setting is judged against a move
	answer         func(*run.Session) (run.Reply, error) // to what was asked
}

// Bind binds the places, the open valves and the rinse, and takes one of them.
func (q *valves) Bind(b *bind.Set) {
	bind.Spoken(b, "mixer north", "from", "to")
	from := bind.Name(b, &q.from, "from", "`place` to take from: a tank, or supply", bind.Places)
	to := bind.Name(b, &q.to, "to", "`place` to bring to: a tank or an outlet", bind.Places)
	open := bind.Name(b, &q.open, "open", "`valves` that are open, with commas between; none for all closed", nil)
	pump := bind.Name(b, &q.pump, "pump", "`name` of the pump that runs; the first, or the one that will do, unless given", bind.PumpNames)
	bind.Switch(b, &q.rinse, "rinse", "the moves that rinse every line and the pump with fresh water")
	b.Then(needsPlumbing)
	b.SaysOf(fault.FieldFrom, func() string { return "--from " + from.Quoted() })
	b.SaysOf(fault.FieldMoveTo, func() string { return "--to " + to.Quoted() })
	b.Says(hydraulics.FieldCurve, "the yard file's pump curve")
	b.SaysOf(lineup.FieldPump, func() string { return "--pump " + pump.Quoted() })
	b.SaysOf(fault.FieldOpen, func() string { return "--open " + open.Quoted() })
	b.Then(func(s *bind.Scope) error {
		if q.meant = open.Given() && from.Given() && to.Given() && !q.rinse; q.meant {
			q.answer = q.judge
			return nil
		}
		asked := 0
		for _, question := range []struct {
			given  bool
			answer func(*run.Session) (run.Reply, error)
		}{{from.Given() || to.Given(), q.planMove}, {open.Given(), q.judge}, {q.rinse, q.planRinse}} {
			if question.given {
				q.answer, asked = question.answer, asked+1
			}
		}
		switch {
		case asked == 0:
			return b.Lack(fault.Refuse("nothing asked; allowed: --from with --to, --open, or --rinse"), "From where? "+strings.Join(bind.Places(s.Yard), ", "), "", "from")
		case asked > 1:
			return fault.Refuse("more than one question; allowed: --from with --to, --open, both, or --rinse")
		case to.Given() && !from.Given():
			return b.Lack(fault.Refuse("a move needs both ends; allowed: --from with --to"), "From where? "+strings.Join(bind.Places(s.Yard), ", "), "", "from")
		case from.Given() && !to.Given():
			return b.Lack(fault.Refuse("a move needs both ends; allowed: --from with --to"), "To where? "+strings.Join(bind.Places(s.Yard), ", "), "", "to")
		}
		return nil
	})
}

// needsPlumbing refuses a yard of which no lines are known.
func needsPlumbing(s *bind.Scope) error {
	if s.Yard == nil {
		return fault.Refuse("no yard file, so no plumbing is known; allowed: --yard with a file")
	}
	if len(s.Yard.Plumbing.Links) == 0 {
		return fault.Refuse("%s tells no lines and valves; allowed: a yard file with [[line]] and [[valve]]", s.Yard.Path)
	}
	return nil
}

// Answer answers what was asked.
func (q *valves) Answer(s *run.Session) (run.Reply, error) { return q.answer(s) }

// planMove finds the valves for a move.
func (q *valves) planMove(s *run.Session) (run.Reply, error) {
	m, err := lineup.Plan(s.Yard.Plumbing, q.pump, q.from, q.to)
	if err != nil {
		return run.Reply{}, err
	}
	now, err := s.Standing()
	if err != nil {
		return run.Reply{}, err
	}
	ends := ends{now, m, s.Env.Now()}
	wrong := ends.wrong(s.View)
	figures, notes := append(moveFigures(m), show.Quiet(report.Figure{Key: "decision", Label: "Decision", Value: decisionOf(wrong)})), []string(nil)
	if m.Pumped {
		rate, err := ends.rate()
		if err != nil {
			return run.Reply{}, err
		}
		figures, notes = append(figures, rate.figures(s.View)...), rate.notes(s.View)
	}
	return run.Reply{
		Figures: figures,
		Words: func(d *report.Document) {
			moveWords(d, s.Yard.Plumbing, m)
			d.Verdict += ends.verdict(s.View)
			if wrong != "" {
				d.Verdict = "Do not pump: " + wrong + ". The valves for it: " + strings.ToLower(d.Verdict[:1]) + d.Verdict[1:]
			}
			d.Notes = slices.Concat(notes, ends.weaker(s.View), ends.doubts(s.View), ends.weak(s.View))
		},
		Working: func() []report.Step { return pathSteps(m) },
	}, nil
}

// judge tells what a setting does.
func (q *valves) judge(s *run.Session) (run.Reply, error) {
	setting, err := lineup.Judge(s.Yard.Plumbing, q.pump, valveList(s.Yard.Plumbing, q.open))
	if err != nil {
		return run.Reply{}, err
	}
	now, err := s.Standing()
	if err != nil {
		return run.Reply{}, err
	}
	stand, wrong := ends{yard: now, now: s.Env.Now()}, ""
	if len(setting.Findings) == 0 {
		stand.Move = lineup.Move{From: setting.Sources[0], To: setting.Outlets[0]}
		wrong = stand.wrong(s.View)
	}
	figures := settingFigures(setting, wrong)
	asMeant := setting.Does(q.from, q.to)
	if q.meant {
		figures = append(figures, report.Figure{Key: "as_meant", Label: "As meant", Value: report.Word(map[bool]string{true: "yes", false: "no"}[asMeant])})
	}
	return run.Reply{Figures: figures, Words: func(d *report.Document) {
		settingWords(d, setting)
		switch {
		case len(setting.Findings) > 0:
			return
		case q.meant && !asMeant:
			d.Verdict = fmt.Sprintf("Do not pump: that is not %s to %s; it pumps %s to %s.", q.from, q.to, stand.From, stand.To)
		case wrong != "":
			d.Verdict = "Do not pump: " + wrong + "."
		}
		d.Notes = append(d.Notes, slices.Concat(stand.weaker(s.View), stand.doubts(s.View))...)
	}}, nil
}

// planRinse finds the moves that rinse everything.
func (q *valves) planRinse(s *run.Session) (run.Reply, error) {
	r, err := lineup.PlanRinse(s.Yard.Plumbing)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{Figures: rinseFigures(s.View, r), Words: func(d *report.Document) { rinseWords(s.View, d, s.Yard.Plumbing, r) }}, nil
}

// valveList splits the names of valves, as the yard file spells them. The beginning of a name will
// not do: S1 is not to be taken for S12.
func valveList(p yard.Plumbing, text string) []string {
	var names []string
	for _, n := range strings.Split(text, ",") {
		if n = strings.TrimSpace(n); n == "" || n == "none" {
			continue
		}
		for _, l := range p.Links {
			if l.Valve && strings.EqualFold(l.Name, n) {
				n = l.Name
				break
			}
		}
		names = append(names, n)
	}
	return names
}
