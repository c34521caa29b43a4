package cli

import (
	"slices"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/drill"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// complete lets shells complete the words of flags, and names out of the yard file.
func complete(c *cobra.Command, env *run.Env, g *run.Globals, rows askable) {
	c.LocalFlags().VisitAll(func(f *pflag.Flag) {
		// Errors only tell of a flag that is completed already.
		switch v := f.Value.(type) {
		case interface{ Options() []string }:
			_ = c.RegisterFlagCompletionFunc(f.Name, fixed(v.Options()))
		case *bind.Text:
			if v.OfYard() {
				_ = c.RegisterFlagCompletionFunc(f.Name, fromYard(env, g, v.Names))
			}
		}
	})
	if words, ok := argumentWords(env, g, rows)[c.Name()]; ok && c.ValidArgsFunction == nil {
		c.ValidArgsFunction = words
	}
	for _, sub := range c.Commands() {
		complete(sub, env, g, rows)
	}
}

type completion = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective)

// argumentWords are those of commands that take words without a flag.
func argumentWords(env *run.Env, g *run.Globals, rows askable) map[string]completion {
	var topics []string
	for _, t := range drill.Topics() {
		topics = append(topics, string(t))
	}
	return map[string]completion{
		"drill": fixed(topics),
		"each":  fixed(rows.names()),
		"store": fromYard(env, g, bind.TankNames),
	}
}

func fixed(words []string) completion {
	return func(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		return beginning(words, begun), cobra.ShellCompDirectiveNoFileComp
	}
}

// fromYard reads the yard file that the line so far would use.
func fromYard(env *run.Env, g *run.Globals, names func(*yard.Yard) []string) completion {
	return func(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		s, err := run.Open(env, g)
		if err != nil || s.Yard == nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return beginning(names(s.Yard), begun), cobra.ShellCompDirectiveNoFileComp
	}
}

func beginning(words []string, begun string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return !strings.HasPrefix(w, begun) })
}
