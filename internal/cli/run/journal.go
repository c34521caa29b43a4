package run

import "path/filepath"

// DefaultJournal is the journal looked for beside the yard file, unless JournalEnv names
// another.
const (
	DefaultJournal = "journal.csv"
	JournalEnv     = "BRINEYARD_JOURNAL"
)

// JournalPath is the journal in use: the flag's, the environment's, or beside the yard file.
func (s *Session) JournalPath() string {
	if s.Globals.journal.Given() {
		return s.Globals.JournalPath
	}
	if path := s.Env.Getenv(JournalEnv); path != "" {
		return path
	}
	if s.Yard != nil {
		return filepath.Join(filepath.Dir(s.Yard.Path), DefaultJournal)
	}
	return DefaultJournal
}
