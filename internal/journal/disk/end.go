package disk

import (
	"brineyard/internal/journal"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
)

// Beside a journal lies PATH.end, which knows where it ends. It is plain text of two lines of a
// fixed length. Each write goes over the older line, so that one that is cut short leaves the
// other. It is written under the lock of the journal alone.

const (
	endSuffix = ".end"
	slotSize  = 256
)

// none stands for a check that there is not.
const none = "none"

// slot is one line of the side file: what was acknowledged, and what was about to be added.
type slot struct {
	write int64  // counts the writes, from 1
	size  int64  // of the journal with all that was acknowledged, in bytes
	last  int    // entry number that was acknowledged, 0 for none
	mark  string // check of its row
	first string // check of the journal's first row, by which it is known
	adds  int64  // bytes of an addition that is under way, 0 for none
	rows  int    // of that addition
	text  string // check of its text
}

const slotForm = "brineyard journal end 1 write %d size %d last %d mark %s first %s adds %d rows %d text %s"

// line is the slot as it is written, of slotSize bytes.
func (s slot) line() []byte {
	text := fmt.Sprintf(slotForm, s.write, s.size, s.last, s.mark, s.first, s.adds, s.rows, s.text)
	text += " check " + journal.CheckOf([]byte(text))
	return append(fmt.Appendf(nil, "%-*s", slotSize-1, text), '\n')
}

// parseSlot reads a line of the side file; ok tells that it is whole.
func parseSlot(line []byte) (s slot, ok bool) {
	n, _ := fmt.Sscanf(string(line), slotForm, &s.write, &s.size, &s.last, &s.mark, &s.first, &s.adds, &s.rows, &s.text)
	if n < 8 || s.write < 1 || min(s.size, s.adds) < 0 || min(s.last, s.rows) < 0 || max(s.last, s.rows) > journal.MostEntries {
		return slot{}, false
	}
	return s, bytes.Equal(s.line(), line)
}

// End tells how the side file of a journal stands to it.
type End int

// What may be so.
const (
	EndKnown   End = iota // it fits: rows that were lost at the end are known
	EndUnknown            // there is none, as beside a copy: rows may be missing at the end
	EndDamaged            // it cannot be read: rows may be missing at the end
	EndForeign            // it belongs to another journal: this one was put in its place
	EndBehind             // the journal goes on behind what it knows, as after an older program
)

// String says it, without a subject.
func (e End) String() string {
	return [...]string{
		"fits the journal",
		"is not there, so nobody knows whether rows are missing at the end",
		"is damaged, so nobody knows whether rows are missing at the end",
		"belongs to another journal, so this one was put in its place",
		"does not know the last rows, which another program or another name of the file added",
	}[e]
}

// readEnd reads the side file of the journal at path. The state is EndKnown if the newest
// whole line can be relied on.
func readEnd(path string) (slot, End) {
	if checkRegularIfThere(path+endSuffix) != nil {
		return slot{}, EndDamaged
	}
	f, err := os.Open(path + endSuffix)
	if errors.Is(err, os.ErrNotExist) {
		return slot{}, EndUnknown
	}
	if err != nil {
		return slot{}, EndDamaged
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, 2*slotSize))
	if err != nil {
		return slot{}, EndDamaged
	}
	return parseEnd(text)
}

// parseEnd reads the text of a side file.
func parseEnd(text []byte) (newest slot, state End) {
	for rest := text; len(rest) >= slotSize; rest = rest[slotSize:] {
		if s, ok := parseSlot(rest[:slotSize]); ok && s.write > newest.write {
			newest = s
		}
	}
	switch {
	case newest.write > 0:
		return newest, EndKnown
	case len(text) == 0: // made, and not written yet
		return newest, EndUnknown
	}
	return newest, EndDamaged
}

// ending is what a journal shows of itself to compare with its side file.
type ending struct {
	first  string // check of its first row; empty if it has none
	marked bool   // the row that was acknowledged last ends where the side file says
	last   int    // the highest entry number
}

// judge tells how the side file stands to a journal, and which entries that were acknowledged are
// lost at its end.
func (s slot) judge(state End, j ending) (End, journal.Span) {
	switch {
	case state != EndKnown:
		return state, journal.Span{}
	case !s.owns(j):
		return EndForeign, journal.Span{}
	case s.last > j.last:
		return EndKnown, journal.Span{From: j.last + 1, To: s.last}
	case j.last > s.last && (s.adds == 0 || j.last != s.last+s.rows):
		return EndBehind, journal.Span{}
	}
	return EndKnown, journal.Span{}
}

// owns tells whether the side file is that of a journal. One without rows may be what is left.
func (s slot) owns(j ending) bool {
	return j.marked || j.first == "" || s.last == 0 || (j.first == s.first && s.first != none)
}

// endFile is the side file, open to write.
type endFile struct {
	f      *os.File
	made   bool
	newest slot
}

// openEnd opens the side file of the journal at path, or makes it, open to whom the umask says.
func openEnd(path string, newest slot) (*endFile, error) {
	side := path + endSuffix
	if err := checkRegularIfThere(side); err != nil {
		return nil, err
	}
	_, err := os.Stat(side)
	made := errors.Is(err, os.ErrNotExist)
	f, err := os.OpenFile(side, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", side, reason(err))
	}
	return &endFile{f, made, newest}, nil
}

func (e *endFile) close() { _ = e.f.Close() } // what counts is synced by now

// undo puts back what was known before an addition that failed, as far as that goes; a new file
// that knew nothing goes.
func (e *endFile) undo(before slot) {
	if e.made {
		_ = os.Remove(e.f.Name())
		return
	}
	_ = e.put(before)
}

// put writes a slot over the older line.
func (e *endFile) put(s slot) error {
	s.write = e.newest.write + 1
	info, err := e.f.Stat()
	if err != nil {
		return err
	}
	if info.Size() < 2*slotSize {
		blank := bytes.Repeat([]byte(" "), 2*slotSize)
		blank[slotSize-1], blank[2*slotSize-1] = '\n', '\n'
		if _, err := e.f.WriteAt(blank[info.Size():], info.Size()); err != nil {
			return err
		}
	}
	if _, err := e.f.WriteAt(s.line(), s.write%2*slotSize); err != nil {
		return err
	}
	e.newest = s
	return nil
}
