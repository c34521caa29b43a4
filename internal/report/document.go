// Package report holds the result document that every command makes, and draws it as text,
// JSON, CSV or markdown. A document holds numbers in the user's units, with the digits worth
// reading; the package converts and computes nothing.
package report

import (
	"iter"
	"slices"

	"brineyard/internal/chart"
)

// Document is the answer to one question.
type Document struct {
	Command  string // the words that asked, like "check"
	Title    string // heading, where the format has headings
	Verdict  string // one plain sentence, first in every format
	Brief    string // the same in fewer words; empty where the verdict is short enough
	Figures  []Figure
	Tables   []Table
	Charts   []chart.Chart // drawn by text and markdown; their numbers stand in tables
	ASCII    bool          // charts are drawn with characters of ASCII alone
	Drawings []string      // lines drawn likewise; their facts stand in tables
	Working  []Step        // empty unless asked for
	Doubts   []string      // notes on which the answer hangs: they come before all others
	Notes    []string
	Cautions []string // the first is what this answer calls for
	Next     string   // a command that often follows, empty for none
	// Asked is the whole command line, where part of it was left out; text and markdown end with it.
	Asked string
	// Short keeps text to what somebody at a tank acts on: the first caution directly under the
	// verdict, no figures of detail, one note.
	Short bool
}

// notes are all that are said of the answer, in their order.
func (d *Document) notes() []string { return slices.Concat(d.Doubts, d.Notes) }

// Value is a number in a unit, a word, or nothing.
type Value struct {
	Number *float64 // full precision
	Word   string   // used when Number is nil; empty for nothing
	Unit   string
	Text   string // how text and markdown show it, unit included
	Call   bool   // it calls for an act, and a sheet on a wall is to show that from afar
}

// Number returns a value for a number. Nothing has no sign.
func Number(x float64, unit, text string) Value {
	if x == 0 {
		x = 0 // not -0
	}
	return Value{Number: &x, Unit: unit, Text: text}
}

// Word returns a value for a word.
func Word(word string) Value { return Value{Word: word, Text: word} }

// Nothing returns the value of a figure that has none here; text says why.
func Nothing(unit, text string) Value { return Value{Unit: unit, Text: text} }

// Figure is one labelled result. Key is snake_case and stable.
type Figure struct {
	Key   string
	Label string
	Value Value
	// Quiet figures are for programs: text and markdown leave them out.
	Quiet bool
	// Detail figures are left out of a short text too.
	Detail bool
}

// Table is a named grid. Rows hold one value a column.
type Table struct {
	Key     string
	Title   string
	Columns []Column
	Rows    [][]Value
	// Stream makes further rows as they are asked for, the same each time; nil for none. A row is
	// valid until the next. CSV and JSON have them, the forms for people do not.
	Stream iter.Seq[[]Value]
	// Quiet tables are for programs: text and markdown leave them out.
	Quiet bool
	// Long tables are left out of text, which is to fit a page.
	Long bool
}

// all goes through the rows; each is valid until the next.
func (t *Table) all() iter.Seq[[]Value] {
	return func(yield func([]Value) bool) {
		for _, row := range t.Rows {
			if !yield(row) {
				return
			}
		}
		if t.Stream != nil {
			t.Stream(yield)
		}
	}
}

// Column heads a table's column.
type Column struct {
	Key   string
	Label string
}

// Step is one line of arithmetic: the name of its result, the formula in words, the same with
// numbers put in, and the result with its unit.
type Step struct {
	What    string
	Formula string
	Numbers string
	Result  string
}

// line writes a step on one line.
func (s Step) line() string {
	text := s.What
	for _, part := range []string{s.Formula, s.Numbers} {
		if part != "" {
			text += ": " + part
		}
	}
	if s.Result != "" {
		text += " = " + s.Result
	}
	return text
}
