package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"brineyard/internal/cli/run"

	"github.com/stretchr/testify/require"
)

// printedLines are command lines that print all labels there are, or nearly.
var printedLines = append(slices.Clone(workedLines),
	"check --tank mixer --hydrometer 24% --temp 40F --yard YARD",
	"blend --additive-into north 10:cal31 --yard YARD",
	"blend 80:brine@23.3% 20:cacl2@32% --ice-at -10F --keep-clear -5F --volume 900gal",
	"truck --rate 40gal/mi --speed 30mph --lanes 2 --catch 68gal --over 60s",
	"lineup --from north --to truck-fill --yard YARD",
	"lineup --open S1,D2 --yard YARD",
	"storm STORM --yard YARD --what-if rate=30gal/mi --what-if start=13:00",
	"journal tanks --yard YARD --journal SEASON",
	"journal list --yard YARD --journal SEASON --kind reading",
	"journal verify --journal SEASON",
	"yard check YARD",
	"card --yard YARD",
	"drill --print 2 --seed 7",
	"drill --print 2 --seed 7 --key",
)

// The titles, labels and headings that markdown prints stand in docs/words.md, by
// command, numbers as N. UPDATE_DOCS=1 writes them anew.
func TestLabelsAreListed(t *testing.T) {
	labels := map[string][]string{}
	for _, line := range printedLines {
		command := commandWords(line)
		for _, label := range labelsOf(answer(t, append(demoFields(line), "--format", "markdown")...)) {
			if !slices.Contains(labels[command], label) {
				labels[command] = append(labels[command], label)
			}
		}
	}
	var section strings.Builder
	section.WriteString(labelsHeading + "\n\nN stands for a number with its unit. Words of the trade, or plain ones of our own.\n\n| Command | Printed |\n| --- | --- |\n")
	var commands []string
	for c := range labels {
		commands = append(commands, c)
	}
	slices.Sort(commands)
	for _, c := range commands {
		fmt.Fprintf(&section, "| `%s` | %s |\n", c, strings.Join(labels[c], "; "))
	}
	path := filepath.Join("..", "..", "docs", "words.md")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	before, _, _ := strings.Cut(string(text), labelsHeading)
	if os.Getenv("UPDATE_DOCS") != "" {
		require.NoError(t, os.WriteFile(path, []byte(strings.TrimRight(before, "\n")+"\n\n"+section.String()), 0o644))
		return
	}
	require.True(t, strings.HasSuffix(string(text), section.String()), "docs/words.md lacks a label; UPDATE_DOCS=1 go test ./internal/cli writes it anew")
}

const labelsHeading = "## Labels and titles, as they are printed"

// commandWords are the words of a line that name its command.
func commandWords(line string) string {
	words := strings.Fields(line)
	if words[0] == "journal" || words[0] == "yard" {
		return words[0] + " " + words[1]
	}
	return words[0]
}

var (
	amounts    = regexp.MustCompile(`-?\b[0-9][0-9.,]*[0-9%]?( (F|C|gal|L|lb|kg|deg)\b)?%?`)
	mdTitle    = regexp.MustCompile(`^## (.*)$`)
	separators = regexp.MustCompile(`^\| ---`)
)

// labelsOf finds titles of tables, headings of columns, and labels of figures.
func labelsOf(markdown string) []string {
	var out []string
	lines := strings.Split(markdown, "\n")
	for i, line := range lines {
		if m := mdTitle.FindStringSubmatch(line); m != nil && !slices.Contains([]string{"Working", "Notes", "Cautions"}, m[1]) {
			out = append(out, m[1])
		}
		if !separators.MatchString(line) {
			continue
		}
		head := mdCells(lines[i-1])
		if !slices.Equal(head, []string{"Figure", "Value"}) {
			out = append(out, head...)
			continue
		}
		for _, row := range lines[i+1:] {
			if !strings.HasPrefix(row, "|") {
				break
			}
			out = append(out, mdCells(row)[0])
		}
	}
	for i, label := range out {
		out[i] = amounts.ReplaceAllString(label, "N")
	}
	return out
}

func mdCells(row string) []string {
	cells := strings.Split(strings.Trim(row, "| "), " | ")
	return cells
}

// Commands that stand in a document without their output are run too, in the order of the
// page, in a folder with the demo yard file and two logs.
func TestDocumentsOtherCommands(t *testing.T) {
	home, err := filepath.Abs(filepath.Join("..", ".."))
	require.NoError(t, err)
	yard, err := os.ReadFile(demoYard)
	require.NoError(t, err)
	ran := 0
	pages, err := filepath.Glob(filepath.Join(home, "docs", "*.md"))
	require.NoError(t, err)
	for _, page := range pages {
		if filepath.Base(page) == "reference.md" {
			continue // usage lines, with their flags in brackets
		}
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		t.Run(filepath.Base(page), func(t *testing.T) {
			t.Chdir(t.TempDir())
			require.NoError(t, os.WriteFile("yard.toml", yard, 0o644))
			require.NoError(t, os.WriteFile("old.csv", []byte("Date,Time,Made,Test\n2026-01-14,5:40 AM,1090,23.4\n"), 0o644))
			require.NoError(t, os.WriteFile("samples.csv", []byte("hydrometer,temp\n23.3%,40F\n"), 0o644))
			for line := range strings.Lines(string(text)) {
				command, ok := strings.CutPrefix(strings.TrimRight(line, "\n"), "    brineyard ")
				if !ok {
					continue
				}
				ran++
				runPlain(t, command)
			}
		})
	}
	require.Greater(t, ran, 15)
}

// runPlain runs a line of a document that shows no output.
func runPlain(t *testing.T, command string) {
	t.Helper()
	if command == "yard init" {
		require.NoError(t, os.Remove("yard.toml"))
	}
	command, _, _ = strings.Cut(command, " > ")
	var stdout, stderr bytes.Buffer
	env := run.System()
	env.In, env.Out, env.Err = strings.NewReader(""), &stdout, &stderr
	env.Getenv = func(string) string { return "" }
	require.Zero(t, Run(env, shellWords(command)), "%s: %s", command, stderr.String())
	require.NotZero(t, stdout.Len()+stderr.Len(), command)
}

// shellWords splits a line as a shell does, as far as double quotes.
func shellWords(line string) []string {
	var words []string
	for i, piece := range strings.Split(line, `"`) {
		if i%2 == 1 {
			words = append(words, piece)
			continue
		}
		words = append(words, strings.Fields(piece)...)
	}
	return words
}
