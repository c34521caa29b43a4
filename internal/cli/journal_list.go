package cli

import (
	"fmt"
	"slices"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/season"
	"brineyard/internal/solution"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

type listOptions struct {
	from, to, journal *text
	tank              text
	kind              choice
}

func newJournalList(env *Env, g *globals) *cobra.Command {
	o := &listOptions{}
	for _, k := range journal.Kinds() {
		o.kind.words = append(o.kind.words, string(k))
	}
	cmd := &cobra.Command{
		Use:   "list",
		Short: "Show entries",
		Long: "list shows the entries, with those taken back marked. The other formats have\n" +
			"every column.",
		Example: "  brineyard journal list --from 2026-01-01 --kind batch\n  brineyard journal list --tank mixer --format csv",
		Args:    noArguments,
		RunE:    func(*cobra.Command, []string) error { return runList(env, g, o) },
	}
	f := cmd.Flags()
	o.from, o.to = periodFlags(f)
	f.Var(&o.tank, "tank", "`tank` that it is about, went into or came from")
	f.Var(&o.kind, "kind", "kind of entry: "+strings.Join(o.kind.words, ", "))
	o.journal = journalFlag(f)
	return cmd
}

func runList(env *Env, g *globals, o *listOptions) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	begin, end, err := s.period(o.from, o.to)
	if err != nil {
		return err
	}
	path := s.journalPath(o.journal)
	j, err := s.readJournal(path)
	if err != nil {
		return err
	}
	if o.tank.given {
		if err := tankNamed(j, o.tank.value); err != nil {
			return err
		}
	}
	var shown []journal.Entry
	for _, e := range j.Entries {
		switch {
		case season.Wall(e.Time).Before(begin), !end.IsZero() && !season.Wall(e.Time).Before(end):
		case o.tank.given && e.Tank != o.tank.value && e.From != o.tank.value:
		case o.kind.value != "" && string(e.Kind) != o.kind.value:
		default:
			shown = append(shown, e)
		}
	}
	return s.write(s.listDocument(path, j, shown))
}

// tankNamed refuses a tank that no entry is about.
func tankNamed(j *journal.Journal, name string) error {
	var names []string
	for _, e := range j.Entries {
		for _, tank := range []string{e.Tank, e.From} {
			if tank == name {
				return nil
			}
			if tank != "" && !slices.Contains(names, tank) {
				names = append(names, tank)
			}
		}
	}
	if len(names) == 0 {
		return nil // there is nothing to list
	}
	slices.Sort(names)
	return usagef("--tank %s: no entry is about it; %s", words.Quoted(name), words.Allowed(name, names))
}

func (s *setting) listDocument(path string, j *journal.Journal, shown []journal.Entry) *report.Document {
	back := journal.TakenBack(j.Entries)
	words := report.Table{Key: "summary", Title: "Entries", Columns: []report.Column{
		{Key: "entry", Label: "No."}, {Key: "time", Label: "Time"}, {Key: "kind", Label: "Kind"}, {Key: "what", Label: "What"},
	}}
	full := report.Table{Key: "entries", Title: "Entries, in full", Quiet: true}
	for _, c := range entryColumns {
		full.Columns = append(full.Columns, report.Column{Key: c.key, Label: c.key})
	}
	for i := range shown {
		e := &shown[i]
		what := s.entryText(e)
		if back[e.Number] {
			what += " (taken back)"
		}
		words.Rows = append(words.Rows, []report.Value{
			numberValue(e.Number), report.Word(e.Time.Format("2006-01-02 15:04")), report.Word(string(e.Kind)), report.Word(what),
		})
		var row []report.Value
		for _, c := range entryColumns {
			row = append(row, c.value(s, e))
		}
		full.Rows = append(full.Rows, append(row[:len(row):len(row)], report.Word(yesNo(back[e.Number]))))
	}
	full.Columns = append(full.Columns, report.Column{Key: "taken_back", Label: "taken_back"})
	d := &report.Document{
		Command: "journal list", Title: "Journal",
		Verdict: fmt.Sprintf("%d of the %d entries in %s.", len(shown), len(j.Entries), path),
		Tables:  []report.Table{full},
	}
	if people := s.globals.Format.Name; len(shown) > 0 && (people == "text" || people == "markdown") {
		d.Tables = []report.Table{words, full}
	}
	return d
}

// numberValue shows a number of an entry.
func numberValue(n int) report.Value { return report.Number(float64(n), "", itoa(n)) }

// entryColumns are those of a table for programs.
var entryColumns = []struct {
	key   string
	value func(*setting, *journal.Entry) report.Value
}{
	{"entry", func(_ *setting, e *journal.Entry) report.Value { return numberValue(e.Number) }},
	{"time", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Time.Format(timeLayouts[0])) }},
	{"kind", func(_ *setting, e *journal.Entry) report.Value { return report.Word(string(e.Kind)) }},
	{"tank", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Tank) }},
	{"from", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.From) }},
	{"liquid", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Liquid) }},
	{"volume", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.Volume) }},
	{"nacl", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.NaCl) }},
	{"kcl", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.KCl) }},
	{"cacl2", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.CaCl2) }},
	{"mgcl2", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.MgCl2) }},
	{"temp", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.Temp) }},
	{"scale", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Scale) }},
	{"reading", func(_ *setting, e *journal.Entry) report.Value {
		if e.Reading == nil {
			return report.Nothing("", "")
		}
		return report.Number(*e.Reading, "", fmt.Sprint(*e.Reading))
	}},
	{"salt", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.Salt) }},
	{"water", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.Water) }},
	{"operator", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Operator) }},
	{"truck", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Truck) }},
	{"route", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Route) }},
	{"cost", func(s *setting, e *journal.Entry) report.Value { return optional(s, e.Cost) }},
	{"cancels", func(_ *setting, e *journal.Entry) report.Value {
		if e.Cancels == 0 {
			return report.Nothing("", "")
		}
		return numberValue(e.Cancels)
	}},
	{"note", func(_ *setting, e *journal.Entry) report.Value { return report.Word(e.Note) }},
}

func optional[Q quantity.Quantity](s *setting, q *Q) report.Value {
	if q == nil {
		return report.Nothing("", "")
	}
	return s.value(*q)
}

// entryText tells an entry in a few words.
func (s *setting) entryText(e *journal.Entry) string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, s.show(format, args...)) }
	if e.Volume != nil {
		add("%v", *e.Volume)
	}
	if salts := s.entryLiquid(e); salts != "" {
		add("%s", salts)
	}
	if e.Salt != nil {
		add("%v of salt", *e.Salt)
	}
	if e.Water != nil {
		add("%v of water", *e.Water)
	}
	if e.Reading != nil && e.Temp != nil {
		add("%s %v at %v", e.Scale, fmt.Sprintf("%.4g", *e.Reading), *e.Temp)
	}
	for _, p := range []struct{ word, name string }{{"from", e.From}, {"to", e.Tank}, {"on", e.Truck}, {"for", e.Route}, {"by", e.Operator}} {
		if p.word == "to" && !slices.Contains([]journal.Kind{journal.Transfer, journal.Delivery, journal.Correction}, e.Kind) {
			p.word = "in"
		}
		if p.name != "" {
			add("%s %s", p.word, p.name)
		}
	}
	if e.Cost != nil {
		add("cost %v", *e.Cost)
	}
	if e.Cancels > 0 {
		add("takes back %d", e.Cancels)
	}
	if e.Note != "" {
		add("%s", e.Note)
	}
	return strings.Join(parts, ", ")
}

// entryLiquid tells what was moved: its name, or its salts.
func (s *setting) entryLiquid(e *journal.Entry) string {
	if e.Liquid != "" {
		return e.Liquid
	}
	share := func(p *quantity.Strength) float64 {
		if p == nil {
			return 0
		}
		return float64(*p)
	}
	l := balance.Liquid{Composition: solution.Composition{NaCl: share(e.NaCl), KCl: share(e.KCl), CaCl2: share(e.CaCl2), MgCl2: share(e.MgCl2)}}
	if l.Composition.Solute() == 0 {
		return ""
	}
	return s.contents(l)
}
