package cli

import (
	"slices"
	"sort"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type lineupOptions struct {
	from, to text
	open     text
	rinse    bool
}

func newLineup(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "lineup",
		Short: "Which valves in which order for a move, and what a setting does",
		Long: "lineup finds from the yard file's plumbing which valves to open for a move, in\n" +
			"which order; or judges a setting of open valves: a pump that draws nothing or\n" +
			"from two places, that has no way out, or fresh water joined to brine.",
		Example: "  brineyard lineup --from north --to truck-fill\n" +
			"  brineyard lineup --open S1,D2",
		Args: noArguments,
	}, &lineupOptions{})
}

// flags defines the flags.
func (o *lineupOptions) flags(f *pflag.FlagSet) {
	f.Var(&o.from, "from", "`place` to take from: a tank, or supply")
	f.Var(&o.to, "to", "`place` to bring to: a tank or an outlet")
	f.Var(&o.open, "open", "`valves` that are open, with commas between; none for all closed")
	f.BoolVar(&o.rinse, "rinse", false, "the moves that rinse every line and the pump with fresh water")
}

// ask answers them.
func (o *lineupOptions) ask(s *setting, _ []string) (reply, error) {
	if s.yard == nil {
		return reply{}, usagef("no yard file, so no plumbing is known; allowed: --yard with a file")
	}
	p := s.yard.Plumbing
	if len(p.Links) == 0 {
		return reply{}, usagef("%s tells no lines and valves; allowed: a yard file with [[line]] and [[valve]]", s.yard.Path)
	}
	s.origin[fault.FieldFrom] = said("--from " + words.Quoted(o.from.value))
	s.origin[fault.FieldMoveTo] = said("--to " + words.Quoted(o.to.value))
	s.origin[fault.FieldOpen] = said("--open " + words.Quoted(o.open.value))
	d, err := o.document(s, p)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	return shown(d, nil)
}

// document takes exactly one of the three questions.
func (o *lineupOptions) document(s *setting, p yard.Plumbing) (*report.Document, error) {
	move := o.from.given || o.to.given
	asked := 0
	for _, given := range []bool{move, o.open.given, o.rinse} {
		if given {
			asked++
		}
	}
	switch {
	case asked != 1:
		return nil, usagef("%d questions; allowed: one of --from with --to, --open, or --rinse", asked)
	case move && !(o.from.given && o.to.given):
		return nil, usagef("a move needs both ends; allowed: --from with --to")
	case o.open.given:
		setting, err := lineup.Judge(p, valveList(o.open.value))
		return s.judgeDocument(p, setting), err
	case o.rinse:
		r, err := lineup.PlanRinse(p)
		return s.rinseDocument(p, r), err
	}
	m, err := lineup.Plan(p, o.from.value, o.to.value)
	return s.moveDocument(p, m), err
}

// valveList splits the names of valves.
func valveList(text string) []string {
	var names []string
	for _, n := range strings.Split(text, ",") {
		if n = strings.TrimSpace(n); n != "" && n != "none" {
			names = append(names, n)
		}
	}
	return names
}

func (s *setting) moveDocument(p yard.Plumbing, m lineup.Move) *report.Document {
	open := "Open " + strings.Join(m.Setting.Open, ", ") + ", all else closed"
	if len(m.Setting.Open) == 0 {
		open = "Close every valve"
	}
	verdict := s.show("%s, and pump: %s to %s.", open, m.From, m.To)
	if !m.Pumped {
		verdict = s.show("%s, pump off: the supply runs to %s by its own pressure.", open, m.To)
		m.Setting.Sources, m.Setting.Outlets = []string{yard.FreshWater}, []string{m.To}
	}
	return &report.Document{
		Notes:    s.mixNotes(m),
		Command:  "lineup",
		Title:    "Lineup",
		Verdict:  verdict,
		Figures:  s.openFigures(m.Setting),
		Tables:   []report.Table{stepTable("steps", "In this order", moveSteps(p, m))},
		Drawings: []string{diagram(m)},
		Working:  pathSteps(m),
		Cautions: lineupCautions(m),
	}
}

// mixNotes warn of pumping one liquid into another.
func (s *setting) mixNotes(m lineup.Move) []string {
	from, ok1 := s.yard.Tank(m.From)
	to, ok2 := s.yard.Tank(m.To)
	if !ok1 || !ok2 || from.Liquid == nil || to.Liquid == nil || to.Usual() == 0 {
		return nil
	}
	a, b := s.describe(*from.Liquid), s.describe(*to.Liquid)
	_, plainA := from.Liquid.Strength()
	_, plainB := to.Liquid.Strength()
	if plainA && plainB || a == b {
		return nil
	}
	return []string{s.show("By the yard file %s holds %s and %s holds %s: see with blend or store what that makes before it is pumped.", m.From, a, m.To, b)}
}

func (s *setting) openFigures(setting lineup.Setting) []report.Figure {
	words := func(key, label string, list []string) report.Figure {
		v := report.Word(strings.Join(list, ", "))
		if len(list) == 0 {
			v = report.Nothing("", "none")
		}
		return report.Figure{Key: key, Label: label, Value: v}
	}
	return []report.Figure{
		words("open", "Open", setting.Open),
		words("source", "Draws from", setting.Sources),
		words("outlet", "Pumps to", setting.Outlets),
	}
}

// stepTable lists steps by number.
func stepTable(key, title string, steps []string) report.Table {
	t := report.Table{Key: key, Title: title, Columns: []report.Column{{Key: "step", Label: ""}, {Key: "do", Label: "Do"}}}
	for i, step := range steps {
		t.Rows = append(t.Rows, []report.Value{report.Word(ordinal(i)), report.Word(step)})
	}
	return t
}

// moveSteps put a move in order. Common practice, no source: pump off first, close
// before opening, suction before discharge, and stop the pump before closing.
func moveSteps(p yard.Plumbing, m lineup.Move) []string {
	steps := []string{"Pump off."}
	if closed := closedValves(p, m); len(closed) > 0 {
		steps = append(steps, "Close "+strings.Join(closed, ", ")+".")
	}
	for _, h := range m.Path {
		if h.Link.Valve {
			steps = append(steps, "Open "+h.Link.Name+" ("+h.Link.A+" - "+h.Link.B+").")
		}
	}
	if !m.Pumped {
		return append(steps,
			"Check the level in "+m.To+" and stay with it.",
			"Stop: close the valves in the same order.")
	}
	above := "liquid above the suction in " + m.From
	if m.From == yard.FreshWater {
		above = "the supply on"
	}
	see, room := "that "+m.To+" fills", ", room in "+m.To
	if m.From == m.To {
		see, room = "that it comes back", ""
	}
	return append(steps,
		"Check: "+above+room+", nothing else open.",
		"Start the pump; see that it draws and "+see+".",
		"Stop: pump off first, then close from "+m.To+" back to "+m.From+".")
}

// closedValves are all that a move leaves closed.
func closedValves(p yard.Plumbing, m lineup.Move) []string {
	open := map[string]bool{}
	for _, n := range m.Setting.Open {
		open[n] = true
	}
	var closed []string
	for _, l := range p.Links {
		if l.Valve && !open[l.Name] {
			closed = append(closed, l.Name)
		}
	}
	return closed
}

// pathSteps follow the liquid from place to place.
func pathSteps(m lineup.Move) []report.Step {
	var steps []report.Step
	at := m.From
	for _, h := range m.Path {
		way := "line " + h.Link.Name
		if h.Link.Valve {
			way = "valve " + h.Link.Name + ", open"
		}
		steps = append(steps, report.Step{What: "From " + at + " to " + h.To, Formula: way})
		if at = h.To; at == yard.PumpInlet {
			at = "the pump"
		}
	}
	return steps
}

// diagram draws the way of the liquid in a line.
func diagram(m lineup.Move) string {
	text := m.From
	for _, h := range m.Path {
		mark := "--"
		if h.Link.Valve {
			mark = "--[" + h.Link.Name + "]--"
		}
		switch h.To {
		case yard.PumpInlet:
			text += " " + mark + " (pump)"
		case m.To:
			text += " " + mark + " " + m.To
		default:
			text += " " + mark + " " + h.To
		}
	}
	return text
}

func lineupCautions(m lineup.Move) []string {
	cautions := []string{cautionPump}
	if m.From == yard.FreshWater {
		cautions = append(cautions, cautionBackflow)
	}
	return append(cautions, cautionDrain, cautionLocal)
}

// findingText says what a fault means.
var findingText = map[lineup.Fault]string{
	lineup.DryRun:      "Dry run: no suction is open, so the pump draws nothing.",
	lineup.DrawsAir:    "Draws air: an open end is on the suction side: ",
	lineup.TwoSources:  "Two sources: the pump draws from more than one place: ",
	lineup.DeadHead:    "Dead head: no outlet is open, so the pump works against closed valves.",
	lineup.Ring:        "Ring: the pump's outlet leads back to its own suction.",
	lineup.Backflow:    "Backflow: fresh water is joined to brine with neither air gap nor backflow preventer: ",
	lineup.TanksJoined: "Tanks joined: they level out past the pump: ",
	lineup.AlsoRuns:    "Also running by itself, past the pump: ",
}

func (s *setting) judgeDocument(p yard.Plumbing, setting lineup.Setting) *report.Document {
	d := &report.Document{Command: "lineup", Title: "What this setting does", Figures: s.openFigures(setting)}
	t := report.Table{Key: "findings", Title: "What is wrong", Columns: []report.Column{{Key: "fault", Label: "Fault"}, {Key: "places", Label: "Places"}}}
	for _, f := range setting.Findings {
		t.Rows = append(t.Rows, []report.Value{report.Word(string(f.Fault)), report.Word(strings.Join(f.Places, ", "))})
	}
	if len(setting.Findings) == 0 {
		d.Verdict = s.show("Good to pump: %s to %s.", strings.Join(setting.Sources, ", "), strings.Join(setting.Outlets, ", "))
		if len(setting.Outlets) > 1 {
			d.Notes = append(d.Notes, "It pumps to more than one place: the nearer one fills faster.")
		}
	} else {
		var texts []string
		for _, f := range setting.Findings {
			texts = append(texts, strings.TrimSuffix(findingText[f.Fault]+strings.Join(f.Places, ", "), " "))
		}
		d.Verdict = "Do not pump: " + lowerFirst(texts[0])
		d.Notes = append(d.Notes, texts[1:]...)
		d.Tables = append(d.Tables, t)
	}
	decision := "pump"
	if len(setting.Findings) > 0 {
		decision = string(setting.Findings[0].Fault)
	}
	d.Figures = append(d.Figures, quiet(report.Figure{Key: "decision", Label: "Decision", Value: report.Word(decision)}))
	d.Cautions = []string{cautionPump, cautionLocal}
	return d
}

func lowerFirst(text string) string {
	if text == "" {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}

func (s *setting) rinseDocument(p yard.Plumbing, r lineup.Rinse) *report.Document {
	d := &report.Document{Command: "lineup", Title: "Rinsing the plumbing", Cautions: []string{cautionPump, cautionBackflow, cautionDrain, cautionEntry, cautionLocal}}
	var steps, empty []string
	for _, m := range r.Moves {
		if m.From != yard.FreshWater {
			empty = append(empty, m.From)
		}
	}
	if len(empty) > 0 {
		steps = append(steps, "Bring the brine of "+strings.Join(unique(empty), ", ")+" to where it keeps, and take the salt bed out of a mixing tank.")
	}
	filled := map[string]bool{}
	for _, m := range r.Moves {
		if m.From != yard.FreshWater && !filled[m.From] {
			filled[m.From] = true
			steps = append(steps, rinseFill(m))
		}
		how := "pump"
		if !m.Pumped {
			how = "let run"
		}
		steps = append(steps, "Open "+strings.Join(m.Setting.Open, ", ")+", all else closed; "+how+" fresh water from "+m.From+" to "+m.To+" until it runs clear.")
	}
	steps = append(steps, "Pump off and locked out. Open the low points and drain every line, the pump and its filter.",
		"Leave the valves half open, so that what is left can move when it freezes.")
	moves := s.show("%d moves pass", len(r.Moves))
	if len(r.Moves) == 1 {
		moves = "One move passes"
	}
	switch {
	case len(r.Moves) == 0:
		d.Verdict = "No move of this plumbing rinses anything: rinse every line by hose, then drain it all."
	case len(r.Dry) > 0:
		sort.Strings(r.Dry)
		d.Verdict = s.show("%s fresh water through all but %s; rinse those by hose, then drain it all.", moves, strings.Join(r.Dry, ", "))
	default:
		d.Verdict = s.show("%s fresh water through every line and the pump; then drain it all.", moves)
	}
	d.Figures = []report.Figure{{Key: "moves", Label: "Moves", Value: report.Number(float64(len(r.Moves)), "", s.show("%d", len(r.Moves)))}}
	d.Tables = []report.Table{stepTable("steps", "In this order", steps)}
	d.Notes = []string{"Rinse water is weak brine: it goes to a storage tank or the next batch, and down a drain only where the law lets it."}
	return d
}

// unique drops repeated words.
func unique(words []string) []string {
	var out []string
	for _, w := range words {
		if !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

// rinseFill says how fresh water comes into a tank that is rinsed from.
func rinseFill(m lineup.RinseMove) string {
	if m.Fill == nil {
		return "Put fresh water into " + m.From + " by hose, with an air gap."
	}
	how := "let the supply run"
	if m.Fill.Pumped {
		how = "pump from the supply"
	}
	return "Open " + strings.Join(m.Fill.Setting.Open, ", ") + ", all else closed, and " + how + " into " + m.From + "."
}
