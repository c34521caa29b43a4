package file

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// reader gathers the faults of a file.
type reader struct {
	path   string
	text   string
	places *places
	faults Faults
}

// fault adds a fault at a key of a table.
func (r *reader) fault(table string, index int, key, format string, args ...any) {
	if r.places == nil {
		p := locate(r.text)
		r.places = &p
	}
	line, column := r.places.find(table, index, key)
	r.faults = append(r.faults, &Error{r.path, line, column, words.OneLine(fmt.Sprintf(format, args...))})
}

// table is a table of the file while it is read. Each key is to be asked for, so
// that done can tell which are unknown.
type table struct {
	r     *reader
	name  string // dotted; empty for the file itself
	index int    // in a list of tables, from 0
	value map[string]any
	asked []string
}

func (t *table) fault(key, format string, args ...any) {
	t.r.fault(t.name, t.index, key, format, args...)
}

// label names the table in a message: storage_tank "north".
func (t *table) label() string {
	if name, ok := t.value["name"].(string); ok && t.name != "" {
		return t.name + " " + words.Quoted(name) + ": "
	}
	if t.name != "" {
		return t.name + ": "
	}
	return ""
}

func (t *table) take(key string) (any, bool) {
	t.asked = append(t.asked, key)
	v, ok := t.value[key]
	return v, ok
}

// text reads a string.
func (t *table) text(key string) string {
	v, ok := t.take(key)
	if !ok {
		return ""
	}
	s, ok := v.(string)
	if !ok {
		t.fault(key, "%s%s takes text in quotes, not %s", t.label(), key, kind(v))
	}
	return s
}

// quantityOf reads a quantity: text like "1200gal", or a bare number.
func quantityOf[Q any](t *table, key string, parse func(string) (Q, bool, error)) *Q {
	v, ok := t.take(key)
	if !ok {
		return nil
	}
	text, ok := scalar(v)
	if !ok {
		t.fault(key, "%s%s takes a quantity in quotes, not %s", t.label(), key, kind(v))
		return nil
	}
	q, _, err := parse(text)
	if err != nil {
		t.fault(key, "%s%s = %s: %v", t.label(), key, words.Quoted(text), err)
		return nil
	}
	return &q
}

// scalar is the text of a string or a number.
func scalar(v any) (string, bool) {
	switch x := v.(type) {
	case string:
		return x, true
	case int64:
		return strconv.FormatInt(x, 10), true
	case float64:
		return strconv.FormatFloat(x, 'g', -1, 64), true
	}
	return "", false
}

// sub reads a table of its own.
func (t *table) sub(key string) *table {
	v, ok := t.take(key)
	name := t.path(key)
	if !ok {
		return &table{r: t.r, name: name}
	}
	m, ok := v.(map[string]any)
	if !ok {
		t.fault(key, "%s takes keys of its own; write [%s] above them", key, name)
	}
	return &table{r: t.r, name: name, value: m}
}

// list reads a list of tables.
func (t *table) list(key string) []*table {
	v, ok := t.take(key)
	if !ok {
		return nil
	}
	name := t.path(key)
	var maps []map[string]any
	switch x := v.(type) {
	case []map[string]any:
		maps = x
	case []any:
		for _, e := range x {
			if m, ok := e.(map[string]any); ok {
				maps = append(maps, m)
			}
		}
		if len(maps) != len(x) {
			t.fault(key, "%s is a list of tables; write [[%s]] above the keys of each", key, name)
		}
	default:
		t.fault(key, "%s is a list of tables; write [[%s]] above the keys of each", key, name)
	}
	var out []*table
	for i, m := range maps {
		out = append(out, &table{r: t.r, name: name, index: i, value: m})
	}
	return out
}

func (t *table) path(key string) string {
	if t.name == "" {
		return key
	}
	return t.name + "." + key
}

// done reports the keys that nobody asked for, with the nearest that is known.
func (t *table) done() {
	for _, key := range slices.Sorted(maps.Keys(t.value)) {
		if !slices.Contains(t.asked, key) {
			t.fault(key, "%sunknown key %s%s", t.label(), words.Quoted(key), hint(key, t.asked))
		}
	}
}

// hint says what a word that is not known may have been meant for, or what is known.
func hint(word string, known []string) string {
	if near, ok := words.Nearest(word, known); ok {
		return "; did you mean " + words.Quoted(near) + "?"
	}
	return "; allowed: " + words.Joined(slices.Sorted(slices.Values(known)), "none")
}

// kind names a value's kind in a message.
func kind(v any) string {
	switch v.(type) {
	case string:
		return "text"
	case int64, float64:
		return "a number"
	case bool:
		return "true or false"
	case time.Time:
		return "a date"
	case []any, []map[string]any:
		return "a list"
	}
	return "a table"
}

// show writes a quantity for a message that compares two: with all the digits that
// can make them differ.
func show(q quantity.Quantity) string {
	s := q.In(quantity.US)
	return quantity.Shown{Words: strconv.FormatFloat(s.Value, 'g', 6, 64), Unit: s.Unit}.String()
}
