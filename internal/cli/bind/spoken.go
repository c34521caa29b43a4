package bind

import (
	"fmt"
	"strconv"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Spoken takes values without their flags, as they are called out: "mixer 23.5 38" of a tank, a reading and a temperature,
// or the first of them. Flags are those that the words fill, in their order; AReading stands for the instrument that the
// yard file leaves no doubt of. It is bound before them; example is a line of words.
func Spoken(b *Set, example string, flags ...string) {
	b.Then(func(s *Scope) error {
		spoken := s.Args
		s.Args = nil
		if len(spoken) == 0 {
			return nil
		}
		if err := s.meant(spoken, example, flags); err != nil {
			return err
		}
		for i, text := range spoken {
			flag := flags[i]
			if flag == AReading {
				scale, reading, err := s.scaleOf(text)
				if err != nil {
					return err
				}
				flag, text = scale.Name(), reading
			}
			if known, named := namesFor[flag]; named {
				if name, ok := words.Match(text, known(s.Yard)); ok {
					text = name
				}
			}
			if err := b.say(flag, text); err != nil {
				return err
			}
		}
		return nil
	})
}

// AReading stands among the flags of Spoken for a reading.
const AReading = "reading"

// namesFor are the names that a flag's word is to be among.
var namesFor = map[string]func(*yard.Yard) []string{"tank": TankNames, "truck": TruckNames, "from": Places, "to": Places}

// meant refuses words of which the first is no name of the yard, and one too many.
func (s *Scope) meant(spoken []string, example string, flags []string) error {
	unexpected := fault.Refuse("unexpected word %s; allowed: a flag for every value, or the words alone, like %s", words.Quoted(spoken[0]), example)
	known, named := namesFor[flags[0]]
	switch {
	case len(spoken) > len(flags):
		return unexpected
	case !named && !strings.ContainsAny(spoken[0], "0123456789"):
		return unexpected
	case !named:
		return nil
	case s.Yard == nil && len(spoken) == len(flags):
		return fault.Refuse("%s: there is no yard file to tell what that is; allowed: --yard with a file, or a flag for every value", words.Quoted(spoken[0]))
	case s.Yard == nil:
		return unexpected
	}
	names := known(s.Yard)
	if _, ok := words.Match(spoken[0], names); ok {
		return nil
	}
	if _, near := words.Nearest(spoken[0], names); near || len(spoken) > 1 {
		return fault.Refuse("--%s %s: no such %s in %s; %s", flags[0], words.Quoted(spoken[0]), nounOf(flags[0]), s.Yard.Path, words.Allowed(spoken[0], names))
	}
	return unexpected
}

// nounOf says what a flag's word names.
func nounOf(flag string) string {
	if flag == "from" {
		return "place"
	}
	return flag
}

// spans are between which numbers a reading of each scale can lie, in anything from water to
// brine that is saturated: the ends of the scales, common practice, no source.
var spans = map[gauge.Scale][2]float64{
	gauge.PercentSalt:     {0, 30},
	gauge.SpecificGravity: {0.9, 1.4},
	gauge.Salometer:       {0, 110},
	gauge.Baume:           {0, 30},
}

// scaleOf is the scale that a reading was read on, with the reading: the one among the yard's
// instruments that can show such a number. A percent sign, or the scale's name behind it, says it.
func (s *Scope) scaleOf(text string) (scale gauge.Scale, reading string, err error) {
	if strings.HasSuffix(text, "%") {
		return gauge.PercentSalt, text, nil
	}
	if scale, number, named := wordedScale(text); named {
		return scale, number, nil
	}
	x, err := strconv.ParseFloat(quantity.Plain(text), 64)
	if err != nil {
		return 0, "", fault.Refuse("%s: not a reading; allowed: a number, like 23.5, or with its flag, like --sg 1.180", words.Quoted(text))
	}
	var can []gauge.Scale
	for _, scale := range gauge.Scales() {
		span, floats := spans[scale]
		if _, there := s.yardOrNone().UsualGlass(scale); there && floats && x >= span[0] && x <= span[1] {
			can = append(can, scale)
		}
	}
	switch {
	case len(s.yardOrNone().Glasses) == 0:
		return 0, "", fault.Refuse("%s: the yard file names no instrument; allowed: with a percent sign, like 23.5%%, or the flag of the one that was read, like --sg 1.180", words.Quoted(text))
	case len(can) == 0:
		return 0, "", fault.Refuse("%s: no instrument of the yard file shows that; allowed: with the flag of the one that was read, like --hydrometer", words.Quoted(text))
	case len(can) == 1:
		return can[0], text, nil
	}
	var flags []string
	for _, scale := range can {
		flags = append(flags, fmt.Sprintf("--%s %s", scale.Name(), text))
	}
	return 0, "", fault.Refuse("%s: which instrument was read? allowed: %s", words.Quoted(text), strings.Join(flags, ", "))
}
