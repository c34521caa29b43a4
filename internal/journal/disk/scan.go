package disk

import (
	"brineyard/internal/journal"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"time"
)

// scan is the first pass over a journal: it finds what counts, and what is wrong.
type scan struct {
	*Log
	dec      *journal.Decoder
	newest   slot
	state    End
	ending   ending
	seq      sequence
	good     numberSet     // of the entries that count
	offset   int64         // of the line at hand
	entry    journal.Entry // on it
	before   place         // the entry before
	nameless []look        // lines without a number since the last that has one
	undos    []about
	accepts  []about
}

// look is a line, where the fault of one without a number stands in the list, and the check of
// its text.
type look struct {
	fault int
	check string
}

// about is a row that is about another.
type about struct {
	number, cancels, line int
	check, note           string
}

func newScan(l *Log, newest slot, state End) *scan {
	l.Kinds, l.ordered = map[journal.Kind]int{}, true
	return &scan{Log: l, newest: newest, state: state, seq: sequence{seen: numberSet{}}, good: numberSet{}, before: place{micros: math.MinInt64}}
}

func (s *scan) run() error {
	lines := newLineReader(io.NewSectionReader(s.f, 0, s.size))
	err := s.header(lines)
	for more := s.dec != nil; err == nil && more; s.offset += lines.length {
		if err = lines.next(); err == nil {
			more = s.line(lines)
		}
	}
	if err != nil && err != io.EOF {
		return err
	}
	s.finish()
	return nil
}

// header reads the first line; a decoder is there if rows may follow.
func (s *scan) header(l *lineReader) error {
	if err := l.next(); err != nil {
		return err // io.EOF: as empty as a journal can be
	}
	f, err := journal.ParseHeader(l.text)
	if err != nil && !l.ended && journal.TornHeader(l.text) {
		s.Torn = s.size
		return nil
	}
	if err != nil {
		return err
	}
	s.System, s.form, s.offset = f.Units, f, l.length
	s.dec = journal.NewDecoder(f)
	s.dec.Reuse = true
	return nil
}

// line takes a line behind the header; more tells that the next one counts as well.
func (s *scan) line(l *lineReader) (more bool) {
	switch {
	case l.opensPart(s.seq.last+1, s.state == EndKnown && s.offset >= s.newest.size && s.newest.owns(s.ending)):
		s.Torn = s.size - s.offset
		return false
	case l.blank():
	case !l.ended && !complete(s.dec, l):
		s.Torn = l.length
		return false
	case l.long:
		s.fault(l, 0, journal.Span{}, fmt.Errorf("longer than %d bytes", mostLine))
	default:
		s.row(l)
	}
	return true
}

// row takes a line as a row.
func (s *scan) row(l *lineReader) {
	e := &s.entry
	err := s.dec.Into(e, l.text)
	n, from := e.Number, len(s.Faults)
	if s.ending.first == "" {
		s.ending.first = orNone(journal.CheckCell(l.text))
	}
	if err != nil {
		s.fault(l, n, journal.Span{}, err)
	}
	if n == 0 {
		return
	}
	s.infer(n)
	repeated, gap, order := s.seq.admit(n)
	if order != nil {
		s.fault(l, n, gap, order)
	}
	if repeated {
		s.Repeated = append(s.Repeated, n)
	}
	if err == nil {
		s.acknowledged(l, n)
	}
	if l.bare {
		s.fault(l, n, journal.Span{}, errors.New("it ends in a carriage return alone"))
	}
	if len(s.Faults) > from {
		s.look(n, journal.CheckOf(l.text))
	}
	s.Highest = max(s.Highest, n)
	if !repeated && (err == nil || errors.Is(err, journal.ErrChanged)) {
		s.count(e, l, err == nil)
	}
}

// acknowledged compares a row with the one that the side file knows last.
func (s *scan) acknowledged(l *lineReader, n int) {
	if s.state != EndKnown || n != s.newest.last {
		return
	}
	switch check := journal.CheckCell(l.text); {
	case check == s.newest.mark:
		s.ending.marked = true
	case s.newest.mark != none && s.newest.owns(s.ending):
		s.fault(l, n, journal.Span{}, errors.New("another row was acknowledged under its number"))
	}
}

// count takes an entry that counts; sound tells that its check fits.
func (s *scan) count(e *journal.Entry, l *lineReader, sound bool) {
	const day = 24 * 60 * 60 * 1e6
	p := place{e.Time.UnixMicro(), s.offset}
	if last := len(s.index) - 1; last < 0 || len(s.index[last]) == places {
		s.index = append(s.index, make([]place, 0, places))
	}
	last := len(s.index) - 1
	s.index[last] = append(s.index[last], p)
	s.ordered = s.ordered && p.micros >= s.before.micros
	if s.Rows > 0 && s.before.micros-p.micros > day {
		s.Backwards = append(s.Backwards, journal.Fault{Line: l.number, Number: e.Number, Text: fmt.Sprintf("its time %s is more than a day before that of the row before, %s",
			e.Time.Format(time.RFC3339), time.UnixMicro(s.before.micros).In(e.Time.Location()).Format(time.RFC3339))})
	}
	if s.Rows == 0 || e.Time.Before(s.First) {
		s.First = e.Time
	}
	if s.Rows == 0 || e.Time.After(s.Last) {
		s.Last = e.Time
	}
	s.before = p
	s.Rows++
	s.Kinds[e.Kind]++
	s.good.add(e.Number)
	switch a := (about{e.Number, e.Cancels, l.number, "", e.Note}); {
	case e.Kind == journal.Undo:
		a.check = journal.CheckOf(l.text)
		s.undos = append(s.undos, a)
	case e.Kind == journal.Accept && sound:
		s.accepts = append(s.accepts, a)
	}
}

// fault keeps what is wrong with a line.
func (s *scan) fault(l *lineReader, n int, gap journal.Span, err error) {
	var resaved journal.ResavedError
	if errors.As(err, &resaved) && s.Resaved == "" {
		s.Resaved = string(resaved)
	}
	if n == 0 {
		s.nameless = append(s.nameless, look{len(s.Faults), journal.CheckOf(l.text)})
	}
	s.Faults = append(s.Faults, journal.Fault{Line: l.number, Number: n, Text: err.Error(), Gap: gap})
}

// look binds a number to the text of a line that is not as it should be.
func (s *scan) look(n int, check string) {
	if before := s.looks[n]; before != "" {
		check = journal.CheckOf([]byte(before + check))
	}
	s.looks[n] = check
}

// infer gives lines without a number those between the rows around them, if they are as many.
func (s *scan) infer(next int) {
	if n := s.seq.last + 1; next == n+len(s.nameless) && !slices.ContainsFunc(s.nameless, func(look) bool { return s.seq.seen.has(n) }) {
		for _, line := range s.nameless {
			s.Faults[line.fault].Number = n
			_, _, _ = s.seq.admit(n)
			s.look(n, line.check)
			n++
		}
	}
	s.nameless = s.nameless[:0]
}

// finish draws the conclusions.
func (s *scan) finish() {
	if s.state == EndKnown && s.newest.owns(s.ending) {
		s.infer(s.newest.last + 1)
		s.Highest = max(s.Highest, s.seq.last)
	}
	slices.Sort(s.Repeated)
	s.Repeated = slices.Compact(s.Repeated)
	s.Missing = s.seq.seen.gaps()
	for _, u := range s.undos {
		if !s.good.has(u.cancels) || u.cancels >= u.number {
			s.Dangling = append(s.Dangling, journal.Fault{Line: u.line, Number: u.number, Text: fmt.Sprintf("takes back entry %d, which is not there before it", u.cancels)})
			if s.looks[u.number] == "" {
				s.look(u.number, u.check)
			}
		}
	}
	undos := make([]journal.Reversal, len(s.undos))
	for i, u := range s.undos {
		undos[i] = journal.Reversal{Number: u.number, Cancels: u.cancels}
	}
	s.back = journal.Reversed(undos)
	s.ending.last = s.Highest
	s.End, s.Lost = s.newest.judge(s.state, s.ending)
	s.settle(s.accepts)
}

// opensPart tells whether an addition of several rows begins on this line that was never ended:
// its first bytes are written last. next is the number that the row would have; beyond tells that
// nothing that was acknowledged can stand here, so that any zeros will do.
func (l *lineReader) opensPart(next int, beyond bool) bool {
	if !l.hollow || beyond || l.long {
		return l.hollow && beyond
	}
	row := slices.Clone(l.text)
	copy(row[:hollow], strconv.Itoa(next)+",")
	return journal.CheckFits(row)
}

// blank tells whether there is nothing on a line, as at the end of a file that somebody edited.
func (l *lineReader) blank() bool { return !l.long && len(bytes.Trim(l.text, ",")) == 0 }

// orNone is a check, or none for an empty one.
func orNone(check string) string {
	if check == "" {
		return none
	}
	return check
}
