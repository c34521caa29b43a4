package disk

import (
	"brineyard/internal/journal"
	"fmt"
	"slices"
	"strings"
)

// lookedAt begins the note of an entry that accepts what is wrong with a row. The check of the row
// as it was looked at follows: if the row is changed again, the entry accepts nothing any more.
const lookedAt = "looked at: "

// Acknowledge adds an entry of kind Accept that says that somebody has looked at what is wrong with the
// row of a number, with time, operator and note of e. Refused is a number of which nothing is wrong.
func Acknowledge(path string, o Options, number int, e journal.Entry) (Added, error) {
	e.Kind, e.Cancels = journal.Accept, number
	note := e.Note
	entries := []journal.Entry{e}
	return add(path, o, false, entries, func(l *Log) error {
		look, err := l.wrongWith(number)
		if err != nil {
			return err
		}
		entries[0].Note = lookedAt + look
		if note != "" {
			entries[0].Note += "; " + note
		}
		return nil
	})
}

// wrongWith is what an acceptance of a number is bound to; an error where nothing is wrong. The
// journal is nil where it has no rows.
func (l *Log) wrongWith(number int) (string, error) {
	var numbers []string
	if l != nil {
		for _, n := range l.troubled() {
			if n == number {
				return l.looks[number], nil
			}
			numbers = append(numbers, fmt.Sprint(n))
		}
	}
	if len(numbers) == 0 {
		return "", fmt.Errorf("nothing is wrong with entry %d, nor with any other whose number is known", number)
	}
	const most = 10
	if len(numbers) > most {
		numbers = append(numbers[:most], "...")
	}
	return "", fmt.Errorf("nothing is wrong with entry %d that was not accepted; allowed: %s", number, strings.Join(numbers, ", "))
}

// troubled lists the numbers with which something is wrong that nobody accepted.
func (l *Log) troubled() []int {
	var all []int
	for _, f := range slices.Concat(l.Faults, l.Dangling) {
		if f.Number > 0 {
			all = append(all, f.Number)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// settle moves what was accepted aside.
func (l *Log) settle(accepts []about) {
	held := map[int]bool{}
	for _, a := range accepts {
		check, bound := strings.CutPrefix(a.note, lookedAt)
		check, _, _ = strings.Cut(check, ";")
		if bound && l.back[a.number] == 0 && check != "" && check == l.looks[a.cancels] {
			held[a.cancels] = true
		}
	}
	if len(held) == 0 {
		return
	}
	of := func(f journal.Fault) bool { return held[f.Number] }
	t, done := &l.Troubles, &l.Accepted
	t.Faults, done.Faults = parted(t.Faults, of)
	t.Dangling, done.Dangling = parted(t.Dangling, of)
	t.Repeated, done.Repeated = parted(t.Repeated, func(n int) bool { return held[n] })
	t.Missing, done.Missing = parted(t.Missing, func(s journal.Span) bool {
		return slices.ContainsFunc(done.Faults, func(f journal.Fault) bool { return f.Gap.From <= s.From && s.To <= f.Gap.To })
	})
}

// parted tells those of a list of which something is so from the others.
func parted[T any](all []T, so func(T) bool) (others, those []T) {
	for _, x := range all {
		if so(x) {
			those = append(those, x)
		} else {
			others = append(others, x)
		}
	}
	return others, those
}
