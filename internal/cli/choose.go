package cli

import (
	"fmt"
	"strconv"
	"strings"

	"brineyard/internal/cli/run"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

// daily are the commands of a working day, in its order.
var daily = [...]string{"check", "correct", "batch", "ready", "level", "freeze", "blend", "store", "lineup", "truck", "storm"}

// chosen is the command that was chosen from a list instead of typed.
type chosen string

// Error is never shown: Run answers it.
func (c chosen) Error() string { return string(c) }

// choose lists the daily commands to a person and returns the one that he chooses, by its number or
// its name; an empty answer shows the help. Errors: chosen.
func choose(env *run.Env, root *cobra.Command) error {
	fmt.Fprintln(env.Err, "What do you want to know?")
	for i, name := range daily {
		if c, _, err := root.Find([]string{name}); err == nil {
			fmt.Fprintf(env.Err, "%4d  %-8s %s\n", i+1, name, c.Short)
		}
	}
	known := run.Available(root)
	for range 3 {
		answer, err := env.Ask("A number or a name; nothing for help", "")
		if err != nil || answer == "" {
			return root.Help()
		}
		first, _, _ := strings.Cut(answer, " ")
		if n, err := strconv.Atoi(first); err == nil && n >= 1 && n <= len(daily) {
			return chosen(daily[n-1])
		}
		if name, ok := words.Match(first, known); ok {
			return chosen(name)
		}
		fmt.Fprintf(env.Err, "%s: no such question; allowed: 1 to %d, or a command\n", words.Quoted(answer), len(daily))
	}
	return root.Help()
}
