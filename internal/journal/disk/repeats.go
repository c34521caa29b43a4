package disk

import (
	"brineyard/internal/journal"
	"time"
)

// Repeats finds, among entries that are to be added, those that the journal has already: the same
// but for the number, to the second and to the digits that the file has. It returns the numbers
// that they have there, by their places. The journal is nil where it has no rows.
func Repeats(l *Log, added []journal.Entry) (map[int]int, error) {
	if l == nil || len(added) == 0 {
		return nil, nil
	}
	enc, earliest := journal.NewEncoder(), added[0].Time
	places := make(map[string][]int, len(added))
	for i := range added {
		text := alike(enc, &added[i], l.form)
		places[text] = append(places[text], i)
		if added[i].Time.Before(earliest) {
			earliest = added[i].Time
		}
	}
	earliest = earliest.Add(-time.Second)
	found := map[int]int{}
	for e := range l.Effective() {
		if e.Time.Before(earliest) {
			continue // as most are
		}
		for _, i := range places[alike(enc, e, l.form)] {
			found[i] = e.Number
		}
	}
	return found, l.Err()
}

// alike is a row without its number, its zone, and its check.
func alike(c *journal.Encoder, e *journal.Entry, f journal.Form) string {
	plain := *e
	plain.Number, plain.Time = 0, e.Time.UTC().Truncate(time.Second)
	row := c.Row(&plain, f)
	return string(row[:len(row)-len(",12345678")])
}
