package run

import (
	"errors"
	"io/fs"
	"slices"
	"syscall"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/enter"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
)

// Record lets a command write what it concluded into the journal.
type Record struct {
	On       bool
	Operator string
	At       time.Time // zero for now
	Writing
}

// NeedsTank is what --record asks of most commands.
const NeedsTank = "with --tank and a name from the yard file"

// Bind binds the flags. They mean nothing without --record, and --record nothing without a
// tank that the yard knows; allowed says how to name one.
func (r *Record) Bind(b *bind.Set, tank func(*bind.Scope) bool, allowed string) {
	bind.Switch(b, &r.On, "record", "write what this concludes into the journal")
	var typed string
	at := bind.Name(b, &typed, "at", bind.AtHelp, nil)
	r.Writing.Bind(b)
	operator := bind.Name(b, &r.Operator, "operator", "who records it", nil)
	b.Then(func(s *bind.Scope) (err error) {
		r.At = time.Time{}
		switch {
		case r.On && !tank(s):
			return fault.Refuse("--record: the journal needs to know which tank this is; allowed: %s", allowed)
		case !r.On && operator.Given():
			return fault.Refuse("--operator %s: nothing is recorded without --record; allowed: both", operator.Quoted())
		case !r.On && r.AsSeen:
			return fault.Refuse("--as-seen: nothing is recorded without --record; allowed: both")
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
		e := &entries[i]
		e.Time, e.Operator = at, r.Operator
		if !slices.Contains(bind.LiquidNames(s.Yard), e.Liquid) {
			e.Liquid = "" // it was typed by its salts, which the entry has
		}
	}
	return s.Keep(Keeping{Writing: r.Writing, Command: command, Entries: entries, Refuse: concluded})
}

// concluded refuses what a command concluded: none of its flags is to blame.
func concluded(refused []enter.Refusal) error {
	return fault.Refuse("--record: %s", refused[0].Error())
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
