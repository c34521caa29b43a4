package journal

import (
	"fmt"
	"iter"
	"os"
	"sort"

	"brineyard/internal/quantity"
)

// Reverse adds an entry of kind Undo that takes back another, with time, operator and
// note of e. If that one is itself a reversal, the entry it took back holds again. The
// rows stay. Refused are a number that no entry has and an entry that is taken back
// already.
func Reverse(path string, sys quantity.System, number int, e Entry) (Added, error) {
	_, found, err := resolve(path)
	switch {
	case err != nil:
		return Added{}, err
	case !found: // before a lock file is made
		return Added{}, fmt.Errorf("%s: %w", path, os.ErrNotExist)
	}
	e.Kind, e.Cancels = Undo, number
	var back *Entry
	added, err := add(path, sys, []Entry{e}, func(w *writer) (err error) {
		j := &Journal{}
		if !w.fresh {
			if j, err = readFrom(w.f, w.size); err != nil {
				return err
			}
		}
		back, err = j.inForce(number)
		return err
	})
	if err == nil {
		added.TookBack = back
	}
	return added, err
}

// inForce finds an entry; an error if it is not there or is taken back.
func (j *Journal) inForce(number int) (*Entry, error) {
	if by := TakenBack(j.Entries)[number]; by != 0 {
		return nil, fmt.Errorf("entry %d is taken back already, by entry %d", number, by)
	}
	last := 0
	for i := range j.Entries {
		if j.Entries[i].Number == number {
			return &j.Entries[i], nil
		}
		last = max(last, j.Entries[i].Number)
	}
	if last == 0 {
		return nil, fmt.Errorf("there is no entry %d; the journal has none", number)
	}
	return nil, fmt.Errorf("there is no entry %d; allowed: one that the journal has, the last is %d", number, last)
}

// Effective goes through the entries that hold, in their order: without those that are
// taken back, and without the reversals.
func Effective(entries []Entry) iter.Seq[*Entry] {
	back := TakenBack(entries)
	return func(yield func(*Entry) bool) {
		for i := range entries {
			if e := &entries[i]; e.Kind != Undo && back[e.Number] == 0 && !yield(e) {
				return
			}
		}
	}
}

// TakenBack tells by which reversal each entry is taken back, both by their numbers; a
// reversal that is itself taken back is one of them. It goes from the last reversal to the
// first, so that one is known to hold or not before it is heeded. A reversal of itself or of
// a later entry means nothing.
func TakenBack(entries []Entry) map[int]int {
	var undos []*Entry
	for i := range entries {
		if entries[i].Kind == Undo {
			undos = append(undos, &entries[i])
		}
	}
	sort.SliceStable(undos, func(i, j int) bool { return undos[i].Number > undos[j].Number })
	back := map[int]int{}
	for _, u := range undos {
		if back[u.Number] == 0 && u.Cancels < u.Number {
			back[u.Cancels] = u.Number
		}
	}
	return back
}
