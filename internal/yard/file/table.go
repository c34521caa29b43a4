package file

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
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
	system quantity.System // of bare numbers
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

// table is a table of the file while it is read.
type table struct {
	r     *reader
	name  string // dotted; empty for the file itself
	index int    // in a list of tables, from 0
	value map[string]any
	asked []string        // keys, so that done can tell which are unknown
	good  []string        // keys that are there and were read without a fault
	taken map[string]bool // names of its like
}

// fault adds a fault at a key, with the table's label before it.
func (t *table) fault(key, format string, args ...any) {
	t.r.fault(t.name, t.index, key, "%s"+format, append([]any{t.label()}, args...)...)
}

// refuse adds a fault if there is one.
func (t *table) refuse(when bool, key, format string, args ...any) {
	if when {
		t.fault(key, format, args...)
	}
}

// label names the table in a message: storage_tank "north".
func (t *table) label() string {
	if t.name == "" {
		return ""
	}
	if name, ok := t.value["name"].(string); ok {
		return t.name + " " + words.Quoted(name) + ": "
	}
	return t.name + ": "
}

// take returns the value of a key, and makes the key a known one.
func (t *table) take(key string) (any, bool) {
	t.asked = append(t.asked, key)
	v, ok := t.value[key]
	return v, ok
}

// has reports whether a key is there, be its value right or wrong.
func (t *table) has(key string) bool { return t.value[key] != nil }

// knows reports whether keys are there and were read without a fault.
func (t *table) knows(keys ...string) bool {
	for _, k := range keys {
		if !slices.Contains(t.good, k) {
			return false
		}
	}
	return true
}

// readName reads the name, which has to be there and be the only one of its like.
func (t *table) readName(name *string) {
	t.read(text("name", name))
	switch {
	case t.has("name") && !t.knows("name"):
		return // the fault is reported already
	case strings.TrimSpace(*name) == "":
		t.nameFault("name is missing")
	case t.taken[*name]:
		t.nameFault("the name %s is taken", words.Quoted(*name))
	}
	t.taken[*name] = true
}

// nameFault adds a fault of the name. It points to the table by its place instead.
func (t *table) nameFault(format string, args ...any) {
	t.r.fault(t.name, t.index, "name", t.name+": "+format, args...)
}

// both adds a fault unless two keys are both there, or neither.
func (t *table) both(key, other string) {
	t.refuse(t.knows(key) != t.knows(other), key, "%s and %s go together; allowed: both or neither", key, other)
}

// atMost adds a fault if a quantity is above another, and both are known.
func atMost[Q interface {
	~float64
	quantity.Quantity
}](t *table, key string, q Q, limit string, most Q) {
	t.refuse(t.knows(key, limit) && q > most, key, "%s %v is above %s %v", key, show(q), limit, show(most))
}

// sub reads a table of its own.
func (t *table) sub(key string) *table {
	v, ok := t.take(key)
	name := t.path(key)
	m, isTable := v.(map[string]any)
	t.refuse(ok && !isTable, key, "%s takes keys of its own; write [%s] above them", key, name)
	return &table{r: t.r, name: name, value: m}
}

// list reads a list of tables, whose names differ from each other and from those taken.
func (t *table) list(key string, taken map[string]bool) []*table {
	v, ok := t.take(key)
	name := t.path(key)
	maps, good := tablesOf(v)
	t.refuse(ok && !good, key, "%s is a list of tables; write [[%s]] above the keys of each", key, name)
	var out []*table
	for i, m := range maps {
		out = append(out, &table{r: t.r, name: name, index: i, value: m, taken: taken})
	}
	return out
}

// tablesOf returns the tables of a list, and whether there is nothing else in it.
func tablesOf(v any) (tables []map[string]any, good bool) {
	if all, ok := v.([]map[string]any); ok {
		return all, true
	}
	list, ok := v.([]any)
	for _, e := range list {
		if m, ok := e.(map[string]any); ok {
			tables = append(tables, m)
		}
	}
	return tables, ok && len(tables) == len(list)
}

// path is the dotted name of a key.
func (t *table) path(key string) string { return strings.TrimPrefix(t.name+"."+key, ".") }

// done reports the keys that nobody asked for, with the nearest that is known.
func (t *table) done() {
	for _, key := range slices.Sorted(maps.Keys(t.value)) {
		t.refuse(!slices.Contains(t.asked, key), key, "unknown key %s%s", words.Quoted(key), hint(key, t.asked))
	}
}

// hint names the known word that an unknown one is like, or else all that are known.
func hint(word string, known []string) string {
	if near, ok := words.Nearest(word, known); ok {
		return "; did you mean " + words.Quoted(near) + "?"
	}
	return "; allowed: " + words.Joined(slices.Compact(slices.Sorted(slices.Values(known))), "none")
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

// show writes a quantity for a message that compares two: with all the digits that can make
// them differ.
func show(q quantity.Quantity) string {
	s := q.In(quantity.US)
	return quantity.Shown{Words: strconv.FormatFloat(s.Value, 'g', 6, 64), Unit: s.Unit}.String()
}
