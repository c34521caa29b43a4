package main

import (
	"slices"
	"strings"
)

// Of each round of lines one asks for help, three are some that their commands refuse, and
// three have a flag more; the others are drawn freely. All three go through their lists, so
// that a run of a few thousand lines has every help, every refusal and every flag.
const (
	round       = 25
	helpSlot    = 24
	refusalStep = 8 // slots 2, 10 and 18
	refusalRest = 2
	flagStep    = 9 // slots 5, 14 and 23
	flagRest    = 5
	inRound     = 3 // refusals, and flags
)

// drawLine draws the line of a number; only names a command, or the beginning of one.
func drawLine(shared *fixtures, seed uint64, number int, only string) *line {
	d := newDraft(shared, seed, number)
	able := commandsFor(only)
	d.of = d.weighted(able)
	shapes, more := d.of.shapes, ""
	rounds, slot := number/round, number%round
	switch {
	case only == "" && slot == helpSlot:
		d.of = commandNamed(helpCommand)
	case slot%refusalStep == refusalRest:
		if r, ok := inTurn(refusedOf(able), rounds*inRound+slot/refusalStep); ok {
			d.of, shapes = r.of, []string{r.word}
		}
	case slot%flagStep == flagRest:
		if f, ok := inTurn(flagsOf(able), rounds*inRound+slot/flagStep); ok {
			d.of, shapes, more = f.of, f.of.shapes, f.word
		}
	}
	d.line.command = d.of.name
	if d.of.name == helpCommand {
		d.line.words = d.helpWords()
	} else {
		d.line.words = d.commandLine(pick(d.dice, shapes), more)
	}
	return d.line
}

// wordOf is a shape or a flag of a command.
type wordOf struct {
	of   *command
	word string
}

// refusedOf are the refusals of commands.
func refusedOf(able []*command) []wordOf {
	return wordsOf(able, func(c *command) []string { return refusals[c.name] })
}

// flagsOf are the flags of commands.
func flagsOf(able []*command) []wordOf {
	return wordsOf(able, func(c *command) []string { return strings.Fields(c.flags) })
}

func wordsOf(able []*command, words func(*command) []string) []wordOf {
	var out []wordOf
	for _, c := range able {
		for _, w := range words(c) {
			out = append(out, wordOf{c, w})
		}
	}
	return out
}

// inTurn is the one of a list whose turn it is, if there is any.
func inTurn(list []wordOf, turn int) (wordOf, bool) {
	if len(list) == 0 {
		return wordOf{}, false
	}
	return list[turn%len(list)], true
}

// helpWords ask for help in one of the ways, each in its turn.
func (d *draft) helpWords() []string {
	d.line.files["yard.toml"] = d.shared.sites[0].text
	forms := helpForms()
	return forms[d.line.number/round%len(forms)]
}

// helpForms are all lines that ask for help, of every command, and what else answers
// without a question.
func helpForms() [][]string {
	forms := [][]string{
		{}, {"help"}, {"--version"}, {"--help"}, {"help", "nosuch"}, {"help", "journal", "add", "beer"}, {"melt"}, {"chek"}, {"journal", "ad"}, {"journal", "add", "bach"},
		{"yard", "sow"}, {"--verson"}, {"completion", "bash"}, {"__complete", "che"}, {"__complete", "check", "--wi"}, {"__complete", "card", "--sheet", ""},
		{"__complete", "journal", "add", ""}, {"__complete", "drill", ""}, {"__complete", "each", "re"}, {"__complete", "check", "--tank", ""},
		{"__complete", "lineup", "--from", ""}, {"__complete", "store", "n"}, {"__complete", "truck", "--truck", "b"}, {"__complete", "freeze", "--liquid", ""},
		{"__complete", "blend", "--additive-into", ""}, {"__complete", "journal", "add", "load", "--route", ""}, {"__complete", "check", "--volume", ""},
	}
	var names []string
	for _, c := range commands() {
		if c.name != helpCommand {
			names = append(names, c.name)
		}
	}
	for _, name := range append(names, "journal", "journal add", "yard") {
		words := strings.Fields(name)
		forms = append(forms, append([]string{"help"}, words...), append(slices.Clone(words), "--help"))
	}
	return append(forms, []string{"journal"}, []string{"journal", "add"}, []string{"yard"}, []string{"check", "-h"})
}
