package cli

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"brineyard/internal/cli/run"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"
)

// Every command that a document shows with its output is run in the project's folder,
// and says that. A line of three dots stands for the rest. UPDATE_DOCS=1 writes what the
// program says now into the documents, to be read before it is kept.
func TestDocuments(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	shown := 0
	for _, page := range documents(t) {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		lines := strings.Split(string(text), "\n")
		blocks := commandBlocks(lines)
		for i := len(blocks) - 1; i >= 0; i-- { // from the end, since lines may be replaced
			b := blocks[i]
			shown++
			if os.Getenv("UPDATE_DOCS") != "" {
				lines = slices.Replace(lines, b.from, b.to, b.now(t)...)
				continue
			}
			t.Run(filepath.Base(page)+"/"+b.line, func(t *testing.T) { b.require(t) })
		}
		if os.Getenv("UPDATE_DOCS") != "" {
			require.NoError(t, os.WriteFile(page, []byte(strings.Join(lines, "\n")), 0o644))
		}
	}
	require.Greater(t, shown, 20)
}

// documents are all pages, from the project's folder.
func documents(t *testing.T) []string {
	t.Helper()
	pages, err := filepath.Glob(filepath.Join("docs", "*.md"))
	require.NoError(t, err)
	return append(pages, "README.md", "DEVELOPERS.md")
}

// commandBlock is a command line and what it prints, as a document shows them, in its
// lines from one to another.
type commandBlock struct {
	line     string
	lines    []string
	from, to int
}

// documented is what a command of the documents answers, in the winter of its examples.
func documented(t *testing.T, args ...string) string {
	t.Helper()
	status, out, errs := invokeOn(t, time.Date(2026, 4, 20, 5, 0, 0, 0, time.UTC), args...)
	require.Zero(t, status, "%v: %s", args, errs)
	return out
}

// commandBlocks finds the indented blocks that begin with "$ brineyard".
func commandBlocks(lines []string) []commandBlock {
	var blocks []commandBlock
	in := false
	for i, line := range lines {
		code, indented := strings.CutPrefix(line, "    ")
		command, begins := strings.CutPrefix(code, "$ brineyard ")
		switch {
		case indented && begins:
			blocks = append(blocks, commandBlock{line: command, from: i + 1, to: i + 1})
			in = true
		case !indented && line != "":
			in = false
		case in:
			last := &blocks[len(blocks)-1]
			last.lines = append(last.lines, code)
			if code != "" {
				last.to = i + 1
			}
		}
	}
	return blocks
}

// wanted is what the block shows, and whether it is cut.
func (b commandBlock) wanted() (text string, cut bool) {
	return strings.CutSuffix(strings.TrimRight(strings.Join(b.lines, "\n"), "\n"), "\n...")
}

func (b commandBlock) require(t *testing.T) {
	t.Helper()
	want, cut := b.wanted()
	out := strings.TrimRight(documented(t, strings.Fields(b.line)...), "\n")
	if cut {
		require.True(t, strings.HasPrefix(out, want), "%s", out)
		return
	}
	require.Equal(t, want, out)
}

// now is what the program says, as the block shows it: as many lines as there were.
func (b commandBlock) now(t *testing.T) []string {
	t.Helper()
	out := strings.Split(strings.TrimRight(documented(t, strings.Fields(b.line)...), "\n"), "\n")
	if want, cut := b.wanted(); cut {
		out = append(out[:min(len(out), strings.Count(want, "\n")+1)], "...")
	}
	for i, line := range out {
		if line != "" {
			out[i] = "    " + line
		}
	}
	return out
}

var link = regexp.MustCompile(`\]\(([^)#]*)(#[^)]*)?\)`)

// Links between the documents lead somewhere, their anchors too.
func TestDocumentLinks(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	links := 0
	for _, page := range documents(t) {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		for _, m := range link.FindAllStringSubmatch(string(text), -1) {
			links++
			target := page
			if m[1] != "" {
				target = filepath.Join(filepath.Dir(page), m[1])
			}
			there, err := os.ReadFile(target)
			require.NoError(t, err, "%s: %s", page, m[0])
			if m[2] != "" {
				require.Contains(t, anchors(string(there)), m[2], "%s: %s", page, m[0])
			}
		}
	}
	require.Greater(t, links, 20)
}

// anchors are those of the headings of a page.
func anchors(text string) []string {
	var all []string
	for _, line := range strings.Split(text, "\n") {
		if head := strings.TrimLeft(line, "#"); head != line {
			name := strings.ToLower(strings.TrimSpace(head))
			name = regexp.MustCompile(`[^a-z0-9 _-]`).ReplaceAllString(name, "")
			all = append(all, "#"+strings.ReplaceAll(name, " ", "-"))
		}
	}
	return all
}

// Every command and every flag stands in docs/words.md, with where it comes from.
func TestWordsAreListed(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "docs", "words.md"))
	require.NoError(t, err)
	env := run.System()
	everyCommand(newRoot(&env), func(c *cobra.Command) {
		if path, sub := strings.CutPrefix(c.CommandPath(), "brineyard "); sub {
			require.True(t, strings.Contains(string(text), "`"+path+"`"), "%s is not in docs/words.md", path)
		}
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			require.True(t, strings.Contains(string(text), "`--"+f.Name+"`"), "--%s is not in docs/words.md", f.Name)
		})
	})
}

// mark stands on both sides of a word of the project.
const mark = "`"

var (
	// inMarks is what a page shows as a word of the project.
	inMarks = regexp.MustCompile(mark + `([A-Za-z0-9_./-]+)` + mark)
	// ofProject is a path from the project's folder, or a file of Go.
	ofProject = regexp.MustCompile(`^(internal|cmd|docs|testdata|\.ci)/|\.go$`)
	// functionRow is a row of a table with functions and the file that they stand in.
	functionRow = regexp.MustCompile(`\| ([^|]+) \| ` + mark + `(internal/[a-z_/]+\.go)` + mark + ` \|`)
	// wordInFile is a word of the code and the file that it stands in.
	wordInFile = regexp.MustCompile(mark + `(\w+)` + mark + `\s+(?:in|of)\s+` + mark + `(internal/[a-z_/]+\.go)` + mark)
	// packageRow is a row of the map.
	packageRow = regexp.MustCompile(`(?m)^\| ` + mark + `([a-z/]+)` + mark + ` \|`)
)

// eachPage hands over every page with its text.
func eachPage(t *testing.T, see func(page, text string)) {
	t.Helper()
	for _, page := range documents(t) {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		see(page, string(text))
	}
}

// Files and folders that a page names are there. NAME and GROUP stand for a reader's own;
// the page of sources leaves the folder of the chemistry out.
func TestDocumentsNameFiles(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	paths := map[string]int{}
	eachPage(t, func(page, text string) {
		for _, m := range inMarks.FindAllStringSubmatch(text, -1) {
			path := m[1]
			if !ofProject.MatchString(path) || strings.Contains(path, "NAME") || strings.Contains(path, "GROUP") {
				continue
			}
			paths[page]++
			if filepath.Base(page) == "sources.md" && !strings.Contains(path, "/") {
				path = filepath.Join("internal", "solution", path)
			}
			_, err := os.Stat(path)
			require.NoError(t, err, page)
		}
	})
	require.Greater(t, paths["DEVELOPERS.md"], 30)
	require.Greater(t, paths[filepath.Join("docs", "architecture.md")], 15)
}

// Functions, and other words of the code, stand in the files that a page names beside them.
func TestDocumentsNameFunctions(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	functions, words := 0, 0
	eachPage(t, func(page, text string) {
		for _, row := range functionRow.FindAllStringSubmatch(text, -1) {
			for _, m := range inMarks.FindAllStringSubmatch(row[1], -1) {
				functions++
				require.Regexp(t, declaration(m[1]), source(t, row[2]), "%s: %s in %s", page, m[1], row[2])
			}
		}
		for _, m := range wordInFile.FindAllStringSubmatch(text, -1) {
			words++
			require.Regexp(t, `\b`+m[1]+`\b`, source(t, m[2]), "%s: %s in %s", page, m[1], m[2])
		}
	})
	require.Greater(t, functions, 20)
	require.Greater(t, words, 5)
}

// declaration finds that of a function, or of a method like Set.Fill.
func declaration(name string) string {
	if of, method, isMethod := strings.Cut(name, "."); isMethod {
		return `(?m)^func \(\w+ \*?` + of + `(\[\w+\])?\) ` + method + `\(`
	}
	return `(?m)^func ` + name + `[\[(]`
}

func source(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// The map has every package, in the order of the layers.
func TestMapHasEveryPackage(t *testing.T) {
	page := source(t, filepath.Join("..", "..", "docs", "architecture.md"))
	var mapped, want []string
	for _, m := range packageRow.FindAllStringSubmatch(page, -1) {
		mapped = append(mapped, m[1])
	}
	for _, l := range layers {
		want = append(want, l.name)
	}
	require.Equal(t, want, mapped)
}
