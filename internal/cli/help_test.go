package cli

import (
	"strings"
	"testing"
	"unicode/utf8"

	"brineyard/internal/cli/run"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

// Help fits 80 columns, and every command shows how it is used.
func TestHelp(t *testing.T) {
	env := run.System()
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		words := strings.Fields(c.CommandPath())[1:]
		help := answer(t, append(words, "--help")...)
		for _, line := range strings.Split(help, "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%v: %s", words, line)
		}
		if len(words) > 0 && c.Name() != "help" {
			require.GreaterOrEqual(t, strings.Count(c.Example, "\n"), 1, "two examples: %s", c.CommandPath())
			require.NotEmpty(t, c.Long, c.CommandPath())
		}
		for _, sub := range c.Commands() {
			if sub.IsAvailableCommand() && sub.Name() != "help" {
				walk(sub)
			}
		}
	}
	walk(newRoot(&env))
}

// The examples in the help are answered, in a folder with the example yard file. Those of
// yard, journal and each are in screen scripts, since they need or write files.
func TestHelpExamples(t *testing.T) {
	env := run.System()
	for _, c := range newRoot(&env).Commands() {
		for _, line := range strings.Split(c.Example, "\n") {
			words := strings.Fields(line)
			if len(words) == 0 || strings.Contains(line, "NAME") || words[1] == "yard" || words[1] == "journal" || words[1] == "each" {
				continue
			}
			answer(t, append(words[1:], "--yard", demoYard)...)
		}
	}
}
