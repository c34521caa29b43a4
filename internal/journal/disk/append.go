package disk

import (
	"brineyard/internal/journal"
	"errors"
	"fmt"
	"os"
)

// Added tells what an addition did, and what it found.
type Added struct {
	Numbers  []int          // of the entries, in their order
	Created  bool           // the file was not there before, or was empty
	SetAside string         // the file to which a torn end went; empty if none was torn
	Torn     int64          // how many bytes went there
	TookBack *journal.Entry // what a reversal took back; nil for other entries
	Lost     journal.Span   // acknowledged entries that were missing at the end; their numbers are not given again
	End      End            // how the side file stood to the journal
}

// Append adds entries to the journal at path and numbers them: all of them, or none, whenever the
// program is ended. It returns when they are on the disk; with an error, none of them is in the
// file. The units are those of the file.
//
// A last line, or an addition of several rows, that was cut short is moved to PATH.torn first. The
// numbers go on from the highest that a row has, or that the side file PATH.end knows.
func Append(path string, o Options, entries []journal.Entry) (Added, error) {
	return add(path, o, true, entries, nil)
}

// add is Append under a condition that is checked once the lock is held, with all of the journal
// read. Without make, the journal has to be there.
func add(path string, o Options, make bool, entries []journal.Entry, allowed func(*Log) error) (Added, error) {
	f, real, made, err := openLocked(path, true, make, o)
	if err != nil {
		return Added{}, err
	}
	w := &writer{path: path, real: real, f: f, made: made}
	defer w.close()
	added, err := w.addIf(o, entries, allowed)
	if err != nil {
		err = fmt.Errorf("%s: %w", path, err)
		if w.made && w.size == 0 {
			if e := removeMade(real); e != nil {
				err = fmt.Errorf("%w; and the new file could not be removed: %v", err, reason(e))
			}
		}
	}
	return added, err
}

// addIf adds entries if the checks allow it.
func (w *writer) addIf(o Options, entries []journal.Entry, allowed func(*Log) error) (Added, error) {
	if err := w.survey(o.System, o.Check != nil || allowed != nil); err != nil {
		return Added{}, reason(err)
	}
	for _, check := range []func(*Log) error{allowed, o.Check} {
		if check == nil {
			continue
		}
		if err := check(w.log); err != nil {
			return Added{}, err
		}
	}
	return w.add(entries)
}

// checkEntries makes sure that what will be written can be read again.
func checkEntries(entries []journal.Entry, f journal.Form) error {
	enc, dec := journal.NewEncoder(), journal.NewDecoder(f)
	for i := range entries {
		e := entries[i]
		e.Number = journal.MostEntries
		line := enc.Row(&e, f)
		_, err := dec.Row(line)
		switch {
		case e.Time.IsZero():
			err = errors.New("time is missing")
		case f.Holds(&e) != nil:
			err = f.Holds(&e)
		case len(line)+1 > mostLine:
			err = fmt.Errorf("its text takes %d bytes; allowed: up to %d", len(line)+1, mostLine)
		}
		if err != nil {
			return fmt.Errorf("entry %d of %d cannot be added: %w", i+1, len(entries), err)
		}
	}
	return nil
}

// add sets a torn end aside and writes the entries behind the rest.
func (w *writer) add(entries []journal.Entry) (Added, error) {
	a := Added{Lost: w.lost, End: w.state}
	if err := checkEntries(entries, w.form); err != nil {
		return a, err
	}
	if w.last > journal.MostEntries-len(entries) {
		return a, fmt.Errorf("its last entry number is %d; allowed: up to %d", w.last, journal.MostEntries)
	}
	if w.torn > 0 {
		if err := w.setAside(); err != nil {
			return a, fmt.Errorf("nothing was added: %w", err)
		}
		a.SetAside, a.Torn = w.path+tornSuffix, w.torn
	}
	a.Created = w.fresh
	t := w.rows(entries)
	if len(t.text) == 0 {
		return a, nil
	}
	if err := w.keep(t); err != nil {
		return a, err
	}
	a.Numbers = t.numbers
	return a, nil
}

// addition is the text of rows that are to be written.
type addition struct {
	text        []byte
	begins      int // where the first row does
	numbers     []int
	first, mark string // checks of the first and the last row; empty without rows
}

// rows makes the text to write, with the header or a missing line end.
func (w *writer) rows(entries []journal.Entry) addition {
	var t addition
	if w.fresh {
		t.text = append(t.text, journal.HeaderLine(w.form)...)
	}
	if w.unended {
		t.text = append(t.text, '\n')
	}
	t.begins = len(t.text)
	enc := journal.NewEncoder()
	for i := range entries {
		e := entries[i]
		e.Number = w.last + 1 + i
		row := enc.Row(&e, w.form)
		if t.mark = journal.CheckCell(row); i == 0 {
			t.first = t.mark
		}
		t.text = append(append(t.text, row...), '\n')
		t.numbers = append(t.numbers, e.Number)
	}
	return t
}

// keep writes an addition between two notes in the side file: what is about to be added, and what
// is acknowledged.
func (w *writer) keep(t addition) error {
	side, err := openEnd(w.real, w.newest)
	if err != nil {
		return fmt.Errorf("nothing was recorded: %w", err)
	}
	defer side.close()
	before := slot{size: w.size, last: w.last, mark: orNone(w.mark), first: orNone(w.first), text: none}
	intent := before
	intent.adds, intent.rows, intent.text = int64(len(t.text)), len(t.numbers), journal.CheckOf(t.text)
	if err := side.put(intent); err != nil {
		side.undo(before)
		return fmt.Errorf("nothing was recorded: %s: %w", w.path+endSuffix, reason(err))
	}
	err = w.write(t)
	if err == nil && !isAt(w.f, w.path) {
		err = errors.New("the file was renamed or replaced while it was written, so nothing is acknowledged; look which file is the journal")
	}
	if err == nil {
		err = side.put(w.after(before, t))
	}
	if err == nil {
		err = side.f.Sync()
	}
	if err == nil && (side.made || w.made) {
		err = w.syncDir()
	}
	if err != nil {
		err = w.takeBack(reason(err))
		side.undo(before)
		return err
	}
	w.size += int64(len(t.text))
	return nil
}

// after is what the side file is to know once an addition is on the disk.
func (w *writer) after(before slot, t addition) slot {
	s := before
	s.size += int64(len(t.text))
	if n := len(t.numbers); n > 0 {
		s.last, s.mark = t.numbers[n-1], t.mark
		if s.first == none {
			s.first = t.first
		}
	}
	return s
}

// write writes an addition at the end and waits until the disk has it. The first bytes of several
// rows come last of all: until they are there, none of the rows counts.
func (w *writer) write(t addition) error {
	text := t.text
	several := len(t.numbers) > 1
	if several {
		text = append([]byte(nil), text...)
		copy(text[t.begins:], make([]byte, hollow))
	}
	if _, err := w.f.WriteAt(text, w.size); err != nil {
		return err
	}
	if err := w.f.Sync(); err != nil || !several {
		return err
	}
	if _, err := w.f.WriteAt(t.text[t.begins:t.begins+hollow], w.size+int64(t.begins)); err != nil {
		return err
	}
	return w.f.Sync()
}

// takeBack undoes a write that failed and says how that went. A new file is removed by add.
func (w *writer) takeBack(cause error) error {
	err := w.f.Truncate(w.size)
	if err == nil {
		err = w.f.Sync()
	}
	if err != nil {
		return fmt.Errorf("recording failed: %w; and the file could not be put back to %d bytes: %v", cause, w.size, reason(err))
	}
	return fmt.Errorf("nothing was recorded: %w", cause)
}

var _ storage = (*os.File)(nil)
