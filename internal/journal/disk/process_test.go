package disk

import (
	"brineyard/internal/journal"
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// childVariable makes the test binary a process that does one of the jobs on the
// journal at its first argument.
const childVariable = "BRINEYARD_JOURNAL_CHILD"

func TestMain(m *testing.M) {
	job := os.Getenv(childVariable)
	if job == "" {
		os.Exit(m.Run())
	}
	jobs := map[string]func(path, arg string) error{"add": addRows, "add-aloud": addAloud, "batches": addBatches, "fives": fives, "import": importRows, "limit": addAtLimit}
	if err := jobs[job](os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// child is a process that does a job.
func child(t *testing.T, job, path, arg string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], path, arg)
	cmd.Env = append(os.Environ(), childVariable+"="+job)
	cmd.Stderr = os.Stderr
	return cmd
}

// endurance tells whether the long runs are asked for.
func endurance() bool { return os.Getenv("BRINEYARD_ENDURANCE") != "" }

// addRows adds so many rows, one by one.
func addRows(path, count string) error {
	n, err := strconv.Atoi(count)
	for i := 0; i < n && err == nil; i++ {
		_, err = Append(path, Options{}, []journal.Entry{note(fmt.Sprint(os.Getpid(), " ", i))})
	}
	return err
}

// Processes that add at the same time lose no row, tear none and give no number
// twice.
func TestManyProcesses(t *testing.T) {
	const processes = 8
	rows, runs := 60, 2
	if endurance() {
		rows, runs = 1000, 20
	}
	for range runs {
		path := fresh(t)
		var all []*exec.Cmd
		for range processes {
			cmd := child(t, "add", path, strconv.Itoa(rows))
			require.NoError(t, cmd.Start())
			all = append(all, cmd)
		}
		for _, cmd := range all {
			require.NoError(t, cmd.Wait())
		}
		a := requireSound(t, path, processes*rows)
		next := map[string]int{} // each process's rows are there, in its order
		for _, e := range a.Entries {
			pid, i, _ := strings.Cut(e.Note, " ")
			require.Equal(t, strconv.Itoa(next[pid]), i)
			next[pid]++
		}
		require.Len(t, next, processes)
		require.NoFileExists(t, path+tornSuffix)
	}
}

// addBatches adds rows until it is killed, some alone and some many and long, since a
// kill tears only a long write. It prints the numbers that were acknowledged.
func addBatches(path, seed string) error {
	n, err := strconv.ParseUint(seed, 10, 64)
	r := rand.New(rand.NewPCG(n, 1))
	for err == nil {
		entries := []journal.Entry{note(filler(1))}
		if r.IntN(3) == 0 {
			entries = nil
			for i := range 1 + r.IntN(40) {
				entries = append(entries, note(filler(i*800)))
			}
		}
		var a Added
		if a, err = Append(path, Options{}, entries); err == nil {
			fmt.Println(strings.Trim(fmt.Sprint(a.Numbers), "[]"))
		}
	}
	return err
}

func filler(n int) string { return strings.Repeat("x", n) }

// acknowledged are the numbers on the whole lines of r; it waits for so many lines
// and then calls kill.
func acknowledged(t *testing.T, r io.Reader, lines int, kill func()) (numbers []int) {
	in := bufio.NewReader(r)
	for i := 0; ; i++ {
		if i == lines {
			kill()
		}
		line, err := in.ReadString('\n')
		if err != nil {
			return numbers
		}
		for _, word := range strings.Fields(line) {
			n, err := strconv.Atoi(word)
			require.NoError(t, err)
			numbers = append(numbers, n)
		}
	}
}

// addUntilKilled runs a process that is killed at a random moment, and returns what
// was acknowledged.
func addUntilKilled(t *testing.T, path string, kill int, r *rand.Rand) []int {
	cmd := child(t, "batches", path, strconv.Itoa(kill))
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	spin := r.IntN(300_000)
	numbers := acknowledged(t, out, 1+r.IntN(12), func() {
		for range spin { // so that the kill lands anywhere in an addition
		}
		require.NoError(t, cmd.Process.Kill())
	})
	require.Error(t, cmd.Wait())
	return numbers
}

// Processes are killed in the midst of adding, again and again on the same journal.
// Every row that was acknowledged is there; what else is there is whole as well, at
// most one addition a kill, or torn and told.
func TestKills(t *testing.T) {
	kills := 15
	if endurance() {
		kills = 200
	}
	const seed = 11
	r := rand.New(rand.NewPCG(seed, 2))
	path, torn, extra := fresh(t), 0, 0
	there := map[int]bool{}
	for kill := range kills {
		for _, n := range addUntilKilled(t, path, kill, r) {
			require.False(t, there[n], "%d was given twice", n)
			there[n] = true
		}
		a := mustVerify(t, path)
		require.Empty(t, a.Faults)
		require.Empty(t, a.Missing)
		for n := range there {
			require.LessOrEqual(t, n, len(a.Entries), "acknowledged, and not there")
		}
		if a.Torn > 0 {
			torn++
		}
		unheard := len(a.Entries) - len(there)
		require.LessOrEqual(t, unheard, 40)
		if unheard > 0 {
			extra++
		}
		for i := range a.Entries { // of those that no one heard of, the next round knows
			there[i+1] = true
		}
	}
	a := mustAppend(t, path, note("the end"))
	audit := requireSound(t, path, a.Numbers[0])
	t.Logf("%d kills, %d rows; %d left a torn line, %d left whole rows not acknowledged", kills, len(audit.Entries), torn, extra)
}
