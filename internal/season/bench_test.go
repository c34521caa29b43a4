package season

import (
	"fmt"
	"path/filepath"
	"testing"

	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/state/statetest"
)

// BenchmarkReport reads a journal and sums it up, as journal season does, in three sizes:
// the time a row stays the same.
func BenchmarkReport(b *testing.B) {
	for _, storms := range []int{110, 1100, 11000} {
		path := filepath.Join(b.TempDir(), "journal.csv")
		entries := newDemoSeason(1, storms)
		if _, err := disk.Append(path, disk.Options{}, entries); err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprint(len(entries)), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				j, err := disk.Read(path)
				if err != nil {
					b.Fatal(err)
				}
				SumUp(Request{Yard: statetest.Yard()}, journal.Effective(j.Entries))
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(entries)), "ns/row")
		})
	}
}
