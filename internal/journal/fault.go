package journal

import "fmt"

// Fault is a line that is not as it should be.
type Fault struct {
	Line   int // from 1
	Number int // of the entry; 0 if it is not known
	Text   string

	Gap Span // the numbers that are missing before it, if that alone is the fault
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
