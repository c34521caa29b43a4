package records

import (
	"strconv"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

var undoCommand = run.Command{
	Use:   "undo NUMBER",
	Short: "Take an entry back, by an entry that says so",
	Long: "undo adds a row that takes another back; rows are never changed. To take back an\n" +
		"undo puts the entry in force again.",
	Example:   "  brineyard journal undo 14\n  brineyard journal undo 14 --operator Ash",
	Args:      oneNumber,
	New:       func() run.Question { return &undo{} },
	NoWorking: "No working: an entry is taken back, no more.",
}

// oneNumber takes exactly one word.
func oneNumber(_ *cobra.Command, args []string) error {
	switch len(args) {
	case 0:
		return fault.Refuse("the number of an entry is missing; allowed: like 14; journal list shows them")
	case 1:
		return nil
	}
	return fault.Refuse("%d words; allowed: the number of an entry, like 14; journal list shows them", len(args))
}

type undo struct {
	number   int
	operator string
	run.Patience
}

// Bind binds the number.
func (q *undo) Bind(b *bind.Set) {
	bind.Name(b, &q.operator, "operator", "who records it", nil)
	q.Patience.Bind(b)
	bindNumber(b, &q.number)
}

// bindNumber takes the number of an entry from the command's word.
func bindNumber(b *bind.Set, to *int) {
	b.Then(func(s *bind.Scope) error {
		n, err := strconv.ParseUint(s.Args[0], 10, 31)
		if err != nil || n == 0 {
			return fault.Refuse("%s: not the number of an entry; allowed: like 14; journal list shows them", words.Quoted(s.Args[0]))
		}
		*to = int(n)
		return nil
	})
}

// Answer adds the row that takes the entry back.
func (q *undo) Answer(s *run.Session) (run.Reply, error) {
	path := s.JournalPath()
	added, err := disk.Reverse(path, s.Options("journal undo", q.Patience), q.number, journal.Entry{Time: s.Env.Now(), Operator: q.operator})
	if err != nil {
		return run.Reply{}, run.JournalError(err)
	}
	s.Kept(path, "journal undo", added)
	s.Tell("  takes back %d, %s: %s", q.number, added.TookBack.Kind, s.View.EntryText(added.TookBack))
	return run.Reply{}, nil
}
