package records

import (
	"fmt"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

var yardDrawCommand = run.Command{
	Use:   "draw",
	Short: "The plumbing as a diagram of text, the pump in the middle",
	Long: "draw shows the lines and valves in the yard file. The suction stands on the\n" +
		"left, the discharge on the right. A [name] is a valve. A (name) is a line.",
	Example:   "  brineyard yard draw\n  brineyard yard draw --yard north.toml",
	Args:      run.NoArguments,
	New:       func() run.Question { return &yardDraw{} },
	NoWorking: "No working: the plumbing is drawn as the file has it.",
}

type yardDraw struct{}

// Bind asks for a yard file with a plumbing.
func (*yardDraw) Bind(b *bind.Set) {
	b.Then(needsYard)
	b.Then(func(s *bind.Scope) error {
		if len(s.Yard.Plumbing.Links) == 0 {
			return fault.Refuse("%s tells no lines and valves; allowed: a yard file with [[line]] and [[valve]]", s.Yard.Path)
		}
		return nil
	})
}

// Answer draws it.
func (*yardDraw) Answer(s *run.Session) (run.Reply, error) {
	return run.Reply{
		Figures: []report.Figure{
			show.Quiet(report.Figure{Key: "valves", Label: "Valves", Value: show.Count(len(s.Yard.Plumbing.Valves()))}),
			show.Quiet(report.Figure{Key: "links", Label: "Lines and valves", Value: show.Count(len(s.Yard.Plumbing.Links))}),
		},
		Words: func(d *report.Document) {
			d.Title, d.Verdict = "Plumbing", fmt.Sprintf("%s: suction on the left, discharge on the right.", s.Yard.Path)
			d.Drawings = show.Plumbing(s.Yard.Plumbing)
			if !people(s) {
				d.Tables = []report.Table{linkTable(s.Yard.Plumbing)}
			}
			d.Notes = append(show.ExposureNotes(s.Yard.Plumbing), show.PlumbingNotes(s.Yard.Plumbing)...)
			d.Next = "lineup, with --from and --to, says which valves to open."
		},
	}, nil
}

// linkTable lists the lines and valves, for programs.
func linkTable(p yard.Plumbing) report.Table {
	t := report.Table{Key: "links", Title: "Lines and valves", Columns: []report.Column{
		{Key: "name", Label: "Name"}, {Key: "kind", Label: "Kind"}, {Key: "from", Label: "From"}, {Key: "to", Label: "To"}, {Key: "protection", Label: "Protection"},
	}}
	for _, l := range p.Links {
		kind, protection := "line", ""
		switch {
		case l.Turns != "":
			kind = "three-way valve"
		case l.OneWay:
			kind = "check valve"
		case l.Valve:
			kind = "valve"
		}
		switch {
		case l.AirGap:
			protection = "air gap"
		case l.Protected:
			protection = "backflow preventer"
		}
		t.Rows = append(t.Rows, []report.Value{report.Word(l.Name), report.Word(kind), report.Word(l.A), report.Word(l.B), report.Word(protection)})
	}
	return t
}
