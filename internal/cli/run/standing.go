package run

import (
	"errors"
	"io/fs"

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

// namesJournal reports whether a journal was named, and not only looked for beside the yard
// file.
func (s *Session) namesJournal() bool {
	return s.Globals.journal.Given() || s.Env.Getenv(JournalEnv) != ""
}
