package run

import (
	"errors"
	"io/fs"
	"slices"

	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/state"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Standing is the yard as it stands: the yard file with the journal folded over it, or the file
// alone where there is no journal; nil without a yard file. The journal is read when it is first
// asked for, and once. Errors: a journal that was named and cannot be read. One that only lies
// beside the yard file is left aside then, and a note says so.
func (s *Session) Standing() (*yard.Yard, error) { return s.stands() }

func (s *Session) readStanding() (*yard.Yard, error) {
	if s.Yard == nil {
		return nil, nil
	}
	now, err := s.Replay()
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if s.namesJournal() {
			s.Note("There is no journal " + s.JournalPath() + " yet: what stands in the yard is what the yard file says.")
		}
		return s.Yard, nil // nothing was recorded yet
	case err != nil && s.namesJournal():
		return nil, JournalError(err)
	case err != nil:
		s.Note(words.OneLine(err.Error()) + ": left aside, so that what stands in the yard is what the yard file says.")
		return s.Yard, nil
	}
	over := now.Over(s.Yard)
	over.Journal = s.JournalPath()
	return over, nil
}

// Replay is the yard as the journal in use leaves it, over what the yard file says. Notes tell
// what is wrong with the journal. Errors: those of OpenJournal.
func (s *Session) Replay() (*state.State, error) {
	j, err := s.OpenJournal()
	if err != nil {
		return nil, err
	}
	return state.Replay(s.Yard, slices.Values(journal.ByTime(journal.Effective(j.Entries)))), nil
}

// OpenJournal reads the journal in use. Faulty rows are left out, and a note reports them.
// Errors: fs.ErrNotExist where there is none, a file that is no journal, and one of which no row
// can be read.
func (s *Session) OpenJournal() (*journal.Journal, error) {
	path := s.JournalPath()
	j, err := journal.Read(path)
	if err != nil {
		return nil, err
	}
	if len(j.Entries) == 0 && len(j.Faults) > 0 {
		return nil, fault.Refuse("%s: none of its %d rows can be read: %s; journal verify lists all", words.Quoted(path), len(j.Faults), j.Faults[0])
	}
	if len(j.Faults) > 0 {
		s.Note(s.View.Say("Rows of %s that are not as they should be: %d; journal verify lists them.", path, len(j.Faults)))
	}
	if j.Torn > 0 {
		s.Note(s.View.Say("The last line of %s was cut short, as by a loss of power, and does not count; the next entry sets it aside.", path))
	}
	return j, nil
}

// namesJournal reports whether a journal was named, and not only looked for beside the yard
// file.
func (s *Session) namesJournal() bool {
	return s.Globals.journal.Given() || s.Env.Getenv(JournalEnv) != ""
}
