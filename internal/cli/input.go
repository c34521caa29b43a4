package cli

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/words"

	"github.com/spf13/pflag"
)

// input is a flag that takes a quantity. It knows whether it was given, in which
// words, and whether the unit was left out.
type input[Q quantity.Quantity] struct {
	value Q
	text  string
	given bool
	bare  bool
	kind  string
	parse func(string) (Q, bool, error)
}

// Set reads the flag's value.
func (i *input[Q]) Set(text string) error {
	q, bare, err := i.parse(text)
	if err != nil {
		return err
	}
	i.value, i.bare, i.text, i.given = q, bare, text, true
	return nil
}

// reset takes back what was given.
func (i *input[Q]) reset() {
	var none Q
	i.value, i.text, i.given, i.bare = none, "", false, false
}

// String returns the words given.
func (i *input[Q]) String() string { return i.text }

// Type names the kind of value in help.
func (i *input[Q]) Type() string { return i.kind }

// flag adds an input to a set of flags.
func flag[Q quantity.Quantity](f *pflag.FlagSet, kind string, parse func(string) (Q, bool, error), name, usage string) *input[Q] {
	i := &input[Q]{kind: kind, parse: parse}
	f.Var(i, name, usage)
	return i
}

func strengthFlag(f *pflag.FlagSet, name, usage string) *input[quantity.Strength] {
	return flag(f, "strength", quantity.ParseStrength, name, usage+" (% if no unit)")
}

func temperatureFlag(f *pflag.FlagSet, name, usage string) *input[quantity.Temperature] {
	return flag(f, "temperature", quantity.ParseTemperature, name, usage+" (F if no unit)")
}

func volumeFlag(f *pflag.FlagSet, name, usage string) *input[quantity.Volume] {
	return flag(f, "volume", quantity.ParseVolume, name, usage+" (gal if no unit)")
}

func massFlag(f *pflag.FlagSet, name, usage string) *input[quantity.Mass] {
	return flag(f, "weight", quantity.ParseMass, name, usage+" (lb if no unit)")
}

func flowFlag(f *pflag.FlagSet, name, usage string) *input[quantity.Flow] {
	return flag(f, "flow", quantity.ParseFlow, name, usage+" (gal/min if no unit)")
}

// text is a flag that takes a name, which is not to be empty.
type text struct {
	value string
	given bool
}

// Set takes the name.
func (t *text) Set(value string) error {
	if strings.TrimSpace(value) == "" {
		return errors.New("no name; allowed: a name")
	}
	t.value, t.given = value, true
	return nil
}

// reset takes back what was given.
func (t *text) reset() { *t = text{} }

// String returns the name in force.
func (t *text) String() string { return t.value }

// Type names the kind of value in help.
func (t *text) Type() string { return "name" }

// choice is a flag that takes one of a few words.
type choice struct {
	value   string
	words   []string
	initial string // the word in force before one was given
	given   bool
}

// Set takes one of the words.
func (c *choice) Set(text string) error {
	for _, w := range c.words {
		if strings.EqualFold(text, w) {
			if !c.given {
				c.initial, c.given = c.value, true
			}
			c.value = w
			return nil
		}
	}
	return fmt.Errorf("no such choice; %s", words.Allowed(text, c.words))
}

// reset takes back what was given.
func (c *choice) reset() {
	if c.given {
		c.value, c.given = c.initial, false
	}
}

// String returns the word in force.
func (c *choice) String() string { return c.value }

// Type names the kind of value in help.
func (c *choice) Type() string { return "word" }

// whole is a flag that takes a whole number from 1 up.
type whole struct{ value int }

// Set reads the number.
func (w *whole) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil || n == 0 || n > 1000 {
		return allowed("not a whole number of them", []string{"1 to 1000"})
	}
	w.value = int(n)
	return nil
}

// reset takes back what was given.
func (w *whole) reset() { w.value = 0 }

// String returns the number in force.
func (w *whole) String() string {
	if w.value == 0 {
		return ""
	}
	return strconv.Itoa(w.value)
}

// Type names the kind of value in help.
func (w *whole) Type() string { return "number" }
