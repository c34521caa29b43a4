package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every command that a document shows with its output is run in the project's folder,
// and says that. A line of three dots stands for the rest.
func TestDocuments(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	root := "."
	pages, err := filepath.Glob(filepath.Join(root, "docs", "*.md"))
	require.NoError(t, err)
	pages = append(pages, filepath.Join(root, "README.md"))
	shown := 0
	for _, page := range pages {
		text, err := os.ReadFile(page)
		require.NoError(t, err)
		for _, block := range commandBlocks(string(text)) {
			shown++
			t.Run(filepath.Base(page)+"/"+block.line, func(t *testing.T) { block.require(t) })
		}
	}
	require.Greater(t, shown, 1)
}

// commandBlock is a command line and what it prints, as a document shows them.
type commandBlock struct {
	line  string
	lines []string
}

// commandBlocks finds the indented blocks that begin with "$ brineyard".
func commandBlocks(text string) []commandBlock {
	var blocks []commandBlock
	in := false
	for _, line := range strings.Split(text, "\n") {
		code, indented := strings.CutPrefix(line, "    ")
		command, begins := strings.CutPrefix(code, "$ brineyard ")
		switch {
		case indented && begins:
			blocks = append(blocks, commandBlock{line: command})
			in = true
		case !indented && line != "":
			in = false
		case in:
			last := &blocks[len(blocks)-1]
			last.lines = append(last.lines, code)
		}
	}
	return blocks
}

func (b commandBlock) require(t *testing.T) {
	t.Helper()
	want := strings.TrimRight(strings.Join(b.lines, "\n"), "\n")
	out := answer(t, strings.Fields(b.line)...)
	if head, cut := strings.CutSuffix(want, "\n..."); cut {
		require.True(t, strings.HasPrefix(out, head), "%s", out)
		return
	}
	require.Equal(t, want, strings.TrimRight(out, "\n"))
}
