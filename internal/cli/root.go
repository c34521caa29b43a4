package cli

import (
	"errors"
	"fmt"
	"strings"
	"syscall"

	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

// Run answers one command line and returns the exit status. Every error is one
// line on the error stream.
func Run(env run.Env, args []string) int {
	g := &run.Globals{}
	all := groups()
	root := rootWith(&env, g, all, commandOf(all, args))
	if len(args) > 0 && strings.HasPrefix(args[0], cobra.ShellCompRequestCmd) {
		complete(root, &env, g, rowsIn(all)) // only shells ask for it
	}
	root.SetArgs(args)
	root.SetOut(env.Out)
	root.SetErr(env.Err)
	command, err := root.ExecuteC()
	if name := chosen(""); errors.As(err, &name) {
		return Run(env, append([]string{string(name)}, args...))
	}
	var word string
	if n, _ := fmt.Sscanf(errorText(err), "unknown command %q", &word); n == 1 {
		err = unknownCommand(root, word)
	}
	if err == nil || errors.Is(err, run.ErrHold) || errors.Is(err, run.ErrUnsound) || errors.Is(err, syscall.EPIPE) {
		return status(err)
	}
	var list run.FaultList
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

// commandOf is the command that a line begins with; empty if it is none. With a command
// the others are not built, because building them takes much of a short answer's time.
func commandOf(all []group, args []string) string {
	for _, g := range all {
		for _, c := range g.commands {
			if len(args) > 0 && args[0] == c.Name() {
				return c.Name()
			}
		}
	}
	return ""
}

// rootWith builds the command tree, or the branch of one command.
func rootWith(env *run.Env, g *run.Globals, all []group, only string) *cobra.Command {
	root := &cobra.Command{
		Use:   "brineyard",
		Short: "Make, judge and correct salt brine for winter roads",
		Long: "brineyard works at the mixing tank of a salt brine yard. It tells what a\n" +
			"hydrometer reading means. It says whether a tank may be pumped, and what\n" +
			"corrects it. It sizes batches, and shows what the cold does. Strength is mass\n" +
			"of salt per mass of brine. Local codes and licensed practice come before\n" +
			"anything it prints.",
		Version: version,
		Example: "  brineyard check --volume 500gal --hydrometer 23.3% --temp 40F\n" +
			"  brineyard batch --volume 1200gal --purity 95% --moisture 2%",
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if env.CanAsk() {
				return choose(env, cmd)
			}
			return cmd.Help()
		},
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(flagError)
	root.SetVersionTemplate("brineyard {{.Version}}\n")
	g.Bind(root.PersistentFlags())
	for _, part := range all {
		root.AddGroup(&cobra.Group{ID: part.folder, Title: part.title + ":"})
		for _, c := range part.commands {
			if only == "" || only == c.Name() {
				command := c.Cobra(env, g)
				command.GroupID = part.folder
				root.AddCommand(command)
			}
		}
	}
	root.SetHelpCommand(newHelp(root))
	// Help leads with examples, and fits the narrowest terminal.
	root.SetHelpTemplate(helpTemplate)
	root.SetUsageTemplate(strings.NewReplacer(
		".FlagUsages", ".FlagUsagesWrapped 80",
		"{{if .HasExample}}\n\nExamples:\n{{.Example}}{{end}}", "",
		`Use "{{.CommandPath}} [command] --help" for more information about a command.`, "{{.CommandPath}} COMMAND --help explains a command.",
	).Replace(root.UsageTemplate()))
	return root
}

// newHelp replaces cobra's help command, which answers an unknown word with
// status 0.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:     "help [command]",
		GroupID: "learn",
		Short:   "Help about a command",
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
	known := run.Available(root)
	if near, ok := words.Nearest(word, known); ok {
		return fault.Refuse("no such command: %s; did you mean %s?", words.Quoted(word), near)
	}
	return fault.Refuse("no such command: %s; allowed: %s", words.Quoted(word), words.Joined(known, "none"))
}
