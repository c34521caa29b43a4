package cli

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// requirePrintable checks that nothing in a text commands a terminal.
func requirePrintable(t *testing.T, text, about string) {
	t.Helper()
	for _, r := range text {
		require.True(t, r == '\n' || r >= ' ' && r != 0x7f && (r < 0x80 || r > 0x9f) && r != 0x202e && r != 0xfeff, "%s: %q in %.200q", about, r, text)
	}
}

// hostileFiles are no yard, storm, journal or table.
func hostileFiles(t *testing.T) map[string]string {
	t.Helper()
	dir := t.TempDir()
	files := map[string]string{}
	for name, text := range map[string]string{
		"long line":    strings.Repeat("x", 10<<20),
		"long string":  "name = \"" + strings.Repeat("x", 10<<20) + "\"",
		"NUL":          "name = \"a\x00b\"\n",
		"not UTF-8":    "name = \"\xff\xfe\"\n",
		"mark":         "\ufeffname = 3\r\n",
		"escape":       "\x1b[2J\x1b]0;x\x07 = 3\n",
		"bidi":         "name = \"\u202eabc\" = 1\n",
		"deep":         strings.Repeat("[", 20000),
		"zeros":        strings.Repeat("\x00", 4096),
		"empty":        "",
		"just a quote": "\"",
	} {
		path := filepath.Join(dir, strings.ReplaceAll(name, " ", "-"))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		files[name] = path
	}
	files["folder"] = dir
	return files
}

// Files that are anything at all are refused in lines that can be shown, and nothing comes
// out but that.
func TestHostileFiles(t *testing.T) {
	for name, path := range hostileFiles(t) {
		for _, args := range [][]string{
			{"yard", "check", path}, {"storm", path, "--yard", demoYard}, {"journal", "list", "--journal", path},
			{"journal", "season", "--journal", path}, {"journal", "import", path, "--map", "time=name,kind==note"}, {"each", "reading", path},
		} {
			status, out, errs := invoke(t, args...)
			about := strings.Join(args[:2], " ") + " of " + name
			requirePrintable(t, out, about)
			requirePrintable(t, errs, about)
			require.Less(t, len(errs), 20000, about)
			if name == "empty" && args[0] != "each" && args[1] != "import" && args[0] != "storm" {
				continue // an empty yard, and an empty journal, are what they are
			}
			require.NotZero(t, status, about)
			require.NotEmpty(t, errs, about)
		}
	}
}

// Names in files that command a terminal are shown with their commands struck out, in every
// format and every command that shows names.
func TestHostileNames(t *testing.T) {
	text, err := os.ReadFile(demoYard)
	require.NoError(t, err)
	const bad = `a\u001b[31m\u0007\u202e\u0085b`
	hostile := strings.NewReplacer(`"mixer"`, `"`+bad+`"`, `"north"`, `"n`+bad+`"`, `"ridge-road"`, `"r`+bad+`"`, `"cold-mix"`, `"c`+bad+`"`,
		`"big-sprayer"`, `"t`+bad+`"`, `"Thistlewick village yard"`, `"y`+bad+`"`, `"cal31"`, `"l`+bad+`"`).Replace(string(text))
	yard := filepath.Join(t.TempDir(), "yard.toml")
	require.NoError(t, os.WriteFile(yard, []byte(hostile), 0o600))
	for _, args := range [][]string{
		{"yard", "show"}, {"yard", "check"}, {"storm", "--low", "19F"}, {"card"}, {"lineup", "--rinse"}, {"drill", "--print", "9"}, {"check", "--tank", "nosuch", "--sg", "1.17", "--temp", "40F"},
		{"truck", "--truck", "nosuch"}, {"blend", "1:nosuch"},
	} {
		for _, format := range []string{"text", "markdown", "csv", "json"} {
			_, out, errs := invoke(t, append(args, "--yard", yard, "--format", format)...)
			requirePrintable(t, out, strings.Join(args, " ")+" "+format)
			requirePrintable(t, errs, strings.Join(args, " "))
		}
	}
	_, out, _ := invoke(t, "card", "--yard", yard, "--format", "html")
	requirePrintable(t, strings.ReplaceAll(out, "\t", " "), "html") // of the picture within
}

// The program as a process: a reader that goes away, homes, and interruptions.
func TestProcess(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("pipes, homes and signals of Unix")
	}
	path := filepath.Join(t.TempDir(), "brineyard")
	out, err := exec.Command("go", "build", "-o", path, "brineyard/cmd/brineyard").CombinedOutput()
	require.NoError(t, err, "%s", out)
	t.Run("reader gone", func(t *testing.T) { requireQuietEnd(t, path) })
	t.Run("homes", func(t *testing.T) { requireAnyHome(t, path) })
	t.Run("interrupted", func(t *testing.T) { requireWholeFiles(t, path) })
}

// requireQuietEnd checks that a reader that goes away ends the program without a word.
func requireQuietEnd(t *testing.T, path string) {
	r, w, err := os.Pipe()
	require.NoError(t, err)
	require.NoError(t, r.Close())
	var stderr bytes.Buffer
	for _, args := range [][]string{{"freeze", "--nacl", "23.3%", "--curve"}, {"--help"}, {"each", "reading"}} {
		cmd := exec.Command(path, args...)
		cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(logTable(20000)), w, &stderr
		_ = cmd.Run()
		require.NotContains(t, stderr.String(), "pipe", "%v", args)
		require.NotContains(t, stderr.String(), "panic", "%v", args)
	}
}

// requireAnyHome checks that a home that cannot be written to, or none, is not missed, and
// that nothing is left behind.
func requireAnyHome(t *testing.T, path string) {
	for _, home := range [][]string{{"HOME=/proc"}, {}, {"HOME=/nonexistent", "XDG_CONFIG_HOME=/nonexistent"}} {
		cmd := exec.Command(path, "reading", "--hydrometer", "23.3%", "--temp", "40F")
		cmd.Env, cmd.Dir = home, t.TempDir()
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", out)
		require.Contains(t, string(out), "22.6%")
		left, err := os.ReadDir(cmd.Dir)
		require.NoError(t, err)
		require.Empty(t, left)
	}
}

// requireWholeFiles checks that an interruption, at whatever time, leaves a file whole or
// not at all. Some come spread over the time that a run takes, the others as soon as
// anything stands under the file's name, when a writer in place has hardly begun.
func requireWholeFiles(t *testing.T, path string) {
	start := time.Now()
	want := initInterrupted(t, path, func([]byte) bool { return false })
	whole := time.Since(start)
	require.Contains(t, string(want), "F3")
	const runs = 20
	for i := range runs {
		start := time.Now()
		text := initInterrupted(t, path, func([]byte) bool { return time.Since(start) > whole*time.Duration(i)/runs })
		require.True(t, text == nil || bytes.Equal(want, text), "cut off after %d bytes", len(text))
		text = initInterrupted(t, path, func(there []byte) bool { return there != nil })
		require.True(t, bytes.Equal(want, text), "cut off after %d bytes", len(text))
	}
}

// initInterrupted writes a yard file with a process that is interrupted when now says so of
// what the file holds (nil: it is not there), and returns what it holds at the end.
func initInterrupted(t *testing.T, path string, now func(there []byte) bool) []byte {
	t.Helper()
	file := filepath.Join(t.TempDir(), "yard.toml")
	read := func() []byte {
		text, err := os.ReadFile(file)
		if err != nil {
			require.ErrorIs(t, err, os.ErrNotExist)
			return nil
		}
		return append([]byte{}, text...) // not nil, even when empty
	}
	cmd, ended := exec.Command(path, "yard", "init", file), make(chan error)
	require.NoError(t, cmd.Start())
	go func() { ended <- cmd.Wait() }()
	for {
		select {
		case <-ended:
			return read()
		default:
		}
		if now(read()) {
			_ = cmd.Process.Signal(syscall.SIGINT) // it may just have ended
			<-ended
			return read()
		}
	}
}
