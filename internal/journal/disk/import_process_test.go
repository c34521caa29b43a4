package disk

import (
	"brineyard/internal/journal"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// importRows adds many rows at once, as an import does.
func importRows(path, count string) error {
	n, err := strconv.Atoi(count)
	if err != nil {
		return err
	}
	_, err = Append(path, Options{}, season(n))
	return err
}

// fives adds five rows at once, again and again, until it is killed, and prints what was acknowledged.
func fives(path, _ string) error {
	for {
		a, err := Append(path, Options{}, []journal.Entry{batch(), load(), load(), batch(), note(filler(9000))})
		if err != nil {
			return err
		}
		fmt.Println(strings.Trim(fmt.Sprint(a.Numbers), "[]"))
	}
}

// A whole import is there, or nothing of it, at whatever moment after the file begins to grow it is
// killed: no part is ever called sound.
func TestKilledImports(t *testing.T) {
	rows, kills := 4000, 4
	if endurance() {
		rows, kills = 120_000, 14
	}
	path := made(t, batch(), load())
	begins := info(t, path)
	for kill := range kills {
		cmd := child(t, "import", path, strconv.Itoa(rows))
		require.NoError(t, cmd.Start())
		for info(t, path) == begins && cmd.ProcessState == nil {
			time.Sleep(50 * time.Microsecond) // until the file begins to grow
		}
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		j := mustVerify(t, path)
		switch {
		case len(j.Entries) == 2:
			require.Equal(t, j.Torn == 0, j.Sound(), "kill %d", kill)
		default:
			require.Len(t, j.Entries, 2+rows, "kill %d left a part", kill)
			require.True(t, j.Sound())
			path = made(t, batch(), load())
		}
		if info(t, path) != begins {
			mustAppend(t, path, note("after"))
			requireSound(t, path, 3)
			_ = os.Remove(path + tornSuffix)
			path = made(t, batch(), load())
		}
	}
	require.NoError(t, child(t, "import", path, strconv.Itoa(rows)).Run())
	requireSound(t, path, 2+rows)
	requireNothingElse(t, path)
}

// requireNothingElse checks that kills left no other files beside a journal.
func requireNothingElse(t *testing.T, path string) {
	t.Helper()
	there, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	for _, f := range there {
		name := filepath.Join(filepath.Dir(path), f.Name())
		require.Contains(t, []string{path, path + endSuffix, path + tornSuffix}, name)
	}
}

func info(t *testing.T, path string) int64 {
	t.Helper()
	there, err := os.Stat(path)
	require.NoError(t, err)
	return there.Size()
}

// Additions of five rows are killed at any moment, on one journal: their rows come in fives, and all
// that were acknowledged are there.
func TestKilledAdditions(t *testing.T) {
	kills := 12
	if endurance() {
		kills = 200
	}
	path := made(t, note("first"))
	r := rand.New(rand.NewPCG(5, 2))
	for range kills {
		cmd := child(t, "fives", path, "0")
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		spin := r.IntN(2_000_000)
		heard := acknowledged(t, out, 1+r.IntN(4), func() {
			for range spin { // so that the kill lands anywhere in an addition
			}
			require.NoError(t, cmd.Process.Kill())
		})
		require.Error(t, cmd.Wait())
		j := mustVerify(t, path)
		require.Empty(t, j.Faults)
		require.Empty(t, j.Lost)
		require.Equal(t, 1, len(j.Entries)%5, "a part counts")
		require.Equal(t, j.Torn == 0, j.Sound())
		require.LessOrEqual(t, heard[len(heard)-1], len(j.Entries), "acknowledged, and not there")
	}
	requireNothingElse(t, path)
	n := len(mustRead(t, path).Entries)
	mustAppend(t, path, note("the end"))
	requireSound(t, path, n+1)
}

// Processes that add at once by two names of one file, while others remove the side file and are
// killed, lose no row that was acknowledged and give no number twice.
func TestManyUnderAttack(t *testing.T) {
	processes, rows := 6, 20
	if endurance() {
		processes, rows = 32, 200
	}
	path := made(t, note("first"))
	other := path + ".link.csv"
	if err := os.Link(path, other); err != nil {
		t.Skip(err)
	}
	type heard struct {
		numbers []int
		err     error
	}
	results := make(chan heard, processes)
	for i := range processes {
		name := []string{path, other}[i%2]
		cmd := child(t, "add-aloud", name, strconv.Itoa(rows))
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		go func() {
			lines := rows + 1 // never killed
			if i%4 == 3 {
				lines = rows / 2
			}
			numbers := acknowledged(t, out, lines, func() {
				_ = os.Remove(path + endSuffix)
				_ = os.Remove(path + ".lock")
				_ = cmd.Process.Kill()
			})
			err := cmd.Wait()
			if i%4 == 3 {
				err = nil
			}
			results <- heard{numbers, err}
		}()
	}
	there := map[int]bool{}
	for range processes {
		h := <-results
		require.NoError(t, h.err)
		for _, n := range h.numbers {
			require.False(t, there[n], "%d was given twice", n)
			there[n] = true
		}
	}
	j := mustVerify(t, path)
	require.Empty(t, j.Faults)
	require.Empty(t, j.Missing)
	for n := range there {
		require.LessOrEqual(t, n, len(j.Entries), "acknowledged, and not there")
	}
	require.GreaterOrEqual(t, len(there), rows*processes/2)
}

// addAloud adds so many rows, one by one, and prints the numbers that were acknowledged.
func addAloud(path, count string) error {
	n, err := strconv.Atoi(count)
	for i := 0; i < n && err == nil; i++ {
		var a Added
		if a, err = Append(path, Options{}, []journal.Entry{note(fmt.Sprint(os.Getpid(), " ", i))}); err == nil {
			fmt.Println(a.Numbers[0])
		}
	}
	return err
}
