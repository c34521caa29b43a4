package journal

import (
	"fmt"
	"time"

	"brineyard/internal/quantity"
)

// Audit is what a journal turned out to be, beside its entries.
type Audit struct {
	System      quantity.System // of its columns
	Rows        int             // entries that count
	Highest     int             // entry number that any row has; 0 for none
	Kinds       map[Kind]int    // how many entries of each
	First, Last time.Time       // the earliest and the latest; zero if there are no entries
	Troubles                    // that nobody accepted
	Accepted    Troubles        // that an entry of kind Accept has looked at, as they stand now
	Torn        int64           // bytes at the end of a line or an addition that was cut short; they do not count
	Lost        Span            // entries that were acknowledged, and of which the end of the file has nothing; zero for none
	End         End             // what is known about rows that are lost at the end
	Resaved     string          // what shows that a spreadsheet saved the file; empty for nothing
	Backwards   []Fault         // entries more than a day older than the one before; no fault
}

// Troubles are what may be wrong with rows.
type Troubles struct {
	Faults   []Fault // rows that are not as they should be
	Repeated []int   // numbers that more than one row has, each once
	Missing  []Span  // numbers that no row has
	Dangling []Fault // reversals of nothing
}

// Fault is a line that is not as it should be.
type Fault struct {
	Line   int // from 1
	Number int // of the entry; 0 if it is not known
	Text   string

	gap Span // the numbers that are missing before it, if that alone is the fault
}

// String says where and what.
func (f Fault) String() string {
	if f.Number == 0 {
		return fmt.Sprintf("line %d: %s", f.Line, f.Text)
	}
	return fmt.Sprintf("line %d, entry %d: %s", f.Line, f.Number, f.Text)
}

// Span is a run of entry numbers; the zero value is none.
type Span struct{ From, To int }

// String is like 5 or 5 to 9.
func (s Span) String() string {
	if s.From == s.To {
		return fmt.Sprint(s.From)
	}
	return fmt.Sprintf("%d to %d", s.From, s.To)
}

func (t *Troubles) count() int {
	return len(t.Faults) + len(t.Repeated) + len(t.Missing) + len(t.Dangling)
}

// Sound tells whether nothing is wrong with the file that was not accepted, and nothing is known
// to be lost. With another End than EndKnown, rows may be missing at the end all the same.
func (a *Audit) Sound() bool { return a.count() == 0 && a.Torn == 0 && a.Lost == Span{} }

// LostRows is how many acknowledged entries are missing at the end.
func (a *Audit) LostRows() int {
	if a.Lost == (Span{}) {
		return 0
	}
	return a.Lost.To - a.Lost.From + 1
}

// Verify goes through all of the journal at path. Errors are those of Open.
func Verify(path string) (*Audit, error) {
	l, err := Open(path)
	if err != nil {
		return nil, err
	}
	return &l.Audit, l.Close()
}

// Journal is what a file holds, in memory.
type Journal struct {
	Audit
	Entries []Entry // in the order of the file
}

// Read reads all entries of the journal at path. Errors are those of Open.
func Read(path string) (*Journal, error) {
	l, err := Open(path)
	if err != nil {
		return nil, err
	}
	defer l.Close()
	j := &Journal{Audit: l.Audit, Entries: make([]Entry, 0, l.Rows)}
	for e := range l.rows(false, l.inFile()) {
		j.Entries = append(j.Entries, *e)
	}
	return j, l.Err()
}
