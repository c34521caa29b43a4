package cli

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/season"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// sweep is how many readings are judged by all that judge.
const sweep = 100_000

// One band and one decision of each reading: that of check, its gate and its verdict, and that of the season for a batch
// of which a glass showed so much.
func TestOneDecisionOfEachReading(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 15))
	var rows bytes.Buffer
	rows.WriteString("hydrometer,temp,volume\n")
	var entries []journal.Entry
	at := time.Date(2026, 1, 5, 5, 0, 0, 0, time.UTC)
	for i := range sweep {
		shown, fahrenheit := 21.5+4*random.Float64(), 35+40*random.Float64()
		fmt.Fprintf(&rows, "%.4f%%,%.2fF,500gal\n", shown, fahrenheit)
		shown, _ = strconv.ParseFloat(fmt.Sprintf("%.4f", shown), 64)
		fahrenheit, _ = strconv.ParseFloat(fmt.Sprintf("%.2f", fahrenheit), 64)
		entries = append(entries,
			journal.Entry{Number: 2*i + 1, Time: at.Add(time.Duration(i) * time.Minute), Kind: journal.Batch, Tank: "mixer", Volume: new(1000 * quantity.Gallon), NaCl: new(quantity.Strength(0.233))},
			journal.Entry{
				Number: 2*i + 2, Time: at.Add(time.Duration(i)*time.Minute + time.Second), Kind: journal.Reading, Tank: "mixer",
				Scale: "hydrometer", Reading: new(shown), Temp: new(quantity.Fahrenheit(fahrenheit)),
			})
	}
	path := filepath.Join(t.TempDir(), "rows.csv")
	require.NoError(t, os.WriteFile(path, rows.Bytes(), 0o600))
	records, err := csv.NewReader(strings.NewReader(answer(t, "each", "check", path))).ReadAll()
	require.NoError(t, err)
	column := slices.Index(records[0], "decision")
	report := season.SumUp(season.Request{Yard: &yard.Yard{}}, func(yield func(*journal.Entry) bool) {
		for i := range entries {
			if !yield(&entries[i]) {
				return
			}
		}
	})
	require.Len(t, report.Batches, sweep)
	count := map[string]int{}
	for i, b := range report.Batches {
		decision := records[1+i][column]
		require.Equal(t, report.Band.JudgeRange(b.Strength, b.Low, b.High).String(), decision, "%v", records[1+i])
		count[decision]++
		if i%500 == 0 {
			requireGate(t, records[1+i], decision)
		}
	}
	require.Equal(t, season.BandCount{In: count["pump"], Edge: count["on the edge"], Weak: count["too weak"], Strong: count["too strong"]}, report.Judged)
	require.Greater(t, count["on the edge"], sweep/20)
}

// requireGate asks check alone: its gate and its first word go with the decision.
func requireGate(t *testing.T, row []string, decision string) {
	t.Helper()
	line := []string{"check", "--volume", "500gal", "--hydrometer", row[0], "--temp", row[1]}
	status, out, errs := invoke(t, append(line, "--gate")...)
	want := 3
	if decision == "pump" {
		want = 0
	}
	require.Equal(t, want, status, errs)
	word, _, _ := strings.Cut(map[string]string{"pump": "Pump:", "on the edge": "On the edge:", "too weak": "Do not pump:", "too strong": "Do not pump:"}[decision], ":")
	require.True(t, strings.HasPrefix(out, word+":"), "%s: %s", decision, out)
	if decision == "too weak" || decision == "too strong" {
		require.Contains(t, oneLine(out), decision)
	}
}
