package cli

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"syscall"

	"brineyard/internal/cli/cold"
	"brineyard/internal/cli/learn"
	"brineyard/internal/cli/move"
	"brineyard/internal/cli/plan"
	"brineyard/internal/cli/records"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/tank"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

// Run answers one command line and returns the exit status. Every error is one
// line on the error stream.
func Run(env Env, args []string) int {
	g := &globals{}
	root := rootWith(&env, g, commandOf(args))
	if len(args) > 0 && strings.HasPrefix(args[0], cobra.ShellCompRequestCmd) {
		complete(root, &env, g) // only shells ask for it
	}
	root.SetArgs(args)
	root.SetOut(env.Out)
	root.SetErr(env.Err)
	command, err := root.ExecuteC()
	var word string
	if n, _ := fmt.Sscanf(errorText(err), "unknown command %q", &word); n == 1 {
		err = unknownCommand(root, word)
	}
	if err == nil || errors.Is(err, run.ErrHold) || errors.Is(err, run.ErrUnsound) || errors.Is(err, syscall.EPIPE) {
		return status(err)
	}
	var list faultList
	if errors.As(err, &list) {
		for _, f := range list {
			fmt.Fprintln(env.Err, words.OneLine(f.Error()))
		}
		return status(err)
	}
	fmt.Fprintf(env.Err, "%s: %s\n", command.CommandPath(), words.OneLine(err.Error()))
	return status(err)
}

// errorText is the text of an error, if there is one. Cobra tells an unknown
// command by its text alone.
func errorText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// helpTemplate leads with what is asked and how.
const helpTemplate = `{{.Short}}.

{{if .HasExample}}{{.Example}}

{{end}}{{.Long}}

{{.UsageString}}`

// version is stamped by make dist.
var version = "unreleased"

// commands are all that there are.
var commands = []struct {
	name string
	make func(*Env, *globals) *cobra.Command
}{
	{"each", newEach},
	{"drill", newDrill},
}

// grouped are the commands in the groups of the help screen.
func grouped() []run.Command {
	return slices.Concat(tank.Commands(), cold.Commands(), move.Commands(), plan.Commands(), records.Commands(), learn.Commands())
}

// commandOf is the command that a line begins with; empty if it is none. Then the others
// need not be built, which is a good part of the time that a short answer takes.
func commandOf(args []string) string {
	for _, c := range grouped() {
		if len(args) > 0 && args[0] == c.Name() {
			return c.Name()
		}
	}
	for _, c := range commands {
		if len(args) > 0 && args[0] == c.name {
			return c.name
		}
	}
	return ""
}

// rootWith builds the command tree, or the branch of one command.
func rootWith(env *Env, g *globals, only string) *cobra.Command {
	root := &cobra.Command{
		Use:   "brineyard",
		Short: "Make, judge and correct salt brine for winter roads",
		Long: "brineyard answers the questions of a salt brine yard: what a hydrometer reading\n" +
			"means at its temperature, whether a tank may be pumped and what corrects it,\n" +
			"what goes into a batch, and what the cold does to it. Strength is mass of salt\n" +
			"per mass of brine.",
		Version: version,
		Example: "  brineyard check --volume 500gal --hydrometer 23.3% --temp 40F\n" +
			"  brineyard batch --volume 1200gal --purity 95% --moisture 2%",
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(flagError)
	root.SetVersionTemplate("brineyard {{.Version}}\n")
	g.Bind(root.PersistentFlags())
	for _, c := range grouped() {
		if only == "" || only == c.Name() {
			root.AddCommand(c.Cobra(env, g))
		}
	}
	for _, c := range commands {
		if only == "" || only == c.name {
			root.AddCommand(c.make(env, g))
		}
	}
	root.SetHelpCommand(newHelp(root))
	// Help leads with examples, and fits the narrowest terminal.
	root.SetHelpTemplate(helpTemplate)
	root.SetUsageTemplate(strings.NewReplacer(
		".FlagUsages", ".FlagUsagesWrapped 80",
		"{{if .HasExample}}\n\nExamples:\n{{.Example}}{{end}}", "",
		`Use "{{.CommandPath}} [command] --help" for more information about a command.`, "{{.CommandPath}} COMMAND --help tells more of a command.",
	).Replace(root.UsageTemplate()))
	return root
}

// newHelp replaces cobra's help command, which answers an unknown word with
// status 0.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [command]",
		Short: "Help about a command",
		RunE: func(_ *cobra.Command, args []string) error {
			command, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return unknownCommand(root, strings.Join(args, " "))
			}
			return command.Help()
		},
	}
}

// unknownCommand suggests the nearest command, or lists all.
func unknownCommand(root *cobra.Command, word string) error {
	known := availableNames(root)
	if near, ok := words.Nearest(word, known); ok {
		return usagef("no such command: %s; did you mean %s?", words.Quoted(word), near)
	}
	return usagef("no such command: %s; allowed: %s", words.Quoted(word), words.Joined(known, "none"))
}

// availableNames are the commands below a command.
func availableNames(cmd *cobra.Command) []string {
	var names []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return names
}

// noArguments refuses words that are no flags.
func noArguments(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usagef("unexpected word %s; every value comes with a flag, like --temp 41F", words.Quoted(args[0]))
	}
	return nil
}
