package run

import (
	"errors"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/words"
)

// Record lets a command write what it concluded into the journal.
type Record struct {
	On       bool
	Operator string
	At       time.Time // zero for now
}

// NeedsTank is what --record asks of most commands.
const NeedsTank = "with --tank and a name from the yard file"

// Bind binds the flags. They mean nothing without --record, and --record nothing without a
// tank that the yard knows; allowed says how to name one.
func (r *Record) Bind(b *bind.Set, tank func(*bind.Scope) bool, allowed string) {
	bind.Switch(b, &r.On, "record", "write what this concludes into the journal")
	var typed string
	at := bind.Name(b, &typed, "at", bind.AtHelp, nil)
	operator := bind.Name(b, &r.Operator, "operator", "who records it", nil)
	b.Then(func(s *bind.Scope) (err error) {
		r.At = time.Time{}
		switch {
		case r.On && !tank(s):
			return fault.Refuse("--record: the journal needs to know which tank this is; allowed: %s", allowed)
		case !r.On && operator.Given():
			return fault.Refuse("--operator %s: nothing is recorded without --record; allowed: both", operator.Quoted())
		case !r.On && at.Given():
			return fault.Refuse("--at %s: nothing is recorded without --record; allowed: both", at.Quoted())
		case at.Given():
			r.At, err = bind.At(s, "at", typed)
		}
		return err
	})
}

// record writes entries, if that was asked for.
func (s *Session) record(r *Record, command string, entries []journal.Entry) error {
	if !r.On {
		return nil
	}
	at := r.At
	if at.IsZero() {
		at = s.Env.Now()
	}
	for i := range entries {
		entries[i].Time, entries[i].Operator = at, r.Operator
	}
	return s.Keep(s.JournalPath(), command, entries...)
}

// Keep adds entries to a journal and says so on the error stream.
func (s *Session) Keep(path, command string, entries ...journal.Entry) error {
	added, err := journal.Append(path, s.View.System, entries)
	if err != nil {
		return JournalError(err)
	}
	s.Kept(path, command, added)
	if len(entries) == 1 {
		s.Tell("  %s: %s", entries[0].Kind, s.View.EntryText(&entries[0]))
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

// JournalError makes a refusal of a file that is no journal, is not there, or may not be
// read. A disk that fails stays a failure.
func JournalError(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fault.Refuse("%v; allowed: a journal, which journal add begins in a folder that is there", err)
	}
	var system syscall.Errno
	if errors.As(err, &system) && !slices.Contains([]syscall.Errno{syscall.ENOTDIR, syscall.EISDIR, syscall.ELOOP}, system) {
		return err
	}
	return fault.Refuse("%v", err)
}
