package records

import (
	"brineyard/internal/cli/run"
	"brineyard/internal/journal"
)

// keep adds entries to the journal in use and says so on the error stream.
func keep(s *run.Session, command string, entries []journal.Entry) error {
	path := s.JournalPath()
	added, err := journal.Append(path, s.View.System, entries)
	if err != nil {
		return run.JournalError(err)
	}
	s.Kept(path, command, added)
	if len(entries) == 1 {
		s.Tell("  %s: %s", entries[0].Kind, entryText(s.View, &entries[0]))
	}
	return nil
}
