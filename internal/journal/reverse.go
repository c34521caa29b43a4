package journal

import (
	"fmt"
	"iter"
	"slices"
)

// Reverse adds an entry of kind Undo that takes back another, with time, operator and
// note of e. If that one is itself a reversal, the entry it took back holds again. The
// rows stay. Refused are a number that no entry has and an entry that is taken back
// already.
func Reverse(path string, o Options, number int, e Entry) (Added, error) {
	e.Kind, e.Cancels = Undo, number
	var back *Entry
	added, err := add(path, o, false, []Entry{e}, func(l *Log) (err error) {
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
func (l *Log) inForce(number int) (*Entry, error) {
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

// Effective goes through the entries that hold, in their order: without those that are
// taken back, and without those about other entries.
func Effective(entries []Entry) iter.Seq[*Entry] {
	back := TakenBack(entries)
	return func(yield func(*Entry) bool) {
		for i := range entries {
			if e := &entries[i]; !e.Kind.aboutAnother() && back[e.Number] == 0 && !yield(e) {
				return
			}
		}
	}
}

// TakenBack tells by which reversal each entry is taken back, both by their numbers; a
// reversal that is itself taken back is one of them.
func TakenBack(entries []Entry) map[int]int {
	var undos []about
	for i := range entries {
		if e := &entries[i]; e.Kind == Undo {
			undos = append(undos, about{number: e.Number, cancels: e.Cancels})
		}
	}
	return takenBack(undos)
}

// takenBack goes from the last reversal to the first, so that one is known to hold or not before
// it is heeded. A reversal of itself or of a later entry means nothing.
func takenBack(undos []about) map[int]int {
	undos = slices.Clone(undos)
	slices.SortStableFunc(undos, func(a, b about) int { return b.number - a.number })
	back := map[int]int{}
	for _, u := range undos {
		if back[u.number] == 0 && u.cancels < u.number {
			back[u.cancels] = u.number
		}
	}
	return back
}
