package records

import (
	"brineyard/internal/cli/run"
	"brineyard/internal/journal/disk"
	"brineyard/internal/state"
)

// openJournal opens the journal in use, and refuses one that is not there.
func openJournal(s *run.Session) (*disk.Log, error) {
	l, err := s.OpenJournal()
	if err != nil {
		return nil, run.JournalError(err)
	}
	return l, nil
}

// replay is the yard as the journal in use leaves it.
func replay(s *run.Session) (*state.State, error) {
	now, err := s.Replay()
	if err != nil {
		return nil, run.JournalError(err)
	}
	return now, nil
}
