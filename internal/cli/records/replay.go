package records

import (
	"brineyard/internal/cli/run"
	"brineyard/internal/journal"
	"brineyard/internal/state"
)

// readJournal reads the journal in use, and refuses one that is not there.
func readJournal(s *run.Session) (*journal.Journal, error) {
	j, err := s.OpenJournal()
	if err != nil {
		return nil, run.JournalError(err)
	}
	return j, nil
}

// replay is the yard as the journal in use leaves it.
func replay(s *run.Session) (*state.State, error) {
	now, err := s.Replay()
	if err != nil {
		return nil, run.JournalError(err)
	}
	return now, nil
}
