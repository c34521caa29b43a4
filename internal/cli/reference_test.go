package cli

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brineyard/internal/cli/run"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/stretchr/testify/require"
)

var (
	referencePage = filepath.Join("..", "..", "docs", "reference.md")
	manFolder     = filepath.Join("..", "..", "docs", "man")
)

// The command reference and the manual pages are what the help says. UPDATE_DOCS=1 writes
// them anew.
func TestReferenceIsCurrent(t *testing.T) {
	env := run.System()
	root := newRoot(&env)
	root.DisableAutoGenTag = true
	want := map[string][]byte{referencePage: markdownReference(t, root)}
	pages := manualPages(t, root)
	for name, text := range pages {
		want[filepath.Join(manFolder, name)] = text
	}
	if os.Getenv("UPDATE_DOCS") != "" {
		require.NoError(t, os.RemoveAll(manFolder))
		require.NoError(t, os.MkdirAll(manFolder, 0o755))
		for path, text := range want {
			require.NoError(t, os.WriteFile(path, text, 0o644))
		}
	}
	for path, text := range want {
		got, err := os.ReadFile(path)
		require.NoError(t, err)
		require.True(t, bytes.Equal(text, got), "%s is not what the help says; UPDATE_DOCS=1 go test ./internal/cli writes it anew", path)
	}
	there, err := os.ReadDir(manFolder)
	require.NoError(t, err)
	require.Len(t, there, len(pages))
}

// markdownReference is one page for all commands.
func markdownReference(t *testing.T, root *cobra.Command) []byte {
	t.Helper()
	var out bytes.Buffer
	out.WriteString("# Command reference\n\nMade from the help of the program; `brineyard COMMAND --help` says the same.\n")
	everyCommand(root, func(c *cobra.Command) {
		var page bytes.Buffer
		require.NoError(t, doc.GenMarkdownCustom(c, &page, func(link string) string {
			return "#" + strings.ReplaceAll(strings.TrimSuffix(link, ".md"), "_", "-")
		}))
		text, _, _ := strings.Cut(page.String(), "### SEE ALSO")
		if c != root {
			// The options of every command stand with the first.
			text, _, _ = strings.Cut(text, "### Options inherited")
		}
		text = strings.ReplaceAll(text, "\n### ", "\n**")
		for _, head := range []string{"Synopsis", "Examples", "Options"} {
			text = strings.ReplaceAll(text, "\n**"+head+"\n", "\n**"+head+"**\n")
		}
		out.WriteString("\n" + strings.TrimSpace(text) + "\n")
	})
	return out.Bytes()
}

func manualPages(t *testing.T, root *cobra.Command) map[string][]byte {
	t.Helper()
	day := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC) // pages change with the help alone
	pages := map[string][]byte{}
	everyCommand(root, func(c *cobra.Command) {
		var page bytes.Buffer
		require.NoError(t, doc.GenMan(c, &doc.GenManHeader{Section: "1", Date: &day, Source: "brineyard", Manual: "brineyard"}, &page))
		pages[strings.ReplaceAll(c.CommandPath(), " ", "-")+".1"] = withoutEmptyDefaults(page.Bytes())
	})
	return pages
}

// withoutEmptyDefaults takes the equals signs off flags that have no default to show behind them.
func withoutEmptyDefaults(page []byte) []byte {
	page = bytes.ReplaceAll(page, []byte("\\fP=\n"), []byte("\\fP\n"))
	return bytes.ReplaceAll(page, []byte("\\fP[=false]\n"), []byte("\\fP\n"))
}

// everyCommand visits all that help shows.
func everyCommand(c *cobra.Command, visit func(*cobra.Command)) {
	visit(c)
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() && sub.Name() != "help" {
			everyCommand(sub, visit)
		}
	}
}

// Completion knows the names of the yard file and the words of flags.
func TestCompletion(t *testing.T) {
	for line, want := range map[string][]string{
		"check --tank ":             {"mixer", "tote", "north", "south"},
		"truck --truck ":            {"big-sprayer", "lot-pickup"},
		"truck --liquid ":           {"brine", "cal31", "cold-mix"},
		"lineup --from ":            {"mixer", "truck-fill", "supply"},
		"journal add load --route ": {"ridge-road", "school-lots"},
		"journal add load --from ":  {"north"},
		"blend --additive-into ":    {"north"},
		"reading --units ":          {"us", "metric"},
		"card --sheet ":             {"temperature", "all"},
		"correct --with ":           {"water", "salt", "stock"},
		"drill ":                    {"strong", "valves"},
		"each ":                     {"reading", "correct"},
		"store ":                    {"north", "south"},
	} {
		words := strings.Split(line, " ")
		out := answerAll(t, append(append([]string{"__complete"}, words[:1]...), append([]string{"--yard", demoYard}, words[1:]...)...)...)
		for _, w := range want {
			require.Contains(t, strings.Split(out, "\n"), w, line)
		}
	}
}

// answerAll is answer for a command that says something on the error stream too.
func answerAll(t *testing.T, args ...string) string {
	t.Helper()
	var stdout bytes.Buffer
	env := run.System()
	env.Out, env.Err = &stdout, io.Discard
	env.Getenv = func(string) string { return "" }
	require.Zero(t, Run(env, args))
	return stdout.String()
}
