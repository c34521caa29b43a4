package disk

import (
	"fmt"
	"testing"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// season is n rows as a yard makes them.
func season(n int) []journal.Entry {
	start := at("2025-11-01T04:00:00-05:00")
	entries := make([]journal.Entry, n)
	for i := range entries {
		e := []journal.Entry{batch(), load(), load(), note("pump checked")}[i%4]
		e.Time = start.Add(time.Duration(i) * 7 * time.Minute)
		e.Volume = to(quantity.Volume(400+i%700) * quantity.Gallon)
		entries[i] = e
	}
	return entries
}

func BenchmarkRead(b *testing.B) {
	for _, n := range []int{1000, 10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			path := made(b, season(n)...)
			b.ReportAllocs()
			for b.Loop() {
				if len(mustRead(b, path).Entries) != n {
					b.Fatal("rows are missing")
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/row")
		})
	}
}

func BenchmarkAppend(b *testing.B) {
	for _, n := range []int{1000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			path := made(b, season(n)...)
			for b.Loop() {
				mustAppend(b, path, load())
			}
		})
	}
}
