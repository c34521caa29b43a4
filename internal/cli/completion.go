package cli

import (
	"slices"
	"strings"

	"brineyard/internal/drill"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// complete lets shells complete the words of flags, and names out of the yard file.
func complete(c *cobra.Command, env *Env, g *globals) {
	visit := func(f *pflag.Flag) {
		if choice, ok := f.Value.(interface{ Options() []string }); ok {
			_ = c.RegisterFlagCompletionFunc(f.Name, fixed(choice.Options()))
		}
		if words, ok := f.Value.(*choice); ok {
			// Errors only tell of a flag that is completed already.
			_ = c.RegisterFlagCompletionFunc(f.Name, fixed(words.words))
		}
		what, _ := pflag.UnquoteUsage(f) // a --from can also be a day
		if names, ok := flagNames[f.Name]; ok && f.Value.Type() == "name" && what != "day" {
			_ = c.RegisterFlagCompletionFunc(f.Name, fromYard(env, g, names))
		}
	}
	c.LocalFlags().VisitAll(visit)
	if words, ok := argumentWords[c.Name()]; ok && c.ValidArgsFunction == nil {
		c.ValidArgsFunction = words(env, g)
	}
	for _, sub := range c.Commands() {
		complete(sub, env, g)
	}
}

type completion = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective)

// flagNames tell whose names a flag takes.
var flagNames = map[string]func(*setting) []string{
	"tank":          func(s *setting) []string { return s.tankNames("") },
	"additive-into": func(s *setting) []string { return s.tankNames("") },
	"from":          (*setting).places,
	"to":            (*setting).places,
	"truck":         (*setting).truckNames,
	"route":         (*setting).routeNames,
	"liquid":        (*setting).liquidNames,
}

// argumentWords are those of commands that take words without a flag.
var argumentWords = map[string]func(*Env, *globals) completion{
	"drill": func(*Env, *globals) completion {
		var topics []string
		for _, t := range drill.Topics() {
			topics = append(topics, string(t))
		}
		return fixed(topics)
	},
	"each":  func(*Env, *globals) completion { return fixed(questionNames()) },
	"store": func(env *Env, g *globals) completion { return fromYard(env, g, flagNames["tank"]) },
}

// places are tanks, outlets, and the supply.
func (s *setting) places() []string {
	names := append(s.tankNames(""), s.yard.Plumbing.Outlets...)
	return append(names, yard.FreshWater)
}

func fixed(words []string) completion {
	return func(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		return beginning(words, begun), cobra.ShellCompDirectiveNoFileComp
	}
}

// fromYard reads the yard file that the line so far would use.
func fromYard(env *Env, g *globals, names func(*setting) []string) completion {
	return func(_ *cobra.Command, _ []string, begun string) ([]string, cobra.ShellCompDirective) {
		s, err := newSetting(env, g)
		if err != nil || s.yard == nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return beginning(names(s), begun), cobra.ShellCompDirectiveNoFileComp
	}
}

func beginning(words []string, begun string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return !strings.HasPrefix(w, begun) })
}
