package bind

import (
	"errors"
	"fmt"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"

	"github.com/spf13/pflag"
)

// Lack refuses a request for want of one thing, which a person at a terminal can be asked for.
type Lack struct {
	Refusal  error  // what anyone else is told
	Question string // without its question mark's space
	Usual    string // what an empty answer means; empty for nothing
	// Take gives the request the answer. Errors: Refusal, and nothing was taken.
	Take func(*Scope, string) error
}

// Error is the refusal.
func (l *Lack) Error() string { return l.Refusal.Error() }

// Unwrap returns the refusal.
func (l *Lack) Unwrap() error { return l.Refusal }

// Lack makes a refusal of a missing flag, which the answer to the question fills.
func (b *Set) Lack(refusal error, question, usual, flag string) error {
	return &Lack{refusal, question, usual, func(_ *Scope, text string) error { return b.say(flag, text) }}
}

// LackOfWords makes a refusal of missing words without a flag.
func LackOfWords(refusal error, question, usual string) error {
	return &Lack{refusal, question, usual, func(s *Scope, text string) error {
		s.Args = split(text)
		return nil
	}}
}

// split parts an answer into words; what stands between quotation marks stays whole.
func split(text string) (list []string) {
	for i, part := range strings.Split(strings.ReplaceAll(text, "'", `"`), `"`) {
		if i%2 == 1 {
			list = append(list, part)
			continue
		}
		list = append(list, strings.Fields(part)...)
	}
	return list
}

// LackOfTank asks for one of the yard's tanks; without a yard file, or without a tank in it,
// for what other says.
func (b *Set) LackOfTank(s *Scope, refusal, other error) error {
	if s.Yard == nil || len(s.Yard.Tanks) == 0 {
		return other
	}
	usual := ""
	if mixers := s.Yard.MixingTanks(); len(mixers) > 0 {
		usual = mixers[0].Name
	}
	return b.Lack(refusal, "Which tank? "+strings.Join(TankNames(s.Yard), ", "), usual, "tank")
}

// lackOfVolume asks how much stands in the tank.
func (b *Set) lackOfVolume(s *Scope, refusal error) error {
	return b.Lack(refusal, "How much is in the tank? "+Like(s.System, "500gal", "1900L"), "", "volume")
}

// lackOfReading asks what an instrument showed, with the words that Spoken takes.
func (b *Set) lackOfReading(refusal error) error {
	return &Lack{
		Refusal:  refusal,
		Question: "What does the glass show? e.g. 23.5%, 1.180 sg, 88 salometer",
		Take: func(s *Scope, text string) error {
			scale, reading, err := s.scaleOf(text)
			if err != nil {
				return err
			}
			return b.say(scale.Name(), reading)
		},
	}
}

// LackOfTemperature asks how warm the sample is.
func (b *Set) LackOfTemperature(s *Scope, refusal error) error {
	return b.Lack(refusal, "How warm is the sample? "+Like(s.System, "41F", "5C"), "", "temp")
}

// Like gives an example in the units of the crew.
func Like(sys quantity.System, us, metric string) string {
	if sys == quantity.Metric {
		us = metric
	}
	return "e.g. " + us
}

// say gives a flag the value that was said without it.
func (b *Set) say(flag, text string) error {
	if b.flags.Changed(flag) {
		return fault.Refuse("%s and --%s: given twice; allowed: one of them", words.Quoted(text), flag)
	}
	err := b.flags.Set(flag, text)
	if wrong := (*pflag.InvalidValueError)(nil); errors.As(err, &wrong) {
		return fault.Refuse("--%s %s: %v", flag, words.Quoted(text), wrong.Unwrap())
	}
	if err == nil {
		b.said = append(b.said, flag)
	}
	return err
}

// Said counts the flags that were filled by what was said without them.
func (b *Set) Said() int { return len(b.said) }

// TakeBack forgets what was said after the first n.
func (b *Set) TakeBack(n int) {
	for _, name := range b.said[n:] {
		f := b.flags.Lookup(name)
		if v, ok := f.Value.(Resettable); ok {
			v.Reset()
		}
		f.Changed = false
	}
	b.said = b.said[:n]
}

// Line is the command line that asks the same without a question: what was said comes first,
// in its order.
func (b *Set) Line(command string, free []string) string {
	line := command
	for _, word := range free {
		line += " " + words.Argument(word)
	}
	done := map[string]bool{}
	for _, name := range b.said {
		line, done[name] = line+typedAgain(b.flags.Lookup(name)), true
	}
	b.flags.VisitAll(func(f *pflag.Flag) {
		if f.Changed && !done[f.Name] {
			line += typedAgain(f)
		}
	})
	return line
}

// typedAgain is a flag with its value as it was typed, once for each of several samples.
func typedAgain(f *pflag.Flag) (line string) {
	if f.Value.Type() == "bool" {
		return " --" + f.Name
	}
	texts := []string{f.Value.String()}
	if several, ok := f.Value.(interface{ Texts() []string }); ok {
		texts = several.Texts()
	}
	for _, text := range texts {
		line += fmt.Sprintf(" --%s %s", f.Name, words.Argument(text))
	}
	return line
}

// wordedScale finds the scale that is named behind a number, as in "1.175 sg".
func wordedScale(text string) (scale gauge.Scale, number string, ok bool) {
	number, word, two := strings.Cut(strings.TrimSpace(text), " ")
	if !two {
		return 0, text, false
	}
	for _, scale := range gauge.Scales() {
		if strings.EqualFold(strings.TrimSpace(word), scale.Name()) {
			return scale, number, true
		}
	}
	return 0, text, false
}
