package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var demo = filepath.Join("..", "..", "testdata")

func demoFixtures(t *testing.T) *fixtures {
	t.Helper()
	shared, err := readFixtures(demo)
	require.NoError(t, err)
	return shared
}

// referenceFlags are the flags of each command that docs/reference.md lists.
func referenceFlags(t *testing.T) map[string][]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "docs", "reference.md"))
	require.NoError(t, err)
	out := map[string][]string{}
	flag := regexp.MustCompile(`(?m)^ +(?:-\w, )?--([a-z0-9-]+)`)
	for _, section := range strings.Split(string(text), "\n## brineyard")[1:] {
		name, rest, _ := strings.Cut(section, "\n")
		_, options, _ := strings.Cut(rest, "**Options**")
		out[strings.TrimSpace(name)] = []string{}
		for _, m := range flag.FindAllStringSubmatch(options, -1) {
			if m[1] != "help" {
				out[strings.TrimSpace(name)] = append(out[strings.TrimSpace(name)], m[1])
			}
		}
	}
	return out
}

// Every command and every flag of the reference is in the tables, and the other way round.
func TestTablesAreComplete(t *testing.T) {
	t.Parallel()
	known := map[string]bool{helpCommand: true, "": true, "journal": true, "journal add": true, "yard": true}
	for name, flags := range referenceFlags(t) {
		c := commandNamed(name)
		if known[name] {
			continue
		}
		require.NotNil(t, c, "no lines are drawn of %s", name)
		own := slices.DeleteFunc(strings.Fields(c.flags), func(f string) bool { return f == "journal" }) // every command's
		require.ElementsMatch(t, flags, own, name)
		known[name] = true
	}
	for _, c := range commands() {
		require.True(t, known[c.name], "%s is no command", c.name)
	}
}

// Five thousand lines have every command with each of its flags, every refusal and every
// help.
func TestLinesReachEveryFlag(t *testing.T) {
	t.Parallel()
	shared := demoFixtures(t)
	used, helps := map[string]bool{}, map[string]bool{}
	for i := range 5000 {
		l := drawLine(shared, 1, i, "")
		if l.command == helpCommand {
			helps[strings.Join(l.words, " ")] = true
		}
		for _, w := range l.words {
			name, _, _ := strings.Cut(w, "=")
			used[l.command+" "+name] = true
		}
	}
	for name, flags := range referenceFlags(t) {
		if commandNamed(name) == nil {
			continue
		}
		all := append([]string{"units", "format", "working", "yard"}, flags...)
		if name == "card" || name == "yard init" {
			all = slices.DeleteFunc(all, func(f string) bool { return f == "yard" })
		}
		for _, f := range all {
			require.True(t, used[name+" --"+f], "%s --%s", name, f)
		}
	}
	const turns = 5000 / round * inRound
	require.LessOrEqual(t, len(refusedOf(commands())), turns, "some refusals do not get their turn")
	for _, words := range helpForms() {
		require.True(t, helps[strings.Join(words, " ")], "%q", words)
	}
}

// A seed and a number always give the same line, and other ones give others.
func TestLinesAreDeterministic(t *testing.T) {
	t.Parallel()
	shared := demoFixtures(t)
	different := 0
	for i := range 300 {
		l := drawLine(shared, 7, i, "")
		require.Equal(t, l, drawLine(shared, 7, i, ""))
		if l.String() != drawLine(shared, 8, i, "").String() {
			different++
		}
	}
	require.Greater(t, different, 270)
}

// Every shape of every command, refused or not, can be expanded.
func TestShapesExpand(t *testing.T) {
	t.Parallel()
	shared := demoFixtures(t)
	for _, c := range commands() {
		for i, shape := range slices.Concat(c.shapes, refusals[c.name]) {
			for n := range 4 {
				d := newDraft(shared, uint64(i), n)
				d.of = c
				for _, w := range d.words(shape) {
					require.NotContains(t, w, "{", "%s: %s", c.name, shape)
				}
			}
		}
	}
	for name := range refusals {
		require.NotNil(t, commandNamed(name), name)
	}
}

// Only names the beginning of a command.
func TestOnly(t *testing.T) {
	t.Parallel()
	shared := demoFixtures(t)
	for i := range 50 {
		require.True(t, strings.HasPrefix(drawLine(shared, 1, i, "journal add").command, "journal add "))
	}
	require.Empty(t, commandsFor("chec"))
	require.Empty(t, drawLine(shared, 1, 0, "help").words)
}

// A line can be pasted into a shell.
func TestShellWords(t *testing.T) {
	t.Parallel()
	l := &line{env: []string{"BRINEYARD_FILE=a.toml"}, words: []string{"check", "", "a b", "it's", "5\n6", "23.3%"}}
	require.Equal(t, `BRINEYARD_FILE=a.toml brineyard check '' 'a b' 'it'\''s' $'5\n6' 23.3%`, l.String())
}

// A drill's key becomes what a person types.
func TestTyped(t *testing.T) {
	t.Parallel()
	answers := answersOf(`{"tables":{"answers":[{"answer":{"value":"3,784 lb"}},{"answer":{"value":"22.5%"}},{"answer":{"value":"S1"}}]}}`)
	require.Equal(t, []string{"3,784 lb", "22.5%", "S1"}, answers)
	rows := strings.Split(typed(1, answers), "\n")
	require.Len(t, rows, 4)
	require.Regexp(t, `^\d+(\.\d+)?( (lb|furlongs))?$`, rows[0])
	require.Regexp(t, `^\d+(\.\d+)?%( furlongs)?$`, rows[1])
}
