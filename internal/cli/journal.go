package cli

import (
	"path/filepath"

	"brineyard/internal/cli/run"
	"brineyard/internal/journal"
	"brineyard/internal/report"

	"github.com/spf13/pflag"
)

// journalFlag names the journal.
func journalFlag(f *pflag.FlagSet) *text {
	t := &text{}
	f.Var(t, "journal", "journal `file` (default $"+run.JournalEnv+", else "+run.DefaultJournal+" beside the yard file)")
	return t
}

// journalPath is the journal in use: the flag's, the environment's, or beside the yard
// file.
func (s *setting) journalPath(flag *text) string {
	if flag.given {
		return flag.value
	}
	if path := s.env.Getenv(run.JournalEnv); path != "" {
		return path
	}
	if s.yard != nil {
		return filepath.Join(filepath.Dir(s.yard.Path), run.DefaultJournal)
	}
	return run.DefaultJournal
}

// keep adds entries and says so in one line.
func (s *setting) keep(path string, command string, entries ...journal.Entry) error {
	session := run.Session{Env: s.env, Globals: s.globals, Yard: s.yard, View: s.view()}
	return session.Keep(path, command, entries...)
}

// numberValue shows a whole number.
func numberValue(n int) report.Value { return report.Number(float64(n), "", itoa(n)) }

// asciiFlag asks for charts that any terminal shows.
func asciiFlag(f *pflag.FlagSet) *bool {
	return f.Bool("ascii", false, "draw charts with plain characters alone")
}
