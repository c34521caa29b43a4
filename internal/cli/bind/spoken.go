package bind

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/words"

	"github.com/spf13/pflag"
)

// spokenWords are those that Spoken takes, in the order in which a hand calls them out.
const spokenWords = 3

// Spoken takes a tank, a reading and a temperature without their flags, as in "mixer 23.5 38",
// where the yard file leaves no doubt which instrument was read. It is bound before the flags
// that it fills. command is what the whole line begins with.
func Spoken(b *Set, command string) {
	b.Then(func(s *Scope) error {
		if len(s.Args) == 0 {
			return nil
		}
		if len(s.Args) != spokenWords {
			return fault.Refuse("unexpected word %s; allowed: a flag for every value, or tank, reading and temperature, like mixer 23.5 38", words.Quoted(s.Args[0]))
		}
		if s.Yard == nil {
			return fault.Refuse("%s: there is no yard file to tell whose tank that is; allowed: --yard with a file, or a flag for every value", words.Quoted(s.Args[0]))
		}
		tank, err := s.Tank("tank", s.Args[0])
		if err != nil {
			return err
		}
		scale, err := s.scaleOf(s.Args[1])
		if err != nil {
			return err
		}
		line := command
		given := b.flagsGiven()
		for _, v := range [spokenWords][2]string{{"tank", tank.Name}, {scale.Name(), s.Args[1]}, {"temp", s.Args[2]}} {
			if err := b.say(v[0], v[1]); err != nil {
				return err
			}
			line += " --" + v[0] + " " + words.Argument(v[1])
		}
		s.Asked = line + given
		return nil
	})
}

// flagsGiven are the flags that were typed, as they are typed again.
func (b *Set) flagsGiven() string {
	var line string
	b.flags.Visit(func(f *pflag.Flag) {
		line += " --" + f.Name
		if f.Value.Type() != "bool" {
			line += " " + words.Argument(f.Value.String())
		}
	})
	return line
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
	return err
}

// spans are between which numbers a reading of each scale can lie, in anything from water to
// brine that is saturated: the ends of the scales, common practice, no source.
var spans = map[gauge.Scale][2]float64{
	gauge.PercentSalt:     {0, 30},
	gauge.SpecificGravity: {0.9, 1.4},
	gauge.Salometer:       {0, 110},
	gauge.Baume:           {0, 30},
}

// scaleOf is the scale that a reading was read on: the one among the yard's instruments that
// can show such a number. A percent sign says it.
func (s *Scope) scaleOf(text string) (gauge.Scale, error) {
	if strings.HasSuffix(text, "%") {
		return gauge.PercentSalt, nil
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, fault.Refuse("%s: not a reading; allowed: a number, like 23.5, or with its flag, like --sg 1.180", words.Quoted(text))
	}
	var can []gauge.Scale
	for _, scale := range gauge.Scales() {
		span, floats := spans[scale]
		if _, there := s.Yard.UsualGlass(scale); there && floats && x >= span[0] && x <= span[1] {
			can = append(can, scale)
		}
	}
	switch {
	case len(s.Yard.Glasses) == 0:
		return 0, fault.Refuse("%s: the yard file names no instrument; allowed: with a percent sign, like 23.5%%, or the flag of the one that was read, like --sg 1.180", words.Quoted(text))
	case len(can) == 0:
		return 0, fault.Refuse("%s: no instrument of the yard file shows that; allowed: with the flag of the one that was read, like --hydrometer", words.Quoted(text))
	case len(can) == 1:
		return can[0], nil
	}
	var flags []string
	for _, scale := range can {
		flags = append(flags, fmt.Sprintf("--%s %s", scale.Name(), text))
	}
	return 0, fault.Refuse("%s: which instrument was read? allowed: %s", words.Quoted(text), strings.Join(flags, ", "))
}
