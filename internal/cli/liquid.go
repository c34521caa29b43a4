package cli

import (
	"fmt"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// builtIn are the liquids that every yard knows, by the salt in them.
var builtIn = map[string]solution.Salt{
	"brine": solution.NaCl,
	"nacl":  solution.NaCl,
	"kcl":   solution.KCl,
	"cacl2": solution.CaCl2,
	"mgcl2": solution.MgCl2,
}

// builtInWords are the same for messages, in the order of use.
var builtInWords = []string{"brine", "nacl", "cacl2", "mgcl2", "kcl", "water"}

// named is a liquid with its price, where the yard file tells it.
type named struct {
	liquid balance.Liquid
	price  *quantity.PricePerVolume
}

// liquid reads a liquid: a built-in name with its strength (brine@23.3%), water, or
// the name of a liquid, a blend or a tank in the yard file.
func (s *setting) liquid(text string) (named, error) {
	name, strength, given := strings.Cut(text, "@")
	lower := strings.ToLower(name)
	if salt, ok := builtIn[lower]; ok {
		if !given {
			return named{}, usagef("%s: no strength; allowed: like %s@%s", words.Quoted(text), name, example[salt])
		}
		w, _, err := quantity.ParseStrength(strength)
		if err != nil {
			return named{}, usagef("%s: strength %s: %v", words.Quoted(text), words.Quoted(strength), err)
		}
		return named{liquid: balance.Liquid{Name: text, Composition: solution.Pure(salt, float64(w))}}, nil
	}
	if lower == "water" {
		if given {
			return named{}, usagef("%s: water has no strength; allowed: water", words.Quoted(text))
		}
		return named{liquid: balance.Liquid{Name: "water"}}, nil
	}
	return s.yardLiquid(text, name, given)
}

// example is a usual strength of each salt, for messages.
var example = [...]string{solution.NaCl: "23.3%", solution.KCl: "18%", solution.CaCl2: "32%", solution.MgCl2: "30%"}

// yardLiquid finds a liquid, a blend or the contents of a tank of the yard file.
func (s *setting) yardLiquid(text, name string, given bool) (named, error) {
	known := builtInWords
	if s.yard != nil {
		if l, ok, err := s.namedInYard(name); err != nil {
			return named{}, usagef("%s: %v", words.Quoted(text), err)
		} else if ok && given {
			return named{}, usagef("%s: the yard file says what %s is; allowed: without a strength", words.Quoted(text), words.Quoted(name))
		} else if ok {
			return l, nil
		}
		known = append(known[:len(known):len(known)], s.liquidNames()[1:]...)
		known = append(known, s.tanksWithContents()...)
	}
	return named{}, usagef("%s: no such liquid; %s", words.Quoted(text), words.Allowed(name, known))
}

// namedInYard looks a name up: liquids, then blends, then tanks.
func (s *setting) namedInYard(name string) (named, bool, error) {
	if l, ok := s.yard.Liquid(name); ok {
		return named{liquid: l.Liquid, price: l.Price}, true, nil
	}
	for _, b := range s.yard.Blends {
		if b.Name == name {
			l, err := s.yardBlend(b)
			return named{liquid: l}, true, err
		}
	}
	if t, ok := s.yard.Tank(name); ok && t.Liquid != nil {
		return named{liquid: *t.Liquid}, true, nil
	}
	return named{}, false, nil
}

// yardBlend is salt brine on target with its share of a liquid.
func (s *setting) yardBlend(b yard.Blend) (balance.Liquid, error) {
	l, ok := s.yard.Liquid(b.Additive)
	if !ok {
		return balance.Liquid{}, fmt.Errorf("the yard file has no liquid %s; allowed: one that it has", words.Quoted(b.Additive))
	}
	share := float64(b.Share)
	mixed, err := brine.NewBlend(brine.BlendRequest{
		Parts:       []brine.Part{{Liquid: balance.SaltBrine(s.cardBand().Target), Amount: 1 - share}, {Liquid: l.Liquid, Amount: share}},
		Temperature: quantity.Fahrenheit(60), Instrument: gauge.Instrument{Calibration: gauge.DefaultCalibration},
	})
	if err != nil {
		return balance.Liquid{}, s.inputError(err)
	}
	mixed.Liquid.Name = b.Name
	return mixed.Liquid, nil
}

// tanksWithContents are those of which the yard file says what is in them.
func (s *setting) tanksWithContents() []string {
	var names []string
	for _, t := range s.yard.Tanks {
		if t.Liquid != nil {
			names = append(names, t.Name)
		}
	}
	return names
}

// lot reads a volume of a liquid: 6000gal@23.1%, 500gal:cacl2@32%, or the name of a
// storage tank with what the yard file says is in it.
func (s *setting) lot(text string) (brine.Lot, error) {
	if s.yard != nil {
		if t, ok := s.yard.Tank(text); ok {
			if t.Liquid == nil || t.Usual() == 0 {
				return brine.Lot{}, usagef("%s: the yard file does not say what stands in that tank; allowed: like 6000gal@23.1%%", words.Quoted(text))
			}
			return brine.Lot{Volume: t.Usual(), Liquid: *t.Liquid}, nil
		}
	}
	volume, liquid, strong := text, "", ""
	if v, l, ok := strings.Cut(text, ":"); ok {
		volume, liquid = v, l
	} else if v, st, ok := strings.Cut(text, "@"); ok {
		volume, strong = v, st
	}
	v, _, err := quantity.ParseVolume(volume)
	switch {
	case err != nil:
		return brine.Lot{}, usagef("%s: volume %s: %v; or the name of a tank in the yard file", words.Quoted(text), words.Quoted(volume), err)
	case strong != "":
		liquid = "brine@" + strong
	case liquid == "":
		return brine.Lot{}, usagef("%s: no liquid; allowed: like 6000gal@23.1%% or 500gal:cacl2@32%%", words.Quoted(text))
	}
	l, err := s.liquid(liquid)
	return brine.Lot{Volume: v, Liquid: l.liquid}, err
}

// saltFlags name the salts.
var saltFlags = [...]string{solution.NaCl: "nacl", solution.KCl: "kcl", solution.CaCl2: "cacl2", solution.MgCl2: "mgcl2"}

// describe names what a liquid holds, in a sentence.
func (s *setting) describe(l balance.Liquid) string {
	if w, plain := l.Strength(); plain && w == 0 {
		return "water"
	} else if name, _, _ := strings.Cut(l.Name, "@"); plain && isBuiltIn(name) {
		return s.show("%v brine", w)
	}
	return l.Name
}

func isBuiltIn(name string) bool {
	_, ok := builtIn[strings.ToLower(name)]
	return ok
}

// compositionText lists the salts of a liquid: 18.2% NaCl, 7% CaCl2.
func (s *setting) compositionText(l balance.Liquid) string {
	var parts []string
	for salt := range saltFlags {
		if w := l.Composition.Fraction(solution.Salt(salt)); w > 0 {
			parts = append(parts, s.show("%v %s", quantity.Strength(w), solution.Salt(salt)))
		}
	}
	if w := l.Composition.Other; w > 0 {
		parts = append(parts, s.show("%v other", quantity.Strength(w)))
	}
	if len(parts) == 0 {
		return "water"
	}
	return strings.Join(parts, ", ")
}

// ordinal numbers the steps of an instruction.
func ordinal(i int) string { return fmt.Sprintf("%d.", i+1) }

// composition lists what is dissolved in a liquid.
func (s *setting) composition(l balance.Liquid) []report.Figure {
	var figures []report.Figure
	for salt := range saltFlags {
		k := solution.Salt(salt)
		w := l.Composition.Fraction(k)
		figures = append(figures, quietUnless(w > 0, s.figure(saltFlags[salt], k.String(), quantity.Strength(w))))
	}
	other := l.Composition.Other
	return append(figures, quietUnless(other > 0, s.figure("other", "Other solutes", quantity.Strength(other))))
}
