package cli

import (
	"brineyard/internal/cli/run"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

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
	out := strings.TrimRight(answer(t, strings.Fields(b.line)...), "\n")
	if cut {
		require.True(t, strings.HasPrefix(out, want), "%s", out)
		return
	}
	require.Equal(t, want, out)
}

// now is what the program says, as the block shows it: as many lines as there were.
func (b commandBlock) now(t *testing.T) []string {
	t.Helper()
	out := strings.Split(strings.TrimRight(answer(t, strings.Fields(b.line)...), "\n"), "\n")
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
