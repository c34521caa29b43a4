package bind

import (
	"strconv"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Liquid binds a liquid by name. Where none is typed it stays as it is.
func Liquid(b *Set, to *balance.Liquid, name, usage string) *Text {
	var typed string
	t := Name(b, &typed, name, usage, LiquidNames)
	b.Then(func(s *Scope) error {
		if !t.Given() {
			return nil
		}
		b.places[name] = Place{words: "--" + name + " " + t.Quoted()}
		l, err := s.Liquid(typed)
		if err != nil {
			return fault.Refuse("--%s %v", name, err)
		}
		*to = l.Liquid
		return nil
	})
	return t
}

// builtInNames are the liquids that every yard knows, in the order of use.
var builtInNames = []string{"brine", "nacl", "cacl2", "mgcl2", "kcl", "water"}

// usualStrength of each salt, for messages.
var usualStrength = [...]string{solution.NaCl: "23.3%", solution.KCl: "18%", solution.CaCl2: "32%", solution.MgCl2: "30%"}

// Liquid reads a liquid, with its price where the yard file tells it: a built-in name with
// its strength (brine@23.3%), water, or the name of a liquid, a blend or a tank of the yard.
func (s *Scope) Liquid(text string) (yard.Liquid, error) {
	name, strength, given := strings.Cut(text, "@")
	if salt, ok := balance.SaltNamed(name); ok {
		if !given {
			return yard.Liquid{}, fault.Refuse("%s: no strength; allowed: like %s@%s", words.Quoted(text), name, usualStrength[salt])
		}
		w, _, err := quantity.ParseTypedStrength(quantity.Plain(strength))
		if err != nil {
			return yard.Liquid{}, fault.Refuse("%s: strength %s: %v", words.Quoted(text), words.Quoted(strength), err)
		}
		return yard.Liquid{Liquid: balance.Liquid{Name: text, Composition: solution.Pure(salt, float64(w))}}, nil
	}
	if strings.EqualFold(name, "water") {
		if given {
			return yard.Liquid{}, fault.Refuse("%s: water has no strength; allowed: water", words.Quoted(text))
		}
		return yard.Liquid{Liquid: balance.Liquid{Name: "water"}}, nil
	}
	return s.yardLiquid(text, name, given)
}

// yardLiquid finds a liquid, a blend or the contents of a tank of the yard file.
func (s *Scope) yardLiquid(text, name string, given bool) (yard.Liquid, error) {
	known := builtInNames
	if s.Yard != nil {
		l, ok, err := s.namedInYard(name)
		switch {
		case err != nil:
			return yard.Liquid{}, fault.Refuse("%s: %v", words.Quoted(text), err)
		case ok && given:
			return yard.Liquid{}, fault.Refuse("%s: the yard file says what %s is; allowed: without a strength", words.Quoted(text), words.Quoted(name))
		case ok:
			return l, nil
		}
		known = append(known[:len(known):len(known)], LiquidNames(s.Yard)[1:]...)
		known = append(known, tanksWithContents(s.Standing())...)
	}
	return yard.Liquid{}, fault.Refuse("%s: no such liquid; %s", words.Quoted(text), words.Allowed(name, known))
}

// namedInYard looks a name up: liquids, then blends, then tanks.
func (s *Scope) namedInYard(name string) (yard.Liquid, bool, error) {
	name, ok := words.Match(name, append(LiquidNames(s.Yard)[1:], TankNames(s.Yard)...))
	if !ok {
		return yard.Liquid{}, false, nil
	}
	if l, ok := s.Yard.Liquid(name); ok {
		return l, true, nil
	}
	if b, ok := s.Yard.Blend(name); ok {
		l, err := s.blend(b)
		return yard.Liquid{Liquid: l}, true, err
	}
	if t, ok := s.tank(name); ok && t.Liquid != nil {
		return yard.Liquid{Liquid: *t.Liquid}, true, nil
	}
	return yard.Liquid{}, false, nil
}

// blend is salt brine on target with its share of a liquid.
func (s *Scope) blend(blend yard.Blend) (balance.Liquid, error) {
	l, ok := s.Yard.Liquid(blend.Additive)
	if !ok {
		return balance.Liquid{}, fault.Refuse("the yard file has no liquid %s; allowed: one that it has", words.Quoted(blend.Additive))
	}
	share := float64(blend.Share)
	own := New(nil)
	target := s.YardTarget(own)
	mixed, err := brine.NewBlend(brine.BlendRequest{
		Parts:       []brine.Part{{Liquid: balance.SaltBrine(target), Amount: 1 - share}, {Liquid: l.Liquid, Amount: share}},
		Temperature: quantity.Fahrenheit(60), Instrument: gauge.PercentGlass(),
	})
	if err != nil {
		return balance.Liquid{}, own.Explain(err, s.System)
	}
	return mixed.Liquid.Named(blend.Name), nil
}

// YardTarget is the yard's target; a set learns where it came from.
func (s *Scope) YardTarget(b *Set) (to quantity.Strength) {
	YardTarget(b, &to)
	_ = b.Fill(s) // a value with a default is always there
	return to
}

// tanksWithContents are those of which it is known what is in them.
func tanksWithContents(y *yard.Yard) []string {
	var names []string
	for _, t := range y.Tanks {
		if t.Liquid != nil {
			names = append(names, t.Name)
		}
	}
	return names
}

// Part reads a part of a blend: 80:brine@23.3%.
func (s *Scope) Part(text string) (brine.Part, error) {
	share, liquid, ok := strings.Cut(text, ":")
	if !ok {
		return brine.Part{}, fault.Refuse("%s: not a part; allowed: share:liquid, like 80:brine@23.3%%", words.Quoted(text))
	}
	amount, err := strconv.ParseFloat(share, 64)
	if err != nil || !(amount >= 0 && amount <= 1e6) || strings.ContainsAny(share, "xXpP_") {
		return brine.Part{}, fault.Refuse("%s: share %s is no number of parts; allowed: 0 to 1000000, like 80:brine@23.3%%", words.Quoted(text), words.Quoted(share))
	}
	l, err := s.Liquid(liquid)
	if err != nil {
		return brine.Part{}, err
	}
	return brine.Part{Liquid: l.Liquid, Amount: amount, Price: l.Price}, nil
}

// Lot reads a volume of a liquid: 6000gal@23.1%, 500gal:cacl2@32%, or the name of a tank with
// what stands in it.
func (s *Scope) Lot(text string) (brine.Lot, error) {
	if s.IsTank(text) {
		t, _ := s.tank(text)
		if t.Liquid == nil || t.Held() == 0 {
			return brine.Lot{}, fault.Refuse("%s: neither the journal nor the yard file says that anything stands in that tank; allowed: like 6000gal@23.1%%", words.Quoted(text))
		}
		return brine.Lot{Volume: t.Held(), Liquid: *t.Liquid, StrengthHalf: (t.High - t.Low) / 2}, nil
	}
	volume, liquid, strong := text, "", ""
	if v, l, ok := strings.Cut(text, ":"); ok {
		volume, liquid = v, l
	} else if v, st, ok := strings.Cut(text, "@"); ok {
		volume, strong = v, st
	}
	v, _, err := quantity.Meant(quantity.ParseVolume, s.System, volume)
	switch {
	case err != nil:
		return brine.Lot{}, fault.Refuse("%s: volume %s: %v; or the name of a tank in the yard file", words.Quoted(text), words.Quoted(volume), err)
	case strong != "":
		liquid = "brine@" + strong
	case liquid == "":
		return brine.Lot{}, fault.Refuse("%s: no liquid; allowed: like 6000gal@23.1%% or 500gal:cacl2@32%%", words.Quoted(text))
	}
	l, err := s.Liquid(liquid)
	return brine.Lot{Volume: v, Liquid: l.Liquid}, err
}
