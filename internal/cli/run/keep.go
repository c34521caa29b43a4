package run

import (
	"errors"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/enter"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/words"
)

// Writing says how a command writes into the journal.
type Writing struct {
	// AsSeen lets entries stand that the others contradict.
	AsSeen bool
}

// Bind binds its flags.
func (w *Writing) Bind(b *bind.Set) {
	bind.Switch(b, &w.AsSeen, "as-seen", "write it down as it was seen, against what the other entries say")
}

// Keeping is what is to be written into the journal in use.
type Keeping struct {
	Writing
	Command string
	Entries []journal.Entry
	// Old is set for the rows of an older log: they may come in any order, long afterwards.
	Old bool
	// Refuse makes an error of the reasons against entries, of which there is one at least.
	Refuse func([]enter.Refusal) error
}

// Typed refuses an entry that was typed: by the first reason, with the flag that it is about.
func Typed(refused []enter.Refusal) error { return fault.Refuse("%s", refused[0].Flag()) }

// Desk is what entries of this session are held against.
func (s *Session) Desk(w Writing) enter.Desk {
	return enter.Desk{Yard: s.Yard, View: s.View, Now: s.Env.Now(), AsSeen: w.AsSeen}
}

// Keep holds entries against the clock, the yard file and the journal, adds them to it, and
// says so on the error stream.
func (s *Session) Keep(k Keeping) error {
	if err := s.WouldKeep(k); err != nil {
		return err
	}
	path := s.JournalPath()
	added, err := journal.Append(path, s.View.System, k.Entries)
	if err != nil {
		return JournalError(err)
	}
	s.Kept(path, k.Command, added)
	if len(k.Entries) == 1 {
		s.Tell("  %s: %s", k.Entries[0].Kind, s.View.EntryText(&k.Entries[0]))
	}
	return nil
}

// WouldKeep tells why Keep would refuse entries; nil if it would not.
func (s *Session) WouldKeep(k Keeping) error {
	desk := s.Desk(k.Writing)
	desk.Old = k.Old
	if refused := desk.Fits(k.Entries); len(refused) > 0 {
		return k.Refuse(refused)
	}
	j, err := journal.Read(s.JournalPath())
	switch {
	case errors.Is(err, fs.ErrNotExist):
		j = &journal.Journal{}
	case err != nil:
		return JournalError(err)
	}
	there := slices.Values(journal.ByTime(journal.Effective(j.Entries)))
	if refused := desk.Follows(there, k.Entries); len(refused) > 0 {
		return k.Refuse(refused)
	}
	return nil
}

// Kept tells on the error stream what was recorded: results go to the other.
func (s *Session) Kept(path, command string, added journal.Added) {
	if added.SetAside != "" {
		s.Tell("brineyard %s: %s ended in %d bytes of a torn line; they are in %s now", command, words.Quoted(path), added.Torn, words.Quoted(added.SetAside))
	}
	var numbers []string
	for _, n := range added.Numbers {
		numbers = append(numbers, strconv.Itoa(n))
	}
	word := "entry"
	if len(numbers) > 1 {
		word = "entries"
	}
	if len(numbers) > 4 {
		numbers = []string{numbers[0] + " to " + numbers[len(numbers)-1]}
	}
	// The rows are on the disk: that this could not be said is no failure.
	s.Tell("brineyard %s: %s %s in %s", command, word, strings.Join(numbers, ", "), strconv.QuoteToGraphic(path))
}
