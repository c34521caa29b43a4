package main

import (
	"slices"
	"strings"
)

// How often a line has which flag that every command takes.
const (
	unitsShare   = 0.25
	formatShare  = 0.6
	workingShare = 0.25
	frontShare   = 0.05 // such flags before the command
	joinedShare  = 0.08 // --flag=value
)

// commandsFor are the commands whose names begin with these words.
func commandsFor(only string) []*command {
	return slices.DeleteFunc(commands(), func(c *command) bool {
		return only != "" && !strings.HasPrefix(c.name+" ", only+" ")
	})
}

// weighted draws a command by its share of the lines.
func (d *draft) weighted(able []*command) *command {
	all := 0
	for _, c := range able {
		all += c.share
	}
	if all == 0 {
		return able[0]
	}
	at := d.IntN(all)
	for _, c := range able {
		if at -= c.share; at < 0 {
			return c
		}
	}
	return nil
}

// commandLine draws the words of a command with its flags, and perhaps one flag more,
// spoiled now and then.
func (d *draft) commandLine(shape, more string) []string {
	unnamed := d.of.takes("journal") && !strings.Contains(strings.ReplaceAll(shape, "--journal?", ""), "--journal")
	if unnamed && d.of.reads {
		d.unnamedJournal()
	}
	words := d.words(shape)
	if more != "" && !slices.Contains(words, "--"+more) {
		words = append(words, d.anyFlag(more)...)
	}
	words = d.shuffled(words)
	d.choose(d.of.yard && !d.chance(0.03))
	if unnamed && !d.of.reads && d.chance(0.3) {
		d.unnamedJournal()
	}
	command := strings.Fields(d.of.name)
	if d.chance(mistakeShare) {
		words = pick(d.dice, mistakes)(d, words)
		for d.chance(secondShare) {
			words = pick(d.dice, mistakes)(d, words)
		}
	} else if d.chance(0.004) {
		command[len(command)-1] = d.misspelled(command[len(command)-1])
	}
	globals := append(d.globals, d.globalFlags()...)
	if d.chance(joinedShare) {
		words = d.joined(words)
	}
	if d.chance(frontShare) {
		return slices.Concat(globals, command, words)
	}
	return slices.Concat(command, words, globals)
}

// unnamedJournal puts a journal where the program looks for one that no flag names.
func (d *draft) unnamedJournal() {
	name := d.value("journal")
	if text, ok := d.line.files[name]; ok {
		d.line.files[d.folder+"journal.csv"] = text
	}
	if d.chance(0.3) {
		d.secondJournal()
	}
}

// secondJournal is one that the environment names.
func (d *draft) secondJournal() {
	entries := d.entries
	d.line.files["second.csv"] = d.history()
	d.entries = max(entries, d.entries)
	d.line.env = append(d.line.env, "BRINEYARD_JOURNAL=second.csv")
}

// globalFlags are those that every command takes.
func (d *draft) globalFlags() []string {
	var out []string
	if d.chance(unitsShare) {
		out = append(out, "--units", d.value("units"))
	}
	switch {
	case d.of.name == "card" || !d.chance(formatShare):
		// A card has a format of its own.
	case d.of.name == "each" || d.of.name == "drill":
		if d.chance(0.04) {
			out = append(out, "--format", d.value("answer-format"))
		}
	default:
		out = append(out, "--format", d.value("answer-format"))
	}
	if d.chance(workingShare) {
		out = append(out, "--working")
	}
	if d.chance(0.02) {
		out = append(out, pick(d.dice, [][]string{{"--units", "imperial"}, {"--format", "jso"}, {"--yard", "nosuch.toml"}, {"--help"}, {"-h"}, {"--yard", "."}})...)
	}
	return out
}

// joined writes flags and values with an equal sign between.
func (d *draft) joined(words []string) []string {
	var out []string
	for i := 0; i < len(words); i++ {
		if strings.HasPrefix(words[i], "--") && !d.of.isSwitch(words[i]) && i+1 < len(words) {
			out = append(out, words[i]+"="+words[i+1])
			i++
			continue
		}
		out = append(out, words[i])
	}
	return out
}
