package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"unicode/utf16"
	"unicode/utf8"
)

// JSON writes the document as one JSON object, keys in the document's order,
// numbers in full precision.
func JSON(w io.Writer, d *Document) error {
	figures, tables := object{}, object{}
	for _, f := range d.Figures {
		figures = append(figures, member{f.Key, jsonOf(f.Value)})
	}
	for i := range d.Tables {
		tables = append(tables, member{d.Tables[i].Key, rowsOf(&d.Tables[i])})
	}
	all := object{
		{"command", d.Command},
		{"verdict", d.Verdict},
		{"figures", figures},
		{"tables", tables},
		{"notes", orEmpty(d.notes())},
		{"cautions", orEmpty(d.Cautions)},
	}
	if len(d.Working) > 0 {
		all = append(all, member{"working", stepsOf(d.Working)})
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(all); err != nil {
		return err
	}
	_, err := w.Write(escapeMarks(b.Bytes()))
	return err
}

// rowsOf returns the rows of a table, each with the columns' keys.
func rowsOf(t *Table) []object {
	rows := []object{}
	for row := range t.all() {
		cells := object{}
		for i, v := range row {
			cells = append(cells, member{t.Columns[i].Key, jsonOf(v)})
		}
		rows = append(rows, cells)
	}
	return rows
}

func stepsOf(working []Step) []object {
	steps := []object{}
	for _, s := range working {
		steps = append(steps, object{{"what", s.What}, {"formula", s.Formula}, {"numbers", s.Numbers}, {"result", s.Result}})
	}
	return steps
}

// jsonOf returns a value with its unit; the value is null where there is none.
func jsonOf(v Value) object {
	var value any
	switch {
	case v.Number != nil:
		value = *v.Number
	case v.Word != "":
		value = v.Word
	}
	return object{{"value", value}, {"unit", v.Unit}}
}

// escapeMarks escapes characters that JSON allows but a terminal obeys: marks that reorder
// text, and controls beyond ASCII. Those stand only within strings.
func escapeMarks(text []byte) []byte {
	out := make([]byte, 0, len(text))
	for _, r := range string(text) {
		if r >= 0x7f && Clean(string(r)) != string(r) && r != utf8.RuneError {
			for _, half := range utf16.Encode([]rune{r}) {
				out = fmt.Appendf(out, "\\u%04x", half)
			}
			continue
		}
		out = utf8.AppendRune(out, r)
	}
	return out
}

func orEmpty(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

// object is a JSON object that keeps its order.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := e.Encode(m.key); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(m.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}
