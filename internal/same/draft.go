package main

import (
	"math/rand/v2"
	"regexp"
	"strings"
)

// dice draws. Lines of one seed and number are always the same.
type dice struct{ *rand.Rand }

// chance is true in this share of the draws.
func (d dice) chance(share float64) bool { return d.Float64() < share }

// between draws from low to high.
func (d dice) between(low, high float64) float64 { return low + d.Float64()*(high-low) }

// pick draws one of a list.
func pick[T any](d dice, list []T) T { return list[d.IntN(len(list))] }

// draft is a line in the making.
type draft struct {
	dice
	shared *fixtures
	line   *line
	// makers and several draw what words.go tells of.
	makers  map[string]func(*draft) string
	several map[string]func(*draft) []string
	of      *command // whose flags have which values
	place   *site    // nil as long as no yard file is chosen
	chosen  bool     // that there is a yard file, or none
	folder  string   // of the yard file, with a slash behind it; empty for the line's own
	room    float64  // gal that the tank named last holds; 0 if none was named
	volume  float64  // gal drawn last
	entries int      // of the journal drawn last
	globals []string // flags of the line that every command takes
}

// newDraft begins a line.
func newDraft(shared *fixtures, seed uint64, number int) *draft {
	return &draft{
		dice:   dice{rand.New(rand.NewPCG(seed, uint64(number)))},
		shared: shared,
		line:   &line{number: number, files: map[string]string{}},
		makers: makers(), several: sequences(),
	}
}

// words expands a shape. A word of it is one of these:
//
//	--flag          the flag with a value of its kind
//	--flag={kind}   the flag with a value of another kind
//	{rule}          one of the shapes of a rule, expanded in turn
//	a{kind}b        text with a value in it
//
// A question mark behind a flag or a rule leaves it out in two of three draws.
func (d *draft) words(shape string) []string {
	var out []string
	for _, word := range strings.Fields(shape) {
		bare, optional := strings.CutSuffix(word, "?")
		if inner, ok := strings.CutSuffix(word, "?}"); ok {
			bare, optional = inner+"}", true
		}
		if optional && !d.chance(optionalShare) {
			continue
		}
		out = append(out, d.expand(bare)...)
	}
	return out
}

// optionalShare is how often what is optional stands there.
const optionalShare = 1.0 / 3

// expand expands one word of a shape.
func (d *draft) expand(word string) []string {
	if name, ok := strings.CutPrefix(word, "--"); ok {
		name, shape, given := strings.Cut(name, "=")
		if !given {
			kind := d.of.kindOf(name)
			if kind == "" {
				return []string{"--" + name}
			}
			shape = "{" + kind + "}"
		}
		return []string{"--" + name, d.fill(shape)}
	}
	if name, ok := wholeRule(word); ok {
		if shapes, ok := rules[name]; ok {
			return d.words(pick(d.dice, shapes))
		}
		if draw, ok := d.several[name]; ok {
			return draw(d)
		}
	}
	return []string{d.fill(word)}
}

// wholeRule is the name of a rule that is all of a word.
func wholeRule(word string) (string, bool) {
	inner := strings.TrimSuffix(strings.TrimPrefix(word, "{"), "}")
	return inner, len(word) > 2 && len(inner) == len(word)-2 && !strings.ContainsAny(inner, "{}")
}

var placeholder = regexp.MustCompile(`\{[^{}]+\}`)

// fill puts values in the place of their kinds.
func (d *draft) fill(text string) string {
	return placeholder.ReplaceAllStringFunc(text, func(m string) string { return d.value(m[1 : len(m)-1]) })
}

// value draws a value of a kind.
func (d *draft) value(kind string) string {
	if a, ok := amounts[kind]; ok {
		return d.amount(kind, a)
	}
	if list, ok := choices[kind]; ok {
		return d.fill(pick(d.dice, list))
	}
	if draw, ok := d.makers[kind]; ok {
		return draw(d)
	}
	if shapes, ok := rules[kind]; ok {
		return strings.Join(d.words(pick(d.dice, shapes)), " ")
	}
	panic("no kind of value is called " + kind)
}

// shuffled puts flags, each with its value, and words without a flag in another order;
// the latter keep theirs among themselves.
func (d *draft) shuffled(words []string) []string {
	var groups [][]string
	var plain []string
	for i := 0; i < len(words); i++ {
		switch {
		case !strings.HasPrefix(words[i], "--"):
			plain = append(plain, words[i])
			groups = append(groups, nil)
		case i+1 < len(words) && !d.of.isSwitch(words[i]):
			groups = append(groups, words[i:i+2])
			i++
		default:
			groups = append(groups, words[i:i+1])
		}
	}
	d.Shuffle(len(groups), func(i, j int) { groups[i], groups[j] = groups[j], groups[i] })
	var out []string
	for _, g := range groups {
		if g == nil {
			g, plain = plain[:1], plain[1:]
		}
		out = append(out, g...)
	}
	return out
}
