package cli

import (
	"strings"

	"brineyard/internal/words"

	"github.com/spf13/pflag"
)

// meant are words that people type for a flag of another name, each with the flags that may
// be meant: common practice, no source. A command without any of them falls back on the
// spelling.
var meant = map[string][]string{
	"heel":         {"heel-volume", "heel-strength"},
	"temperature":  {"temp", "water-temp"},
	"reading":      {"hydrometer", "sg", "salometer", "baume", "weigh"},
	"salt":         {"salt", "with", "purity", "moisture", "nacl"},
	"water":        {"with", "water-temp", "volume"},
	"strength":     {"strength", "hydrometer", "to", "heel-strength", "nacl"},
	"target":       {"to"},
	"size":         {"volume", "capacity"},
	"gallons":      {"volume"},
	"litres":       {"volume"},
	"liters":       {"volume"},
	"amount":       {"volume"},
	"inches":       {"depth"},
	"dip":          {"depth"},
	"level":        {"depth"},
	"band":         {"low", "high"},
	"name":         {"tank", "truck"},
	"who":          {"operator"},
	"by":           {"operator"},
	"date":         {"at"},
	"when":         {"at"},
	"time":         {"at"},
	"calcium":      {"cacl2"},
	"magnesium":    {"mgcl2"},
	"potassium":    {"kcl"},
	"sodium":       {"nacl"},
	"brine":        {"liquid", "nacl"},
	"json":         {"format"},
	"csv":          {"format"},
	"metric":       {"units"},
	"quiet":        {"brief"},
	"short":        {"brief"},
	"verbose":      {"all"},
	"full":         {"all"},
	"explain":      {"working"},
	"show-working": {"working"},
}

// flagHint says which flag was probably meant by one that the command has not, in the words
// that follow its refusal.
func flagHint(flags *pflag.FlagSet, name string) string {
	var near []string
	for _, flag := range meant[strings.ToLower(name)] {
		if flags.Lookup(flag) != nil {
			near = append(near, "--"+flag)
		}
	}
	if len(near) > 0 {
		return "did you mean " + words.Or(near) + "?"
	}
	var names []string
	flags.VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	if flag, ok := words.Nearest(name, names); ok {
		return "did you mean --" + flag + "?"
	}
	return "--help lists the flags"
}
