package disk

import (
	"brineyard/internal/journal"
	"fmt"
)

// Reverse adds an entry of kind Undo that takes back another, with time, operator and
// note of e. If that one is itself a reversal, the entry it took back holds again. The
// rows stay. Refused are a number that no entry has and an entry that is taken back
// already.
func Reverse(path string, o Options, number int, e journal.Entry) (Added, error) {
	e.Kind, e.Cancels = journal.Undo, number
	var back *journal.Entry
	added, err := add(path, o, false, []journal.Entry{e}, func(l *Log) (err error) {
		back, err = l.inForce(number)
		return err
	})
	if err == nil {
		added.TookBack = back
	}
	return added, err
}

// inForce finds an entry; an error if it is not there or is taken back. The journal is nil where
// it has no rows.
func (l *Log) inForce(number int) (*journal.Entry, error) {
	if l == nil {
		return nil, fmt.Errorf("there is no entry %d; the journal has none", number)
	}
	if by := l.back[number]; by != 0 {
		return nil, fmt.Errorf("entry %d is taken back already, by entry %d", number, by)
	}
	for e := range l.rows(false, l.inFile()) {
		if e.Number == number {
			found := *e
			return &found, nil
		}
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	return nil, fmt.Errorf("there is no entry %d; allowed: one that the journal has, the last is %d", number, l.Highest)
}
