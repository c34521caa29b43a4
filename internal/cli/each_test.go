package cli

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"brineyard/internal/cli/run"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"
)

// eachOf runs each over a table.
func eachOf(t testing.TB, table string, args ...string) (status int, rows [][]string, errs string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	env := run.System()
	env.In, env.Out, env.Err = strings.NewReader(table), &stdout, &stderr
	env.Getenv = func(string) string { return "" }
	status = Run(env, append([]string{"each"}, args...))
	rows, err := csv.NewReader(&stdout).ReadAll()
	require.NoError(t, err)
	return status, rows, stderr.String()
}

// rowLines are a line of each command that rows can be put to.
var rowLines = []string{
	"reading --hydrometer 23.3% --temp 40F",
	"reading --weigh 9.82lb/gal --temp 15C --units metric",
	"check --tank mixer --hydrometer 23.3% --temp 40F --yard YARD",
	"correct --tank mixer --strength 26% --yard YARD --units metric",
	"batch --volume 1200gal --purity 95% --moisture 2% --supply 30gal/min",
	"freeze --nacl 18% --cacl2 7% --at 0F --volume 4000gal",
	"truck --truck big-sprayer --rate 42gal/mi --speed 25mph --yard YARD",
	"blend 80:brine@23.3% 20:cacl2@32% --keep-clear 0F --volume 1000gal",
	"store 6000gal@22.4% --to 23.3% --with 25.5% --capacity 8000gal",
	"ready 10:05=12% 10:20=18.5% 10:30=20.9% --temp 45F",
	"lineup --from north --to truck-fill --yard YARD",
}

// rowOf takes a line apart: the columns of its row, the cells in them, and what all rows have
// in common.
func rowOf(line string) (command string, head, cells, rest []string) {
	words := demoFields(line)
	var args []string
	for i := 1; i < len(words); i++ {
		switch name, flag := strings.CutPrefix(words[i], "--"); {
		case flag && (name == "yard" || name == "units"):
			rest = append(rest, words[i], words[i+1])
			i++
		case flag:
			head, cells = append(head, name), append(cells, words[i+1])
			i++
		default:
			args = append(args, words[i])
		}
	}
	if len(args) > 0 {
		head, cells = append(head, argsColumn), append(cells, strings.Join(args, " "))
	}
	return words[0], head, cells, rest
}

// Each row says what the command says: every figure, for every command.
func TestEachAgreesWithCommands(t *testing.T) {
	for _, line := range rowLines {
		command, head, cells, rest := rowOf(line)
		status, rows, errs := eachOf(t, strings.Join(head, ",")+"\n"+strings.Join(cells, ",")+"\n", append([]string{command}, rest...)...)
		require.Zero(t, status, "%s: %s", line, errs)
		requireFigures(t, line, rows, len(head))
	}
}

// A row that names no stock is corrected with water or salt, though a row before had stock.
func TestEachForgetsStock(t *testing.T) {
	for _, table := range []string{
		"check:temp,hydrometer,volume,stock\n40F,18%,300gal,25%\n40F,18%,300gal,\n",
		"correct:strength,volume,stock\n18%,300gal,25%\n18%,300gal,\n",
	} {
		command, text, _ := strings.Cut(table, ":")
		status, rows, errs := eachOf(t, text, "--jobs", "1", command)
		require.Zero(t, status, errs)
		salt := slices.Index(rows[0], "salt_to_add [lb]")
		require.Equal(t, "0", rows[1][salt])
		require.NotEqual(t, "0", rows[2][salt])
	}
}

// requireFigures compares a row's figures with the command's own.
func requireFigures(t *testing.T, line string, rows [][]string, from int) {
	t.Helper()
	var d struct {
		Figures map[string]struct {
			Value any
			Unit  string
		}
	}
	require.NoError(t, json.Unmarshal([]byte(answer(t, append(demoFields(line), "--format", "json")...)), &d))
	found := 0
	for i, heading := range rows[0][from : len(rows[0])-1] {
		key, unit := splitHeading(heading)
		want, ok := d.Figures[key]
		require.True(t, ok, "%s: %s", line, key)
		cell := rows[1][from+i]
		found++
		switch v := want.Value.(type) {
		case float64:
			got, err := strconv.ParseFloat(cell, 64)
			require.NoError(t, err, "%s: %s", line, key)
			require.Equal(t, v, got, "%s: %s", line, key)
			require.Equal(t, want.Unit, unit, "%s: %s", line, key)
		case string:
			require.Equal(t, v, cell, "%s: %s", line, key)
		default:
			require.Empty(t, cell, "%s: %s", line, key)
		}
	}
	require.Equal(t, len(d.Figures), found, line)
}

// Rows keep their order and leave nothing of one in the next, however many are worked on
// at once.
func TestEachKeepsOrder(t *testing.T) {
	var table strings.Builder
	table.WriteString("n,hydrometer,sg,temp,cal\n")
	for i := range 5000 {
		switch i % 4 {
		case 0:
			fmt.Fprintf(&table, "%d,%.3f%%,,40F,\n", i, 18+float64(i)/1000)
		case 1:
			fmt.Fprintf(&table, "%d,,%.4f,50F,68F\n", i, 1.1+float64(i)/1e5)
		case 2:
			fmt.Fprintf(&table, "%d,,,50F,\n", i) // no reading
		default:
			fmt.Fprintf(&table, "%d,21%%,1.15,50F,\n", i) // two readings
		}
	}
	status, rows, errs := eachOf(t, table.String(), "reading", "--jobs", "7")
	require.Equal(t, statusInput, status)
	require.Contains(t, errs, "2500 of 5000 rows")
	require.Len(t, rows, 5001)
	_, alone, _ := eachOf(t, table.String(), "reading", "--jobs", "1")
	require.Equal(t, alone, rows)
	for i, row := range rows[1:] {
		require.Equal(t, strconv.Itoa(i), row[0])
		failure := row[len(row)-1]
		switch i % 4 {
		case 2:
			require.Contains(t, failure, "no reading")
		case 3:
			require.Contains(t, failure, "two readings")
		default:
			require.Empty(t, failure)
			require.NotEmpty(t, row[6])
		}
	}
}

// logTable is one as logs have them: readings to a tenth, whole degrees.
func logTable(n int) string {
	var table strings.Builder
	table.WriteString("id,hydrometer,temp\n")
	for i := range n {
		fmt.Fprintf(&table, "%d,%.1f%%,%dF\n", i, 18+float64(i%70)/10, 25+i%61)
	}
	return table.String()
}

// BenchmarkEachReading asks for the readings of a log, and beside it only reads and writes the same table with encoding/csv.
func BenchmarkEachReading(b *testing.B) {
	const n = 300000
	table := logTable(n)
	var asked, copied time.Duration
	for b.Loop() {
		start := time.Now()
		env := run.System()
		env.In, env.Out, env.Err = strings.NewReader(table), io.Discard, io.Discard
		require.Zero(b, Run(env, []string{"each", "reading"}))
		asked += time.Since(start)
		copied += copyTime(b, table)
	}
	b.ReportMetric(float64(n)*float64(b.N)/asked.Seconds(), "rows/s")
	b.ReportMetric(float64(asked)/float64(copied), "x-copy")
}

// copyTime is what a program takes that only reads and writes the same CSV.
func copyTime(b *testing.B, table string) time.Duration {
	start := time.Now()
	r, w := csv.NewReader(strings.NewReader(table)), csv.NewWriter(io.Discard)
	for {
		row, err := r.Read()
		if err != nil {
			break
		}
		require.NoError(b, w.Write(row))
	}
	w.Flush()
	return time.Since(start)
}

// repeated is a table of so many rows, made of one piece over and over.
func repeated(rows int) io.Reader {
	const piece = 10000
	head, body, _ := strings.Cut(logTable(piece), "\n")
	readers := []io.Reader{strings.NewReader(head + "\n")}
	for range rows / piece {
		readers = append(readers, strings.NewReader(body))
	}
	return io.MultiReader(readers...)
}

// peak is a writer that notes how large the heap has been.
type peak struct {
	bytes uint64
	calls int
}

func (p *peak) Write(b []byte) (int, error) {
	if p.calls++; p.calls%64 == 0 {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		p.bytes = max(p.bytes, m.HeapAlloc)
	}
	return len(b), nil
}

// eachPeak is by how much the heap grows at most while rows go through each.
func eachPeak(t testing.TB, rows int) uint64 {
	runtime.GC()
	var before runtime.MemStats
	runtime.ReadMemStats(&before)
	p := &peak{}
	env := run.System()
	env.In, env.Out, env.Err = repeated(rows), p, io.Discard
	require.Zero(t, Run(env, []string{"each", "reading"}))
	require.Positive(t, p.bytes)
	return p.bytes - min(p.bytes, before.HeapAlloc)
}

// Memory does not grow with the rows: half a million take less than 40 MB.
func TestEachMemoryIsFlat(t *testing.T) {
	require.Less(t, eachPeak(t, 500_000), uint64(40e6))
}

// BenchmarkEachTenMillion reports the heap's peak over ten million rows.
func BenchmarkEachTenMillion(b *testing.B) {
	most := uint64(0)
	for b.Loop() {
		most = max(most, eachPeak(b, 10_000_000))
	}
	b.ReportMetric(float64(most)/1e6, "MB")
}

// BenchmarkEachDistinct has no two rows alike, so that each is worked out.
func BenchmarkEachDistinct(b *testing.B) {
	for _, command := range []struct{ name, table string }{
		{"reading", "hydrometer,temp\n"}, {"correct", "strength,temp,volume\n"}, {"freeze", "nacl,cacl2\n"},
	} {
		b.Run(command.name, func(b *testing.B) {
			const n = 20000
			var table strings.Builder
			table.WriteString(command.table)
			for i := range n {
				x := float64(i) / n
				switch command.name {
				case "reading":
					fmt.Fprintf(&table, "%.6f%%,%.4fF\n", 18+7*x, 30+60*x)
				case "correct":
					fmt.Fprintf(&table, "%.6f%%,60F,500gal\n", 18+7*x)
				default:
					fmt.Fprintf(&table, "%.6f%%,%.5f%%\n", 10+10*x, 5*x)
				}
			}
			var copied time.Duration
			for b.Loop() {
				env := run.System()
				env.In, env.Out, env.Err = strings.NewReader(table.String()), io.Discard, io.Discard
				require.Zero(b, Run(env, []string{"each", command.name}))
				b.StopTimer()
				copied += copyTime(b, table.String())
				b.StartTimer()
			}
			b.ReportMetric(float64(b.Elapsed())/float64(copied), "x-copy")
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
		})
	}
}

// Every flag of every question can be taken back.
func TestEveryFlagResets(t *testing.T) {
	env := run.System()
	s := &run.Session{Env: &env, Globals: &run.Globals{}}
	for _, command := range rowsIn(groups()) {
		a, name := newAsker(s, command), command.Name()
		a.flags.VisitAll(func(f *pflag.Flag) {
			before := f.Value.String()
			require.NotPanics(t, func() { reset(f) }, "%s --%s", name, f.Name)
			require.Equal(t, before, f.Value.String(), "%s --%s", name, f.Name)
		})
	}
}

// Headings of the input keep their names, and none comes twice; a folder is no CSV file;
// what was not asked for is empty.
func TestEachHeadings(t *testing.T) {
	status, rows, errs := eachOf(t, "error,volume [gal],hydrometer,temp\nx,500,25,50\n", "check")
	require.Zero(t, status, errs)
	require.Equal(t, []string{"error", "volume [gal]", "hydrometer", "temp"}, rows[0][:4])
	seen := map[string]bool{}
	for _, h := range rows[0] {
		require.False(t, seen[h], h)
		seen[h] = true
	}
	require.Equal(t, "answer error", rows[0][len(rows[0])-1])
	_, rows, _ = eachOf(t, "tank,liquid,rate,speed\n1750gal,brine@23.3%,40gal/mi,25mph\n", "truck")
	at := slices.Index(rows[0], "covers [acre]")
	require.Positive(t, at)
	require.Empty(t, rows[1][at])
	status, _, errs = eachOf(t, "", "reading", t.TempDir())
	require.Equal(t, 2, status)
	require.Contains(t, errs, "is a directory; allowed: a CSV file")
}
