package bind

import (
	"fmt"
	"strconv"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// Spoken takes a tank, a reading and a temperature without their flags, as in "mixer 23.5 38", or
// the first of them, where the yard file leaves no doubt which instrument was read. It is bound
// before the flags that it fills.
func Spoken(b *Set) {
	b.Then(func(s *Scope) error {
		spoken := s.Args
		s.Args = nil
		switch {
		case len(spoken) == 0:
			return nil
		case len(spoken) > 3, len(spoken) == 1 && !s.IsTank(spoken[0]):
			return unexpected(spoken[0])
		case s.Yard == nil:
			return noYardFor(spoken[0])
		}
		tank, err := s.Tank("tank", spoken[0])
		if err != nil {
			return err
		}
		said := [][2]string{{"tank", tank.Name}}
		if len(spoken) > 1 {
			scale, text, err := s.scaleOf(spoken[1])
			if err != nil {
				return err
			}
			said = append(said, [2]string{scale.Name(), text})
		}
		if len(spoken) > 2 {
			said = append(said, [2]string{"temp", spoken[2]})
		}
		for _, v := range said {
			if err := b.say(v[0], v[1]); err != nil {
				return err
			}
		}
		return nil
	})
}

func unexpected(word string) error {
	return fault.Refuse("unexpected word %s; allowed: a flag for every value, or tank, reading and temperature, like mixer 23.5 38", words.Quoted(word))
}

func noYardFor(word string) error {
	return fault.Refuse("%s: there is no yard file to tell whose tank that is; allowed: --yard with a file, or a flag for every value", words.Quoted(word))
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
