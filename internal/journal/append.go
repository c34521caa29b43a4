package journal

import (
	"errors"
	"fmt"
	"io"
	"os"

	"brineyard/internal/quantity"
)

// Added tells what an addition did.
type Added struct {
	Numbers  []int  // of the entries, in their order
	Created  bool   // the file was not there before, or was empty
	SetAside string // the file to which a torn last line went; empty if none was torn
	Torn     int64  // how many bytes went there
	TookBack *Entry // what a reversal took back; nil for other entries
}

// Append adds entries to the journal at path and numbers them. It returns when they
// are on the disk; with an error, none of them is in the file. The units are those
// of the file; sys is for a file that is yet to be made.
//
// A last line that was torn, by a loss of power, is moved to PATH.torn first. The
// numbers go on from the last row; if rows near the end are damaged or out of order,
// from the highest number that any row of the file has: to be able to record matters
// more than a tidy file, and Verify tells of the damage.
func Append(path string, sys quantity.System, entries []Entry) (Added, error) {
	return add(path, sys, entries, nil)
}

// add is Append under a condition that is checked once the lock is held.
func add(path string, sys quantity.System, entries []Entry, allowed func(*writer) error) (Added, error) {
	real, found, err := resolve(path)
	if err != nil {
		return Added{}, err
	}
	if found {
		if err := refuseOthers(real); err != nil {
			return Added{}, fmt.Errorf("%s: %w", path, err)
		}
	}
	release, err := lockToWrite(real)
	if err != nil {
		return Added{}, err
	}
	defer release()
	w, err := open(real, sys)
	if err != nil {
		return Added{}, fmt.Errorf("%s: %w", path, err)
	}
	defer w.close()
	if allowed != nil {
		if err := allowed(w); err != nil {
			return Added{}, fmt.Errorf("%s: %w", path, err)
		}
	}
	added, err := w.add(entries)
	if err != nil {
		return added, fmt.Errorf("%s: %w", path, err)
	}
	return added, nil
}

// refuseOthers refuses a file that is no journal before a lock file is made beside it. A
// file that it cannot read passes: the caller reports that error.
func refuseOthers(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return nil
	}
	defer f.Close()
	l := newLineReader(io.LimitReader(f, mostLine+1))
	if l.next() != nil {
		return nil
	}
	if _, err := parseHeader(l.text); err != nil && l.ended {
		return err
	}
	return nil
}

// checkEntries makes sure that what will be written can be read again.
func checkEntries(entries []Entry, f form) error {
	enc, dec := newEncoder(), newDecoder(f)
	for i, e := range entries {
		e.Number = mostEntries
		line := enc.row(&e, f)
		_, err := dec.row(line)
		switch {
		case e.Time.IsZero():
			err = errors.New("time is missing")
		case f.holds(&e) != nil:
			err = f.holds(&e)
		case len(line)+1 > mostLine:
			err = fmt.Errorf("its text takes %d bytes; allowed: up to %d", len(line)+1, mostLine)
		}
		if err != nil {
			return fmt.Errorf("entry %d of %d cannot be added: %w", i+1, len(entries), err)
		}
	}
	return nil
}

// add sets a torn line aside and writes the entries behind the rest.
func (w *writer) add(entries []Entry) (Added, error) {
	var a Added
	if err := checkEntries(entries, w.form); err != nil {
		return a, err
	}
	if w.last > mostEntries-len(entries) {
		return a, fmt.Errorf("its last entry number is %d; allowed: up to %d", w.last, mostEntries)
	}
	if w.torn > 0 {
		if err := w.setAside(); err != nil {
			return a, fmt.Errorf("nothing was added: %w", err)
		}
		a.SetAside, a.Torn = w.path+tornSuffix, w.torn
	}
	a.Created = w.fresh
	rows, numbers := w.rows(entries)
	if err := w.write(rows); err != nil {
		return a, err
	}
	a.Numbers = numbers
	return a, nil
}

// rows makes the text to write, with the header or a missing line end.
func (w *writer) rows(entries []Entry) (text []byte, numbers []int) {
	if w.fresh {
		text = append(text, headerLine(w.form)...)
	}
	if w.unended {
		text = append(text, '\n')
	}
	enc := newEncoder()
	for i, e := range entries {
		e.Number = w.last + 1 + i
		text = append(append(text, enc.row(&e, w.form)...), '\n')
		numbers = append(numbers, e.Number)
	}
	return text, numbers
}

// write writes text at the end in one go and waits until the disk has it. If
// anything fails, the file is left as it was.
func (w *writer) write(text []byte) error {
	if len(text) == 0 {
		return nil
	}
	if w.f == nil {
		f, err := os.OpenFile(w.path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
		if err != nil {
			return reason(err)
		}
		w.f, w.made = f, true
	}
	_, err := w.f.WriteAt(text, w.size)
	if err == nil {
		err = w.f.Sync()
	}
	if err == nil && w.made {
		err = w.syncDir()
	}
	if err != nil {
		return w.takeBack(reason(err))
	}
	w.size += int64(len(text))
	return nil
}

// takeBack undoes a write that failed and says how that went.
func (w *writer) takeBack(cause error) error {
	if w.made {
		w.close()
		if err := os.Remove(w.path); err != nil {
			return fmt.Errorf("nothing was recorded: %w; and the new file could not be removed: %v", cause, reason(err))
		}
		return fmt.Errorf("nothing was recorded: %w", cause)
	}
	err := w.f.Truncate(w.size)
	if err == nil {
		err = w.f.Sync()
	}
	if err != nil {
		return fmt.Errorf("recording failed: %w; and the file could not be put back to %d bytes: %v", cause, w.size, reason(err))
	}
	return fmt.Errorf("nothing was recorded: %w", cause)
}
