package records

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/cli/standing"
	"brineyard/internal/report"
	"brineyard/internal/state"
)

var yardNowCommand = run.Command{
	Use:   "now",
	Short: "What stands where, what runs and what is due, on one screen",
	Long: "now is what one shift tells the next. It shows what stands in tanks, trucks,\n" +
		"beds and on the pile. It says who said so, and how long ago. It shows which\n" +
		"lines hold weak brine, and what runs. It lists what is due, and when.",
	Example:   "  brineyard yard now\n  brineyard yard now --units metric --format markdown",
	Args:      run.NoArguments,
	New:       func() run.Question { return &yardNow{} },
	NoWorking: "No working: entries are counted up; store shows the sum of a mix.",
}

type yardNow struct{}

// Bind asks for a yard file.
func (*yardNow) Bind(b *bind.Set) { b.Then(needsYard) }

// Answer replays the journal, if there is one, over the yard file.
func (*yardNow) Answer(s *run.Session) (run.Reply, error) {
	now, err := s.Replay()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		now = state.New(s.Yard)
		s.Note("There is no journal " + s.JournalPath() + " yet: this is what the yard file says.")
	case err != nil:
		return run.Reply{}, run.JournalError(err)
	}
	clock := s.Env.Now()
	due := now.Agenda(s.Yard, clock)
	known, unknown := apart(append(standing.Tanks(s.View, s.Yard, now), standing.Others(s.View, s.Yard, now)...))
	shown := append(known, unknown...)
	if people(s) {
		shown = known
	}
	return run.Reply{
		Figures: nowFigures(now, due, s),
		Words: func(d *report.Document) {
			d.Title, d.Verdict = "The yard now", nowVerdict(s, now, due)
			d.Tables = withRows(standing.Table("places", "What stands where", shown, clock), dueTable(s.View, now, due, clock))
			if people(s) && len(unknown) > 0 {
				d.Notes = append(d.Notes, "Nobody knows what is in "+namesOf(unknown)+": a count tells.")
			}
			d.Notes = append(d.Notes, doubtNotes(s.View, now)...)
			d.Notes = append(d.Notes, truckNotes(now, clock)...)
		},
	}, nil
}

// people reports whether people read the answer, and no program.
func people(s *run.Session) bool {
	name := s.Globals.Format.Name
	return name == "text" || name == "markdown"
}

// apart tells the places of which something is known from the others.
func apart(places []standing.Place) (known, unknown []standing.Place) {
	for _, p := range places {
		if p.Known {
			known = append(known, p)
		} else {
			unknown = append(unknown, p)
		}
	}
	return known, unknown
}

func namesOf(places []standing.Place) string {
	var names []string
	for _, p := range places {
		names = append(names, p.Name)
	}
	return strings.Join(names, ", ")
}

func nowFigures(now *state.State, due []state.Due, s *run.Session) []report.Figure {
	late := 0
	for _, d := range due {
		if d.Overdue {
			late++
		}
	}
	return []report.Figure{
		show.Quiet(report.Figure{Key: "entries", Label: "Entries", Value: show.Count(now.Entries)}),
		show.Quiet(report.Figure{Key: "running", Label: "Running", Value: show.Count(len(now.Running(s.Yard)))}),
		show.Quiet(report.Figure{Key: "due", Label: "Due", Value: show.Count(len(due))}),
		show.Quiet(report.Figure{Key: "late", Label: "Late", Value: show.Count(late)}),
	}
}

// nowVerdict says what runs and what is late.
func nowVerdict(s *run.Session, now *state.State, due []state.Due) string {
	clock := s.Env.Now()
	var running, late []string
	for _, r := range now.Running(s.Yard) {
		running = append(running, fmt.Sprintf("%s since %s", r.Tank, show.When(r.Since, clock)))
	}
	for _, d := range due {
		if d.Overdue {
			late = append(late, taskText(s.View, now, d))
		}
	}
	text := s.Yard.Name + ", " + stampOf(clock) + ": "
	if s.Yard.Name == "" {
		text = stampOf(clock) + ": "
	}
	if text += "nothing runs"; len(running) > 0 {
		text = strings.TrimSuffix(text, "nothing runs") + "there runs " + strings.Join(running, " and ")
	}
	if len(late) == 0 {
		return text + "; nothing is late."
	}
	return text + "; due by now: " + strings.Join(late, ", ") + "."
}

func stampOf(t time.Time) string { return t.Format(minuteLayout) }

// dueTable lists what is to be done, the earliest first.
func dueTable(v show.View, now *state.State, due []state.Due, clock time.Time) report.Table {
	t := report.Table{Key: "due", Title: "What is due", Columns: []report.Column{
		{Key: "when", Label: "When"}, {Key: "do", Label: "Do"}, {Key: "late", Label: "Late"}, {Key: "by", Label: "By"},
	}}
	for _, d := range due {
		by := report.Word("yard file")
		if d.Entry > 0 {
			by = report.Word(fmt.Sprintf("entry %d", d.Entry))
		}
		t.Rows = append(t.Rows, []report.Value{dueValue(d, clock), report.Word(taskText(v, now, d)), report.Word(show.YesNo(d.Overdue)), by})
	}
	return t
}

// dueValue is when something is due.
func dueValue(d state.Due, clock time.Time) report.Value {
	if d.When.IsZero() {
		return report.Nothing("", "now")
	}
	w := report.Word(d.When.In(clock.Location()).Format(time.RFC3339))
	w.Text = show.DayOrMinute(d.When.In(clock.Location()))
	return w
}

// taskText says what is to be done, in a few words.
func taskText(v show.View, now *state.State, d state.Due) string {
	switch d.Task {
	case state.ReadTank:
		return "read " + d.Where
	case state.CleanTank:
		return "clean " + d.Where
	case state.CheckHydrometer:
		return "check the hydrometer"
	}
	for _, o := range now.Orders() {
		if o.Entry == d.Entry && o.Salt > 0 {
			return v.Say("receive %v of salt", o.Salt)
		}
		if o.Entry == d.Entry {
			return v.Say("receive %v of %s", o.Volume, o.Liquid)
		}
	}
	return d.Task.String()
}

// doubtNotes tell of tanks that a reading contradicts.
func doubtNotes(v show.View, now *state.State) []string {
	var notes []string
	for _, t := range now.Tanks() {
		if d := t.Said.Doubt; d != nil {
			notes = append(notes, v.Say("Entry %d read %v in %s where the entries make it %v: look at the level before you act.", d.Entry, d.Read, t.Name, d.Expected))
		}
	}
	return notes
}

// staleLoad is the age beyond which a load was most likely laid. Common practice, no source.
const staleLoad = 18 * time.Hour

// truckNotes say what trucks are loaded for, and ask after those whose load is old: nobody recorded
// what came back.
func truckNotes(now *state.State, clock time.Time) []string {
	var fresh, old []string
	for _, k := range now.Trucks() {
		switch {
		case !k.Known || k.Mass == 0:
		case clock.Sub(k.Said.Time) > staleLoad:
			old = append(old, k.Name)
		case k.Route != "":
			fresh = append(fresh, k.Name+" is loaded for "+k.Route)
		}
	}
	var notes []string
	if len(fresh) > 0 {
		notes = append(notes, strings.Join(fresh, ", ")+".")
	}
	if len(old) > 0 {
		notes = append(notes, strings.Join(old, ", ")+" counts as loaded until unloaded, counted or loaded anew.")
	}
	return notes
}
