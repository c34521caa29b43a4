package journal

import (
	"brineyard/internal/quantity"
	"time"
)

func at(text string) time.Time {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		panic(err)
	}
	return t
}

func to[T any](x T) *T { return &x }

// batch is a row with something in most columns.
func batch() Entry {
	return Entry{
		Time: at("2026-01-15T06:40:00-05:00"), Kind: Batch, Tank: "mixer",
		Volume: to(1095 * quantity.Gallon), NaCl: to(quantity.Strength(0.233)), Temp: to(quantity.Fahrenheit(41)),
		Scale: "hydrometer", Reading: to(23.3), Operator: "ines", Note: "first of the day, all well",
	}
}

// note is a short row.
func note(text string) Entry {
	return Entry{Time: at("2026-01-15T08:00:00-05:00"), Kind: Note, Note: text}
}
