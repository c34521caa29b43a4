package report

import (
	"fmt"
	"io"
	"testing"
	"time"
)

// longTable has n rows of words and a number.
func longTable(n int) *Document {
	t := Table{Key: "entries", Title: "Entries", Columns: []Column{{"entry", "No."}, {"kind", "Kind"}, {"what", "What"}}}
	for i := range n {
		t.Rows = append(t.Rows, []Value{Number(float64(i), "", fmt.Sprint(i)), Word("load"), Word("487 gal, from north, on big-sprayer, for ridge-road, by Ash, and a note that is folded")})
	}
	return &Document{Verdict: "Long.", Tables: []Table{t}}
}

// BenchmarkTextGrows tells how much longer eight times as many rows take: eight times, where the
// time is proportional.
func BenchmarkTextGrows(b *testing.B) {
	spent := func(d *Document) time.Duration {
		began := time.Now()
		if err := Text(io.Discard, d); err != nil {
			b.Fatal(err)
		}
		return time.Since(began)
	}
	short, long := longTable(1000), longTable(8000)
	var few, many time.Duration
	for b.Loop() {
		few += spent(short)
		many += spent(long)
	}
	b.ReportMetric(float64(many)/float64(few), "x-for-8-times-the-rows")
}
