package records

import (
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
)

var acceptCommand = run.Command{
	Use:   "accept NUMBER",
	Short: "Say that you have looked at what is wrong with a row",
	Long: "accept adds a row that says so. From then on journal verify is quiet about that\n" +
		"fault. The row is left as it is. If it changes once more, verify tells.",
	Example:   "  brineyard journal accept 14 --note \"my slip, put right in the sheet\"\n  brineyard journal accept 14 --operator Ash",
	Args:      oneNumber,
	New:       func() run.Question { return &acceptance{} },
	NoWorking: "No working: a fault is accepted, no more.",
}

type acceptance struct {
	number         int
	operator, note string
	run.Patience
}

// Bind binds the number.
func (q *acceptance) Bind(b *bind.Set) {
	bind.Name(b, &q.operator, "operator", "who looked at it", nil)
	bind.Name(b, &q.note, "note", "what was found", nil)
	q.Patience.Bind(b)
	bindNumber(b, &q.number)
}

// Answer adds the row that accepts the fault.
func (q *acceptance) Answer(s *run.Session) (run.Reply, error) {
	path := s.JournalPath()
	e := journal.Entry{Time: s.Env.Now(), Operator: q.operator, Note: q.note}
	added, err := disk.Acknowledge(path, s.Options("journal accept", q.Patience), q.number, e)
	if err != nil {
		return run.Reply{}, run.JournalError(err)
	}
	s.Kept(path, "journal accept", added)
	return run.Reply{}, nil
}
