package journal

import (
	"iter"
	"slices"
)

// Effective goes through the entries that hold, in their order: without those that are
// taken back, and without those about other entries.
func Effective(entries []Entry) iter.Seq[*Entry] {
	back := TakenBack(entries)
	return func(yield func(*Entry) bool) {
		for i := range entries {
			if e := &entries[i]; !e.Kind.AboutAnother() && back[e.Number] == 0 && !yield(e) {
				return
			}
		}
	}
}

// TakenBack tells by which reversal each entry is taken back, both by their numbers; a
// reversal that is itself taken back is one of them.
func TakenBack(entries []Entry) map[int]int {
	var undos []Reversal
	for i := range entries {
		if e := &entries[i]; e.Kind == Undo {
			undos = append(undos, Reversal{e.Number, e.Cancels})
		}
	}
	return Reversed(undos)
}

// Reversal is an entry that takes back another, both by their numbers.
type Reversal struct{ Number, Cancels int }

// Reversed is TakenBack by the reversals alone. It goes from the last to the first, so that one is
// known to hold or not before it is heeded. A reversal of itself or of a later entry means nothing.
func Reversed(undos []Reversal) map[int]int {
	undos = slices.Clone(undos)
	slices.SortStableFunc(undos, func(a, b Reversal) int { return b.Number - a.Number })
	back := map[int]int{}
	for _, u := range undos {
		if back[u.Number] == 0 && u.Cancels < u.Number {
			back[u.Cancels] = u.Number
		}
	}
	return back
}
