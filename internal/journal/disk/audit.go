package disk

import (
	"brineyard/internal/journal"

	"time"

	"brineyard/internal/quantity"
)

// Audit is what a journal turned out to be, beside its entries.
type Audit struct {
	System      quantity.System      // of its columns
	Rows        int                  // entries that count
	Highest     int                  // entry number that any row has; 0 for none
	Kinds       map[journal.Kind]int // how many entries of each
	First, Last time.Time            // the earliest and the latest; zero if there are no entries
	Troubles                         // that nobody accepted
	Accepted    Troubles             // that an entry of kind Accept has looked at, as they stand now
	Torn        int64                // bytes at the end of a line or an addition that was cut short; they do not count
	Lost        journal.Span         // entries that were acknowledged, and of which the end of the file has nothing; zero for none
	End         End                  // what is known about rows that are lost at the end
	Resaved     string               // what shows that a spreadsheet saved the file; empty for nothing
	Backwards   []journal.Fault      // entries more than a day older than the one before; no fault
}

// Troubles are what may be wrong with rows.
type Troubles struct {
	Faults   []journal.Fault // rows that are not as they should be
	Repeated []int           // numbers that more than one row has, each once
	Missing  []journal.Span  // numbers that no row has
	Dangling []journal.Fault // reversals of nothing
}

func (t *Troubles) count() int {
	return len(t.Faults) + len(t.Repeated) + len(t.Missing) + len(t.Dangling)
}

// Sound tells whether nothing is wrong with the file that was not accepted, and nothing is known
// to be lost. With another End than EndKnown, rows may be missing at the end all the same.
func (a *Audit) Sound() bool { return a.count() == 0 && a.Torn == 0 && a.Lost == journal.Span{} }

// LostRows is how many acknowledged entries are missing at the end.
func (a *Audit) LostRows() int {
	if a.Lost == (journal.Span{}) {
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
	Entries []journal.Entry // in the order of the file
}

// Read reads all entries of the journal at path. Errors are those of Open.
func Read(path string) (*Journal, error) {
	l, err := Open(path)
	if err != nil {
		return nil, err
	}
	defer l.Close()
	j := &Journal{Audit: l.Audit, Entries: make([]journal.Entry, 0, l.Rows)}
	for e := range l.rows(false, l.inFile()) {
		j.Entries = append(j.Entries, *e)
	}
	return j, l.Err()
}
