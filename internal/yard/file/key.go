package file

import (
	"strconv"
	"strings"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// key is a row of the table of keys by which a table of the file is read: a new key of the
// yard file is one row more, and a line in example.toml.
type key struct {
	name string
	// read puts the value where it belongs. It reports a value that cannot be, and returns
	// false then.
	read     func(t *table, value any) bool
	must     bool        // the table makes no sense without it
	isZero   func() bool // whether nothing was read
	positive bool        // nothing is refused
}

// needed makes it a fault to leave the key out.
func (k key) needed() key {
	k.must = true
	return k
}

// aboveZero makes 0 a fault.
func (k key) aboveZero() key {
	k.positive = true
	return k
}

// read reads keys in their order, which is that of the faults of one place.
func (t *table) read(keys ...key) {
	for _, k := range keys {
		value, there := t.take(k.name)
		if !there {
			t.refuse(k.must, k.name, "%s is missing", k.name)
			continue
		}
		if k.read(t, value) {
			t.good = append(t.good, k.name)
			t.refuse(k.positive && k.isZero(), k.name, "%s is nothing; allowed: above 0", k.name)
		}
	}
}

// parser reads a quantity from text.
type parser[Q any] func(string) (Q, bool, error)

// number is a quantity: text like "1200gal", or a bare number. It stays 0 where the file does
// not say.
func number[Q ~float64](name string, parse parser[Q], to *Q) key {
	return key{
		name: name,
		read: func(t *table, value any) bool {
			q, ok := parsed(t, name, value, parse)
			if ok {
				*to = q
			}
			return ok
		},
		isZero: func() bool { return *to == 0 },
	}
}

// optional is a quantity of which 0 is a value like others: it stays nil where the file does
// not say.
func optional[Q any](name string, parse parser[Q], to **Q) key {
	return key{name: name, read: func(t *table, value any) bool {
		q, ok := parsed(t, name, value, parse)
		if ok {
			*to = &q
		}
		return ok
	}}
}

// parsed reads a quantity.
func parsed[Q any](t *table, name string, value any, parse parser[Q]) (Q, bool) {
	var q Q
	text, ok := scalar(value)
	if !ok {
		t.fault(name, "%s takes a quantity in quotes, not %s", name, kind(value))
		return q, false
	}
	q, _, err := quantity.Meant(parse, t.r.system, text)
	t.refuse(err != nil, name, "%s = %s: %v", name, words.Quoted(text), err)
	return q, err == nil
}

// as makes a parser's quantity one of another type.
func as[To, From ~float64](parse parser[From]) parser[To] {
	return func(text string) (To, bool, error) {
		q, bare, err := parse(text)
		return To(q), bare, err
	}
}

// units reads the name of a system of units.
func units(text string) (quantity.System, bool, error) {
	sys, err := quantity.ParseSystem(text)
	return sys, false, err
}

// text is a string.
func text(name string, to *string) key {
	return key{name: name, read: func(t *table, value any) (ok bool) {
		*to, ok = value.(string)
		t.refuse(!ok, name, "%s takes text in quotes, not %s", name, kind(value))
		return ok
	}}
}

// day is a calendar day, in quotes or as TOML writes one.
func day(name string, to *time.Time) key {
	return key{name: name, read: func(t *table, value any) bool {
		switch v := value.(type) {
		case time.Time:
			*to = time.Date(v.Year(), v.Month(), v.Day(), 0, 0, 0, 0, time.UTC)
			return true
		case string:
			at, err := time.Parse(time.DateOnly, v)
			t.refuse(err != nil, name, "%s = %s: not a day; allowed: like \"2026-10-01\"", name, words.Quoted(v))
			*to = at
			return err == nil
		}
		t.refuse(true, name, "%s takes a day in quotes, not %s; allowed: like \"2026-10-01\"", name, kind(value))
		return false
	}}
}

// count is a whole number above zero.
func count(name string, to *int) key {
	return key{name: name, read: func(t *table, value any) bool {
		n, ok := value.(int64)
		if ok = ok && n >= 1 && n <= 1000; ok {
			*to = int(n)
		}
		t.refuse(!ok, name, "%s takes a whole number; allowed: 1 to 1000", name)
		return ok
	}}
}

// flag is true or false.
func flag(name string, to *bool) key {
	return key{name: name, read: func(t *table, value any) (ok bool) {
		*to, ok = value.(bool)
		t.refuse(!ok, name, "%s takes true or false, not %s", name, kind(value))
		return ok
	}}
}

// names is a list of strings.
func names(name string, to *[]string) key {
	return key{name: name, read: func(t *table, value any) bool {
		list, ok := value.([]any)
		var all []string
		for _, e := range list {
			if s, isText := e.(string); isText && strings.TrimSpace(s) != "" {
				all = append(all, s)
			}
		}
		if !ok || len(all) != len(list) {
			t.fault(name, "%s takes a list of names in quotes", name)
			return false
		}
		*to = all
		return true
	}}
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

// column is one of the two of a list of pairs.
type column[Q any] struct {
	word  string // that names its values
	parse parser[Q]
}

// pairs reads a list of pairs, like [["22:00", "24F"], ["2:00", "19F"]], and hands on those
// that are good.
func pairs[A, B any](t *table, name string, list []any, first column[A], second column[B], take func(row int, a A, b B)) {
	for i, e := range list {
		pair, _ := e.([]any)
		if len(pair) != 2 {
			t.fault(name, "row %d of %s is no pair of %s and %s", i+1, name, first.word, second.word)
			continue
		}
		a, ok := cell(t, name, i+1, pair[0], first)
		if !ok {
			continue
		}
		if b, ok := cell(t, name, i+1, pair[1], second); ok {
			take(i+1, a, b)
		}
	}
}

// cell reads one value of a pair.
func cell[Q any](t *table, name string, row int, value any, c column[Q]) (Q, bool) {
	text, _ := scalar(value)
	q, _, err := quantity.Meant(c.parse, t.r.system, text)
	if err != nil {
		t.fault(name, "row %d of %s: %s %s: %v", row, name, c.word, words.Quoted(text), err)
	}
	return q, err == nil
}
