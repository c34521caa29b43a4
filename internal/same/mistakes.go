package main

import (
	"regexp"
	"slices"
	"strings"
)

// How often lines are spoiled, and twice.
const (
	mistakeShare = 0.11
	secondShare  = 0.15
)

// oddValues are values that no flag takes, or hardly any.
var oddValues = []string{
	"", " ", "cold", "NaN", "+Inf", "1e999gal", "1e308", "0x10", "1_000", "1,200gal", "23,3%", "1.2.3", "--5", "5parsecs", "5\n6",
	"5\x1b[31mF", "5\xff%", "5\u202e%", "9999999999999999999999x", "-3", "0", "1e-30", "-0", "100%", "130%", "-459F", "none",
}

// mistakes spoil the words behind a command in one way each. Where there is nothing to
// spoil they leave the words as they are.
var mistakes = []func(*draft, []string) []string{
	dropFlag, dropFlag, dropValue, misspellFlag, unknownFlag, otherUnit, otherUnit, oddValue, oddValue, extremeValue, extremeValue,
	repeatFlag, extraWord, secondQuestion, secondQuestion, misspellWord, misspellWord, valueForSwitch,
}

// flagPlaces are where flags stand, and valuePlaces where values and other words do.
func (d *draft) flagPlaces(words []string) (flags, values []int) {
	for i := 0; i < len(words); i++ {
		if !strings.HasPrefix(words[i], "--") {
			values = append(values, i)
			continue
		}
		flags = append(flags, i)
		if !d.of.isSwitch(words[i]) && i+1 < len(words) {
			i++
			values = append(values, i)
		}
	}
	return flags, values
}

// dropFlag leaves a flag and its value out. A drill keeps its seed, without which no two
// runs are the same.
func dropFlag(d *draft, words []string) []string {
	flags, _ := d.flagPlaces(words)
	if len(flags) == 0 {
		return words
	}
	at := pick(d.dice, flags)
	end := at + 1
	if !d.of.isSwitch(words[at]) {
		end++
	}
	if words[at] == "--seed" {
		return words
	}
	return slices.Delete(slices.Clone(words), at, min(end, len(words)))
}

// dropValue ends the line with a flag that wants a value.
func dropValue(d *draft, words []string) []string {
	flags, _ := d.flagPlaces(words)
	if len(flags) == 0 {
		return words
	}
	at := pick(d.dice, flags)
	return append(slices.Clone(words), words[at])
}

func misspellFlag(d *draft, words []string) []string {
	flags, _ := d.flagPlaces(words)
	return d.replaced(words, flags, func(w string) string { return "--" + d.misspelled(strings.TrimPrefix(w, "--")) })
}

func unknownFlag(d *draft, words []string) []string {
	return append(slices.Clone(words), pick(d.dice, [][]string{{"--depth", "3ft"}, {"--colour"}, {"-x"}, {"-5"}, {"--verbose", "yes"}})...)
}

var leadingNumber = regexp.MustCompile(`^\s*[+-]?[0-9.]+`)

// otherUnit gives a number the unit of another dimension.
func otherUnit(d *draft, words []string) []string {
	return d.replaced(words, d.numbers(words), func(w string) string { return leadingNumber.FindString(w) + d.foreignUnit() })
}

// numbers are the places of values that begin with a number.
func (d *draft) numbers(words []string) []int {
	_, values := d.flagPlaces(words)
	return slices.DeleteFunc(values, func(i int) bool { return !leadingNumber.MatchString(words[i]) })
}

func oddValue(d *draft, words []string) []string {
	_, values := d.flagPlaces(words)
	return d.replaced(words, values, func(string) string { return pick(d.dice, oddValues) })
}

// extremeValue keeps the unit and takes another number.
func extremeValue(d *draft, words []string) []string {
	return d.replaced(words, d.numbers(words), func(w string) string {
		return leadingNumber.ReplaceAllString(w, pick(d.dice, []string{"0", "1e6", "99", "0.001", "-40", "200", "5000", "1e9"}))
	})
}

// repeatFlag gives a flag of the line once more.
func repeatFlag(d *draft, words []string) []string {
	flags, _ := d.flagPlaces(words)
	if len(flags) == 0 {
		return words
	}
	name := strings.TrimPrefix(words[pick(d.dice, flags)], "--")
	return append(slices.Clone(words), d.anyFlag(name)...)
}

// anyFlag is a flag with a value of its kind.
func (d *draft) anyFlag(name string) []string {
	if _, known := kinds[name]; !known {
		return []string{"--" + name, "1"} // spelled wrong already
	}
	return d.expand("--" + name)
}

func extraWord(d *draft, words []string) []string {
	at := d.IntN(len(words) + 1)
	return slices.Insert(slices.Clone(words), at, pick(d.dice, []string{"north", "23.3%", "extra", "check", "nosuch.csv", "-", "500gal@23%"}))
}

// secondQuestion adds a flag of the command that the line has not.
func secondQuestion(d *draft, words []string) []string {
	names := slices.DeleteFunc(strings.Fields(d.of.flags), func(n string) bool { return slices.Contains(words, "--"+n) })
	if len(names) == 0 {
		return words
	}
	return append(slices.Clone(words), d.anyFlag(pick(d.dice, names))...)
}

// misspellWord spoils a name, a file or a word that is one of a few.
func misspellWord(d *draft, words []string) []string {
	_, values := d.flagPlaces(words)
	values = slices.DeleteFunc(values, func(i int) bool { return len(words[i]) < 3 || leadingNumber.MatchString(words[i]) })
	return d.replaced(words, values, d.misspelled)
}

func valueForSwitch(d *draft, words []string) []string {
	flags, _ := d.flagPlaces(words)
	flags = slices.DeleteFunc(flags, func(i int) bool { return !d.of.isSwitch(words[i]) })
	return d.replaced(words, flags, func(w string) string { return w + pick(d.dice, []string{"=maybe", "=true", "=false", "="}) })
}

// replaced changes one of the words at these places.
func (d *draft) replaced(words []string, places []int, change func(string) string) []string {
	if len(places) == 0 {
		return words
	}
	out, at := slices.Clone(words), pick(d.dice, places)
	out[at] = change(out[at])
	return out
}

// misspelled leaves a letter out, doubles it, changes it or swaps it with the next, or
// adds letters that make it no near miss.
func (d *draft) misspelled(word string) string {
	if word == "" {
		return "x"
	}
	at := d.IntN(len(word))
	before, letter, after := word[:at], word[at:at+1], word[at+1:]
	switch d.IntN(6) {
	case 0:
		return before + after
	case 1:
		return before + letter + letter + after
	case 2:
		return before + "q" + after
	case 3:
		if after == "" {
			return before
		}
		return before + after[:1] + letter + after[1:]
	case 4:
		return strings.ToUpper(word)
	}
	return word + "-ish"
}
