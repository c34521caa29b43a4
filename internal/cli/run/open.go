package run

import (
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/state"
	"brineyard/internal/words"
)

// Replay is the yard as the journal in use leaves it, over what the yard file says. Notes tell
// what is wrong with the journal. Errors: those of OpenJournal.
func (s *Session) Replay() (*state.State, error) {
	l, err := s.OpenJournal()
	if err != nil {
		return nil, err
	}
	now := state.Replay(s.Yard, l.Effective())
	return now, l.Err()
}

// OpenJournal opens the journal in use; it is closed with the session. Faulty rows are left out,
// and a note reports them. Errors: fs.ErrNotExist where there is none, a file that is no journal,
// and one of which no row can be read.
func (s *Session) OpenJournal() (*disk.Log, error) {
	path := s.JournalPath()
	l, err := disk.Open(path)
	if err != nil {
		return nil, err
	}
	s.logs = append(s.logs, l)
	if l.Rows == 0 && len(l.Faults) > 0 {
		return nil, fault.Refuse("%s: none of its %d rows can be read: %s; journal verify lists all", words.Quoted(path), len(l.Faults), l.Faults[0])
	}
	for _, note := range journalNotes(s, path, &l.Audit) {
		s.Note(note)
	}
	return l, nil
}

// journalNotes tell a reader how far a journal can be trusted.
func journalNotes(s *Session, path string, a *disk.Audit) []string {
	var notes []string
	note := func(format string, args ...any) { notes = append(notes, s.View.Say(format, args...)) }
	if len(a.Faults) > 0 {
		note("Rows of %s that are not as they should be: %d; journal verify lists them.", path, len(a.Faults))
	}
	if a.Torn > 0 {
		note("The end of %s was cut short, as by a loss of power, and does not count; the next entry sets it aside.", path)
	}
	if a.Lost != (journal.Span{}) {
		note("Entries %s were recorded in %s and are gone from its end: look for a copy of the file; journal verify says more.", a.Lost, path)
	}
	if a.End == disk.EndForeign {
		note("%s is another journal than the one that was written here last; journal verify says more.", path)
	}
	return notes
}

// closeJournals closes what was opened, and tells the error that ended a reading early.
func (s *Session) closeJournals() error {
	var first error
	for _, l := range s.logs {
		if err := l.Err(); err != nil && first == nil {
			first = JournalError(err)
		}
		_ = l.Close() // it was only read
	}
	s.logs = nil
	return first
}
