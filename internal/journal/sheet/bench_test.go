package sheet

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// logOf is a log of n rows as a yard keeps one.
func logOf(n int) string {
	var b strings.Builder
	b.WriteString("Date,Time,Made,Test,Temp,Tank,Who,Remarks\n")
	for i := range n {
		fmt.Fprintf(&b, "%d/%d/2026,%d:%02d PM,\"1,%03d\",23.%d,%d,mixer,operator %d,\"row %d, as made\"\n",
			1+i%12, 1+i%28, 1+i%12, i%60, i%1000, i%10, 30+i%30, i%20, i)
	}
	return b.String()
}

// The time a row takes is the same in a large sheet: x-growth is that of the large one over
// that of the small one.
func BenchmarkRead(b *testing.B) {
	const small, times = 5_000, 50
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(b, err)
	m := mapping(b, "time=Date+Time,volume=Made:gal,nacl=Test,temp=Temp:F,tank=Tank,operator=Who,note=Remarks,kind==batch")
	few, many := logOf(small), logOf(small*times)
	read := func(log string, n int) time.Duration {
		start := time.Now()
		rows, err := Read(strings.NewReader(log), m, Options{Zone: zone})
		require.NoError(b, err)
		require.Empty(b, rows.Faults)
		require.Len(b, rows.Entries, n)
		return time.Since(start)
	}
	var fewTook, manyTook time.Duration
	b.ReportAllocs()
	b.SetBytes(int64(len(few) + len(many)))
	for b.Loop() {
		fewTook += read(few, small)
		manyTook += read(many, small*times)
	}
	b.ReportMetric(float64(manyTook)/float64(fewTook)/times, "x-growth")
	b.ReportMetric(float64(manyTook.Nanoseconds())/float64(b.N)/(small*times), "ns/row")
}
