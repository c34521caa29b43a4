package run

import (
	"errors"
	"io/fs"
	"strconv"
	"strings"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/enter"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// Patience is how long a command waits for a journal that another program holds.
type Patience struct{ Wait quantity.Duration }

// usualPatience is that of nobody who says otherwise.
const usualPatience = quantity.Minute / 2

// Bind binds its flag.
func (p *Patience) Bind(b *bind.Set) {
	bind.Of(b, bind.Duration, &p.Wait, "wait", "for how long to wait while another program holds the journal; 30s unless given", bind.Default(usualPatience))
}

// Options are how this session writes into a journal.
func (s *Session) Options(command string, p Patience) disk.Options {
	return disk.Options{
		System: s.View.System,
		Wait:   time.Duration(float64(p.Wait) * float64(time.Second)),
		Waiting: func() {
			s.Tell("brineyard %s: another program holds %s; waiting for it", command, words.Quoted(s.JournalPath()))
		},
	}
}

// Writing says how a command writes entries into the journal.
type Writing struct {
	// AsSeen lets entries stand that the others contradict.
	AsSeen bool
	Patience
}

// Bind binds its flags.
func (w *Writing) Bind(b *bind.Set) {
	bind.Switch(b, &w.AsSeen, "as-seen", "write it down as it was seen, against what the other entries say")
	w.Patience.Bind(b)
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
// says so on the error stream. The journal is asked under its lock, so that nobody else's entry
// comes between.
func (s *Session) Keep(k Keeping) error {
	desk := s.deskOf(k)
	if refused := desk.Fits(k.Entries); len(refused) > 0 {
		return k.Refuse(refused)
	}
	path, o := s.JournalPath(), s.Options(k.Command, k.Patience)
	var refused []enter.Refusal
	if !k.AsSeen {
		o.Check = func(l *disk.Log) (err error) {
			if refused, err = desk.Follows(l, k.Entries); err == nil && len(refused) > 0 {
				err = errRefused
			}
			return err
		}
	}
	added, err := disk.Append(path, o, k.Entries)
	switch {
	case len(refused) > 0:
		return k.Refuse(refused)
	case err != nil:
		return JournalError(err)
	}
	s.Kept(path, k.Command, added)
	if len(k.Entries) == 1 {
		s.Tell("  %s: %s", k.Entries[0].Kind, s.View.EntryText(&k.Entries[0]))
	}
	return nil
}

// errRefused ends an addition whose reasons are told otherwise.
var errRefused = errors.New("refused")

func (s *Session) deskOf(k Keeping) enter.Desk {
	desk := s.Desk(k.Writing)
	desk.Old = k.Old
	return desk
}

// WouldKeep tells why Keep would refuse entries; nil if it would not.
func (s *Session) WouldKeep(k Keeping) error {
	desk := s.deskOf(k)
	if refused := desk.Fits(k.Entries); len(refused) > 0 {
		return k.Refuse(refused)
	}
	l, err := disk.Open(s.JournalPath())
	switch {
	case errors.Is(err, fs.ErrNotExist):
		l = nil
	case err != nil:
		return JournalError(err)
	default:
		defer l.Close()
	}
	refused, err := desk.Follows(l, k.Entries)
	switch {
	case err != nil:
		return JournalError(err)
	case len(refused) > 0:
		return k.Refuse(refused)
	}
	return nil
}

// Kept tells on the error stream what was recorded: results go to the other.
func (s *Session) Kept(path, command string, added disk.Added) {
	if added.SetAside != "" {
		s.Tell("brineyard %s: %s ended in %d bytes that were cut short; they are in %s now", command, words.Quoted(path), added.Torn, words.Quoted(added.SetAside))
	}
	if added.Lost != (journal.Span{}) {
		s.Tell("brineyard %s: entries %s were recorded in %s and are gone from its end; their numbers are not given again, and journal verify says more", command, added.Lost, words.Quoted(path))
	}
	if added.End == disk.EndForeign {
		s.Tell("brineyard %s: %s is another journal than the one that was written here last", command, words.Quoted(path))
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
