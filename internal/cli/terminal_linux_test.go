package cli

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// terminal is a pseudo-terminal on which the program runs, as it would under a person's hands.
type terminal struct {
	t    *testing.T
	ctrl *os.File
	cmd  *exec.Cmd
	seen bytes.Buffer
}

// ctrlC and ctrlD are what the keys send.
const ctrlC, ctrlD = "\x03", "\x04"

// openTerminal starts the program in a folder, on a terminal of so many columns.
func openTerminal(t *testing.T, folder string, columns uint16, args ...string) *terminal {
	ctrl, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skip("no pseudo-terminals here: ", err)
	}
	t.Cleanup(func() { ctrl.Close() })
	fd := int(ctrl.Fd())
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	require.NoError(t, err)
	require.NoError(t, unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0))
	require.NoError(t, unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: columns}))
	tty, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	defer tty.Close()
	cmd := exec.Command("brineyard", args...)
	cmd.Dir, cmd.Stdin, cmd.Stdout, cmd.Stderr = folder, tty, tty, tty
	cmd.Env = append(os.Environ(), scriptClock+"=2026-04-20 05:00")
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	return &terminal{t: t, ctrl: ctrl, cmd: cmd}
}

// answer waits for a question and types the answer, with the end of its line or a key.
func (m *terminal) answer(question, typed string) {
	m.t.Helper()
	next := make([]byte, 1)
	for seen := m.seen.Len(); !strings.Contains(m.seen.String()[seen:], question); {
		_, err := m.ctrl.Read(next)
		require.NoError(m.t, err, "waiting for %q, and it showed:\n%s", question, m.seen.String())
		m.seen.Write(next)
	}
	_, err := m.ctrl.WriteString(typed)
	require.NoError(m.t, err)
}

// end waits until the program has ended, and returns its status and everything it showed.
func (m *terminal) end() (status int, shown string) {
	_, _ = io.Copy(&m.seen, m.ctrl) // which ends with an error once nobody writes
	_ = m.cmd.Wait()
	return m.cmd.ProcessState.ExitCode(), strings.ReplaceAll(m.seen.String(), "\r\n", "\n")
}

// yardFolder has a yard file in it.
func yardFolder(t *testing.T) string {
	text, err := os.ReadFile(demoYard)
	require.NoError(t, err)
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "yard.toml"), text, 0o644))
	return folder
}

// What is missing is asked for, a question a line; the line that would have asked the same comes
// last, and answers the same.
func TestAsking(t *testing.T) {
	for _, c := range []struct {
		line    string
		answers [][2]string // a question, and what is typed
		asked   string
	}{
		{"check", [][2]string{{"Which tank?", "\n"}, {"What does the glass show?", "25.6%\n"}, {"How warm", "44\n"}}, "check --tank mixer --hydrometer 25.6% --temp 44"},
		{"check mixer", [][2]string{{"What does the glass show?", "25.6\n"}, {"How warm", "44F\n"}}, "check --tank mixer --hydrometer 25.6 --temp 44F"},
		{"check mixer 25.6", [][2]string{{"How warm is the sample? e.g. 41F: ", "44F\n"}}, "check --tank mixer --hydrometer 25.6 --temp 44F"},
		{"check mixer 25.6 --units metric", [][2]string{{"How warm is the sample? e.g. 5C: ", "7\n"}}, "check --tank mixer --hydrometer 25.6 --temp 7 --units metric"},
		{"reading", [][2]string{{"What does the glass show?", "1.185\n"}, {"which instrument was read?", "1.185 sg\n"}, {"How warm", "60F\n"}}, "reading --sg 1.185 --temp 60F"},
		{"reading --hydrometer 23%", [][2]string{{"How warm", "warm\n"}, {"not a temperature", ""}, {"How warm", "60F\n"}}, "reading --temp 60F --hydrometer 23%"},
		{"level", [][2]string{{"Which tank?", "nroth\n"}, {"did you mean north?", ""}, {"Which tank?", "north\n"}, {"How deep", "42in\n"}}, "level --tank north --depth 42in"},
		{"batch", [][2]string{{"Which tank? mixer, tote, north, south [mixer]: ", "\n"}}, "batch --tank mixer"},
		{"store", [][2]string{{"What is mixed?", "north 800gal@25%\n"}}, "store north 800gal@25%"},
		{"blend", [][2]string{{"Which parts?", "80:brine@23.3% 20:cacl2@32%\n"}}, "blend 80:brine@23.3% 20:cacl2@32%"},
		{"ready", [][2]string{{"Which readings", "10:05=12% 10:20=18.5%\n"}, {"How warm", "45F\n"}}, "ready 10:05=12% 10:20=18.5% --temp 45F"},
		{"truck", [][2]string{{"Which truck?", "\n"}}, "truck --truck big-sprayer"},
		{"lineup", [][2]string{{"From where?", "mixer\n"}, {"To where?", "north\n"}}, "lineup --from mixer --to north"},
		{"glass", [][2]string{{"in fresh water?", "0.2%\n"}, {"How warm", "60F\n"}}, "glass --water 0.2% --temp 60F"},
		{"", [][2]string{{"A number or a name", "9\n"}, {"From where?", "mixer\n"}, {"To where?", "north\n"}}, "lineup --from mixer --to north"},
		{"", [][2]string{{"A number or a name", "swim\n"}, {`"swim": no such question`, ""}, {"A number or a name", "LEVEL\n"}, {"Which tank?", "north\n"}, {"How deep", "42in\n"}}, "level --tank north --depth 42in"},
	} {
		t.Run("brineyard "+c.line, func(t *testing.T) {
			folder := yardFolder(t)
			m := openTerminal(t, folder, 80, strings.Fields(c.line)...)
			for _, a := range c.answers {
				m.answer(a[0], a[1])
			}
			status, shown := m.end()
			require.Zero(t, status, shown)
			require.True(t, strings.HasSuffix(shown, "\nAsked: brineyard "+c.asked+"\n"), shown)
			cmd := exec.Command("brineyard", strings.Fields(c.asked)...)
			cmd.Dir, cmd.Env = folder, append(os.Environ(), scriptClock+"=2026-04-20 05:00")
			piped, err := cmd.Output()
			require.NoError(t, err)
			require.Contains(t, shown, string(piped))
		})
	}
}

// A narrow window and a wide one show the same words, which the terminal wraps as it likes.
func TestAskingInAnyWindow(t *testing.T) {
	folder := yardFolder(t)
	var screens []string
	for _, columns := range []uint16{30, 80, 200} {
		m := openTerminal(t, folder, columns, "check", "mixer", "25.6")
		m.answer("How warm is the sample? e.g. 41F: ", "44F\n")
		status, shown := m.end()
		require.Zero(t, status)
		screens = append(screens, shown)
	}
	require.Equal(t, screens[1], screens[0])
	require.Equal(t, screens[1], screens[2])
}

// A window too narrow for a chart shows its table alone.
func TestChartsInAnyWindow(t *testing.T) {
	for columns, drawn := range map[uint16]bool{40: false, 59: false, 60: true, 120: true} {
		status, shown := openTerminal(t, t.TempDir(), columns, "freeze", "--nacl", "23.3%", "--curve").end()
		require.Zero(t, status)
		require.Contains(t, shown, "Freezing diagram, at this ratio of salts")
		require.Equal(t, drawn, strings.Contains(shown, "ice forms   s salt falls out"), "%d columns", columns)
	}
}

// Nothing is recorded by a question that nobody finished.
func TestAskingEnds(t *testing.T) {
	for _, c := range []struct {
		name    string
		answers []string // to the question of the tank's volume, and those after
		status  int
		says    string
	}{
		{"ctrl-C", []string{ctrlC}, -1, "How warm"},
		{"ctrl-D", []string{ctrlD}, 2, "brineyard check: --temp is missing"},
		{"three wrong answers", []string{"warm\n", "\n", "cold\n"}, 2, "brineyard check: --temp is missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder := yardFolder(t)
			m := openTerminal(t, folder, 80, "check", "mixer", "23.5", "--record")
			for _, typed := range c.answers {
				m.answer("How warm is the sample? e.g. 41F: ", typed)
			}
			status, shown := m.end()
			require.Equal(t, c.status, status, shown)
			require.Contains(t, shown, c.says)
			files, err := os.ReadDir(folder)
			require.NoError(t, err)
			require.Len(t, files, 1)
		})
	}
}

// Without a person at both ends nothing is asked.
func TestAskingNobody(t *testing.T) {
	cmd := exec.Command("brineyard", "check", "mixer", "23.5")
	cmd.Dir, cmd.Stdin = yardFolder(t), strings.NewReader("38\n")
	out, err := cmd.CombinedOutput()
	require.Error(t, err)
	require.Equal(t, "brineyard check: --temp is missing: --hydrometer \"23.5\" means nothing without the sample's temperature; allowed: like --temp 41F\n", string(out))
	cmd = exec.Command("brineyard")
	cmd.Stdin = strings.NewReader("1\n")
	out, err = cmd.CombinedOutput()
	require.NoError(t, err)
	require.Contains(t, string(out), "At the tank:")
}
