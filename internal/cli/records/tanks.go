package records

import (
	"strings"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/cli/standing"
	"brineyard/internal/report"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

var tanksCommand = run.Command{
	Use:   "tanks",
	Short: "What stands in each tank and elsewhere in the yard, by the journal",
	Long: "tanks works through the journal over what the yard file says. It shows volume,\n" +
		"strength and first solid of every tank. It says who said so, and how long ago.\n" +
		"It shows the last reading beside what the entries say. Then come trucks, beds,\n" +
		"pile, liquids and lines.",
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
	now, err := replay(s)
	if err != nil {
		return run.Reply{}, err
	}
	clock := s.Env.Now()
	table, err := tanksTable(s.View, s.Yard, now, clock)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: []report.Figure{show.Quiet(s.View.Figure("pile", "Salt on the pile", now.Pile))},
		Words: func(d *report.Document) {
			d.Title, d.Cautions = "Tanks by the journal", []string{show.CautionLocal}
			d.Verdict = s.View.Say("By %s in %s: %s, and %s.", show.Plural(now.Entries, "entry", "entries"), path,
				show.Plural(len(table.Rows), "tank", "tanks"), pileText(s.View, now)) + driftText(now)
			d.Notes = append(tankNotes(s.View, s.Yard, now), problemNotes(s.View, now.Problems, now.Unlisted)...)
			d.Notes = append(d.Notes, pileNotes(s.View, now)...)
			d.Tables = withRows(table, readingsTable(s.View, now, clock), standing.Table("elsewhere", "Elsewhere", standing.Others(s.View, s.Yard, now), clock))
		},
	}, nil
}

// withRows leaves out tables without rows.
func withRows(tables ...report.Table) []report.Table {
	var some []report.Table
	for _, t := range tables {
		if len(t.Rows) > 0 {
			some = append(some, t)
		}
	}
	return some
}

func tanksTable(v show.View, y *yard.Yard, now *state.State, clock time.Time) (report.Table, error) {
	t := report.Table{Key: "tanks", Title: "Tanks", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "volume", Label: "Holds"}, {Key: "strength", Label: "Salt"}, {Key: "liquid", Label: "Of"},
		{Key: "first_solid_temp", Label: "First solid"}, {Key: "by", Label: "By"}, {Key: "age", Label: "Age"},
	}}
	for _, tank := range standing.TanksOf(y, now) {
		first, err := firstSolid(v, &tank.Stock)
		if err != nil {
			return t, err
		}
		p := standing.TankPlace(v, tank)
		t.Rows = append(t.Rows, []report.Value{report.Word(p.Name), p.Holds, p.Salt, p.Of, first, p.By(), standing.Age(p.Said, clock)})
	}
	return t, nil
}

// readingsTable lists the last reading of each tank beside what the entries made it then.
func readingsTable(v show.View, now *state.State, clock time.Time) report.Table {
	t := report.Table{Key: "readings", Title: "Last readings", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "read", Label: "True"}, {Key: "read_low", Label: "From"}, {Key: "read_high", Label: "To"}, {Key: "expected", Label: "By the entries"}, {Key: "drift", Label: "Drift"},
		{Key: "by", Label: "By"}, {Key: "age", Label: "Age"},
	}}
	for _, tank := range now.Tanks() {
		r := tank.Reading
		if r == nil {
			continue
		}
		expected, drift := report.Nothing("%", "-"), report.Nothing("%", "-")
		if r.Comparable {
			expected, drift = v.Value(v.Sure(r.Expected, r.Range.Half())), v.Value(v.Sure(r.True-r.Expected, r.Range.Half()))
		}
		said, half := yard.Said{Entry: r.Entry, Time: r.Time}, r.Range.Half()
		t.Rows = append(t.Rows, []report.Value{report.Word(tank.Name), v.Value(v.Sure(r.True, half)), v.Value(v.Sure(r.Range.Low, half)), v.Value(v.Sure(r.Range.High, half)), expected, drift, standing.By(said), standing.Age(said, clock)})
	}
	return t
}

// firstSolid is what the cold makes of a tank, if it is known what is dissolved in it.
func firstSolid(v show.View, s *state.Stock) (report.Value, error) {
	if !s.Sure || s.Mass <= 0 || s.Liquid.Composition.Solute() <= 0 {
		return report.Nothing("", "-"), nil
	}
	cold, err := s.Liquid.Cold()
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

// tankNotes tell of tanks of which the entries do not say enough.
func tankNotes(v show.View, y *yard.Yard, now *state.State) []string {
	var never, open, unsure []string
	for _, t := range standing.TanksOf(y, now) {
		switch {
		case t.Known && t.Sure || t.Known && t.Mass == 0:
		case t.Known:
			unsure = append(unsure, t.Name)
		case t.Mass > 0:
			open = append(open, t.Name)
		default:
			never = append(never, t.Name)
		}
	}
	var notes []string
	for _, n := range []struct {
		tanks []string
		text  string
	}{
		{never, "Nobody counted %s, and the yard file does not say what stands there."},
		{open, "Nobody counted %s before something went in: there is at least so much; a count tells."},
		{unsure, "What liquid stands in %s is not known for sure; a reading, or a count with its strength, tells."},
	} {
		if len(n.tanks) > 0 {
			notes = append(notes, v.Say(n.text, strings.Join(n.tanks, ", ")))
		}
	}
	return notes
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
		if tank.Said.Doubt != nil {
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
	if c := now.PileCount; c != nil && c.Counted != c.Expected {
		notes = append(notes, v.Say("At its last count, entry %d, the pile held %v; by the entries it was %v.", c.Entry, c.Counted, c.Expected))
	}
	return notes
}
