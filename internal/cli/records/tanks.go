package records

import (
	"fmt"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/state"
)

var tanksCommand = run.Command{
	Use:   "tanks",
	Short: "What stands in each tank and on the pile, by the journal",
	Long: "tanks replays the journal: volume, strength and first solid of every tank, and\n" +
		"the last reading beside what the entries say. A tank begins with a count.",
	Example:   "  brineyard journal tanks\n  brineyard journal tanks --journal second.csv --units metric",
	Args:      run.NoArguments,
	New:       func() run.Question { return &tanks{} },
	NoWorking: "No working: it goes through every entry; store shows the sum of a mix.",
}

type tanks struct{}

// Bind binds nothing: the journal is that in use.
func (q *tanks) Bind(*bind.Set) {}

// Answer replays the journal.
func (q *tanks) Answer(s *run.Session) (run.Reply, error) {
	path := s.JournalPath()
	j, err := readJournal(s, path)
	if err != nil {
		return run.Reply{}, err
	}
	now := state.Replay(s.Yard, journal.Effective(j.Entries))
	table, err := tanksTable(s.View, now)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: []report.Figure{show.Quiet(s.View.Figure("pile", "Salt on the pile", now.Pile))},
		Words: func(d *report.Document) {
			d.Title, d.Cautions = "Tanks by the journal", []string{show.CautionLocal}
			d.Verdict = s.View.Say("By %s in %s: %s, and %s.", show.Plural(now.Entries, "entry", "entries"), path,
				show.Plural(len(table.Rows), "tank", "tanks"), pileText(s.View, now)) + driftText(now)
			d.Notes = append(problemNotes(s.View, now.Problems), pileNotes(s.View, now)...)
			if len(table.Rows) > 0 {
				d.Tables = []report.Table{table}
			}
		},
	}, nil
}

func tanksTable(v show.View, now *state.State) (report.Table, error) {
	t := report.Table{Key: "tanks", Title: "Tanks", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "volume", Label: "Holds"}, {Key: "strength", Label: "Salt"}, {Key: "liquid", Label: "Of"},
		{Key: "first_solid_temp", Label: "First solid"}, {Key: "read", Label: "Last read"}, {Key: "drift", Label: "Drift"},
	}}
	for _, tank := range now.Tanks() {
		first, err := firstSolid(v, tank)
		if err != nil {
			return t, err
		}
		salt, of := contents(v, tank)
		read, drift := lastRead(v, tank)
		t.Rows = append(t.Rows, []report.Value{
			report.Word(tank.Name), v.Value(tank.Volume()), salt, report.Word(of), first, read, drift,
		})
	}
	return t, nil
}

// firstSolid is what the cold makes of a tank, if anything is dissolved in it.
func firstSolid(v show.View, tank *state.Tank) (report.Value, error) {
	if tank.Mass <= 0 || tank.Liquid.Composition.Solute() <= 0 {
		return report.Nothing("", "-"), nil
	}
	cold, err := tank.Liquid.Cold()
	if err != nil {
		return report.Value{}, err
	}
	o := cold.First()
	first := v.Onset("", "", o).Value
	if o.Found {
		first.Text = v.Say("%v %s", show.TemperatureOf(o), show.SolidKind(o.Solid))
	}
	return first, nil
}

// contents are a tank's strength in salt, and what its liquid is called.
func contents(v show.View, tank *state.Tank) (salt report.Value, of string) {
	if tank.Mass == 0 {
		return report.Nothing("%", "-"), "empty"
	}
	of = tank.Liquid.Name
	if _, plain := tank.Liquid.Strength(); !plain {
		of = v.CompositionText(tank.Liquid)
	}
	return v.Value(quantity.Strength(tank.Liquid.Composition.NaCl)), of
}

// lastRead is the last reading of a tank, and by how much it departs from the entries.
func lastRead(v show.View, tank *state.Tank) (read, drift report.Value) {
	read, drift = report.Nothing("%", "-"), report.Nothing("%", "-")
	if r := tank.Reading; r != nil {
		read = v.Value(r.True)
		if r.Comparable {
			drift = v.Value(r.True - r.Expected)
		}
	}
	return read, drift
}

func pileText(v show.View, now *state.State) string {
	if !now.PileKnown {
		return "a pile of salt that was never counted"
	}
	return v.Say("%v of salt on the pile", now.Pile)
}

// driftText names the first tank whose last reading contradicts the entries.
func driftText(now *state.State) string {
	for _, tank := range now.Tanks() {
		if tank.Reading != nil && tank.Reading.Drifted() {
			return " The last reading of " + tank.Name + " does not agree with the entries: read it again, or look for what was not recorded."
		}
	}
	return ""
}

func pileNotes(v show.View, now *state.State) []string {
	var notes []string
	if now.Pile < 0 && now.PileKnown {
		notes = append(notes, "More salt was used than was counted or delivered: a delivery, or the opening count of the pile, is missing.")
	}
	if c := now.PileCount; c != nil {
		notes = append(notes, v.Say("At its last count, entry %d, the pile held %v; by the entries it was %v.", c.Entry, c.Counted, c.Expected))
	}
	return notes
}

// mostProblems is how many are listed: more hide the rest.
const mostProblems = 8

// problemNotes list entries that do not fit what came before them.
func problemNotes(v show.View, problems []state.Problem) []string {
	var notes []string
	for i, p := range problems {
		if i == mostProblems {
			return append(notes, fmt.Sprintf("And %d more entries like these.", len(problems)-i))
		}
		notes = append(notes, fmt.Sprintf("Entry %d: %s.", p.Entry, fault.Sentence(p.Text, p.Args, v.System)))
	}
	return notes
}
