package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// stubProgram makes a program of a stub.
func stubProgram(t *testing.T, name string) string {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.Symlink(self, path))
	return path
}

// compared is what comes of a line on two stubs.
func compared(t *testing.T, before, after string, words ...string) outcome {
	t.Helper()
	c := &comparison{before: stubProgram(t, before), after: stubProgram(t, after), folder: t.TempDir()}
	o, err := c.one(&line{command: "check", words: words, files: map[string]string{"in.csv": "1"}})
	require.NoError(t, err)
	return o
}

// Each kind of difference is noticed, where it is, and only there; the folder stays and
// tells the line.
func TestDifferencesAreNoticed(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ stub, where, how string }{
		{"status", "exit status", "- 0\n+ 2"},
		{"standard error", "standard error", "from line 1:\n- told \n+ told entry 2"},
		{"standard output", "standard output", "from line 2:\n+ and more"},
		{"file out.csv", "file out.csv", "from line 1:\n- 1,NOW,count,,CHECK\n+ 1,NOW,count,changed,CHECK"},
		{"file more.csv", "file more.csv", "the new program leaves it, the old one does not"},
	} {
		o := compared(t, "plain", c.stub, "check", "it's")
		require.Equal(t, []difference{{c.where, c.how}}, o.differences, c.stub)
		text, err := os.ReadFile(filepath.Join(o.folder, "line"))
		require.NoError(t, err)
		require.Equal(t, "brineyard check 'it'\\''s'\n", string(text))
		kept, err := os.ReadFile(filepath.Join(o.folder, "old", "in.csv"))
		require.NoError(t, err)
		require.Equal(t, "1", string(kept))
	}
}

// A row is masked where it bears the time of the run, and not where it bears another.
func TestOldRowsAreNotMasked(t *testing.T) {
	t.Parallel()
	o := compared(t, "plain", "row of yesterday")
	require.Len(t, o.differences, 1)
	require.Equal(t, "file out.csv", o.differences[0].where)
	require.Contains(t, o.differences[0].how, "- 1,NOW,count,,CHECK")
}

// The eighth digit of a JSON number counts, what lies beyond the ninth does not; in text
// everything counts.
func TestDigits(t *testing.T) {
	t.Parallel()
	require.Empty(t, compared(t, "plain", "ninth digit", "--format", "json").differences)
	require.Equal(t, []difference{{"standard output", "figures.volume.value:\n- 1234.5678901\n+ 1234.5679901"}},
		compared(t, "plain", "eighth digit", "--format", "json").differences)
	require.Equal(t, "from line 1:\n- 1.0000000001\n+ 1.0000000002", outputDifference("1.0000000001", "1.0000000002"))
}

// The same program is the same, and leaves no folder.
func TestSameProgram(t *testing.T) {
	t.Parallel()
	o := compared(t, "plain", "plain", "--format", "json")
	require.Empty(t, o.differences)
	require.True(t, o.answered)
	require.NoDirExists(t, o.folder)
}

// A program that cannot be run is an error, not a difference.
func TestMissingProgram(t *testing.T) {
	t.Parallel()
	c := &comparison{before: "/nowhere/brineyard", after: stubProgram(t, "plain"), folder: t.TempDir()}
	_, err := c.one(&line{})
	require.ErrorContains(t, err, "/nowhere/brineyard cannot be run")
	require.EqualError(t, (&options{}).check(), "-old is missing; allowed: the path of a program")
}

// A whole run over drawn lines tells whether all are the same, and counts them.
func TestRunCountsLines(t *testing.T) {
	t.Parallel()
	plain := stubProgram(t, "plain")
	o := options{before: plain, after: plain, lines: 4, line: -1, only: "reading", testdata: demo, out: &bytes.Buffer{}}
	same, err := o.run()
	require.NoError(t, err)
	require.True(t, same)
	o.after = stubProgram(t, "status")
	var out bytes.Buffer
	o.out, o.first = &out, 1
	same, err = o.run()
	require.NoError(t, err)
	require.False(t, same)
	require.Contains(t, out.String(), "line 0: brineyard reading ")
	require.Contains(t, out.String(), "exit status\n    - 0\n    + 2\n")
	require.NotContains(t, out.String(), "line 1: ")
	require.Regexp(t, `reading +4 +4 +0 +0 +4\n`, out.String())
	require.Contains(t, out.String(), "4 of 4 lines differ; 1 of them are shown above.")
}

// Values of JSON part in every way that they can.
func TestJSONDifference(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ before, after, want string }{
		{`{"a":1,"b":[1,2]}`, `{"b":[1,2],"a":1}`, ""},
		{`{"a":1e-13}`, `{"a":0}`, ""},
		{`{"a":1e-11}`, `{"a":0}`, "a:\n- 1e-11\n+ 0"},
		{`{"a":null}`, `{"a":0}`, "a:\n- null\n+ 0"},
		{`{"a":{"b":"x"}}`, `{"a":{"c":"x"}}`, "- a.b: \"x\"\n+ a.c: \"x\""},
		{`{"a":[1,2]}`, `{"a":[1]}`, "a:\n- [1,2]\n+ [1]"},
		{`{"a":[{"b":true}]}`, `{"a":[{"b":false}]}`, "a[0].b:\n- true\n+ false"},
	} {
		require.Equal(t, c.want, outputDifference(c.before, c.after))
	}
}

// A difference is shown from its first line to its last, and cut where it is long.
func TestTextDifference(t *testing.T) {
	t.Parallel()
	require.Equal(t, "from line 2:\n- b\n+ c\n+ d", textDifference("a\nb\ne\n", "a\nc\nd\ne\n"))
	long := string(bytes.Repeat([]byte("x"), 500))
	require.Equal(t, "from line 1:\n- ..."+long[:around]+"a\n+ ..."+long[:around]+"b", textDifference(long+"a", long+"b"))
	require.Contains(t, textDifference("", string(bytes.Repeat([]byte("y\n"), 20))), "+ and 12 more")
}
