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
	figures := object{}
	for _, f := range d.Figures {
		figures = append(figures, member{f.Key, jsonOf(f.Value)})
	}
	tables := object{}
	for _, t := range d.Tables {
		rows := []object{}
		for _, row := range t.Rows {
			cells := object{}
			for i, v := range row {
				cells = append(cells, member{t.Columns[i].Key, jsonOf(v)})
			}
			rows = append(rows, cells)
		}
		tables = append(tables, member{t.Key, rows})
	}
	all := object{
		{"command", d.Command},
		{"verdict", d.Verdict},
		{"figures", figures},
		{"tables", tables},
		{"notes", orEmpty(d.Notes)},
		{"cautions", orEmpty(d.Cautions)},
	}
	if len(d.Working) > 0 {
		steps := []object{}
		for _, s := range d.Working {
			steps = append(steps, object{
				{"what", s.What}, {"formula", s.Formula}, {"numbers", s.Numbers}, {"result", s.Result},
			})
		}
		all = append(all, member{"working", steps})
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

// valueJSON is a value for programs; Value is null where there is none.
type valueJSON struct {
	Value any    `json:"value"`
	Unit  string `json:"unit"`
}

func jsonOf(v Value) valueJSON {
	switch {
	case v.Number != nil:
		return valueJSON{*v.Number, v.Unit}
	case v.Word != "":
		return valueJSON{v.Word, v.Unit}
	}
	return valueJSON{nil, v.Unit}
}

// escapeMarks writes as escapes what JSON allows but a terminal obeys: marks that reorder
// text, and controls beyond ASCII. They stand in strings alone.
func escapeMarks(text []byte) []byte {
	out := make([]byte, 0, len(text))
	for _, r := range string(text) {
		if r >= 0x7f && clean(string(r)) != string(r) && r != utf8.RuneError {
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
