package cold

import (
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// salts are the flags that compose a liquid, in the order in which a refusal names them.
type salts [4]*bind.Value[quantity.Strength]

// bindLiquid binds a liquid: the salts in it, its name, or the tank in which it stands. A person
// who names none of them means every tank of the yard.
func bindLiquid(b *bind.Set, to *balance.Liquid, in *standsIn, read *bind.Reading) {
	var of salts
	for i, salt := range [...]solution.Salt{solution.NaCl, solution.CaCl2, solution.MgCl2, solution.KCl} {
		of[i] = bind.Typed(b, bind.Strength, balance.SaltName(salt), salt.String()+", by weight of the liquid")
	}
	var name *bind.Text
	b.Then(func(s *bind.Scope) error {
		given := of.given()
		in.every = len(given) == 0 && !name.Given() && !in.given() && !read.Given() && s.Yard != nil && !s.Quiet
		switch {
		case in.every:
			now := s.Standing()
			in.tanks, in.weak, in.clock = now.Tanks, now.WeakLines, s.Now
			return nil
		case read.Given() && (len(given) > 0 || name.Given() || in.given()):
			return fault.Refuse("a reading tells the liquid; allowed: without another liquid, --tank and --liquid")
		case read.Given():
			return nil
		case len(given) > 0 && name.Given():
			return fault.Refuse("--liquid %s and %s: two liquids; allowed: one of them", name.Quoted(), given[0])
		case in.given() && (len(given) > 0 || name.Given()):
			return fault.Refuse("%s: what stands in the tank is known; allowed: without another liquid", in.said())
		case len(given) == 0 && !name.Given() && !in.given():
			return b.Lack(noLiquid(s), "How strong is the salt brine? e.g. 23.3%", "", balance.SaltName(solution.NaCl))
		}
		*to = balance.Liquid{Name: "this liquid", Composition: of.composition()}
		return nil
	})
	b.SaysOf(fault.FieldLiquid, func() string {
		if in.given() {
			return in.said()
		}
		if read.Given() {
			return "the reading"
		}
		return strings.Join(of.given(), " ")
	})
	name = bind.Liquid(b, to, "liquid", "a `liquid` by name, instead of salts: brine@23.3%, or one of the yard file")
	in.bind(b, to)
}

// noLiquid refuses a question about nothing. A person's every tank is meant only with a yard file.
func noLiquid(s *bind.Scope) error {
	more := "--liquid, or --tank"
	if s.Yard == nil && !s.Quiet {
		more = "--liquid, --tank, or a yard file for every tank"
	}
	return fault.Refuse("no liquid; allowed: one or more of --nacl, --cacl2, --mgcl2, --kcl, like --nacl 23.3%%, %s", more)
}

// given are the salts that were typed, with their flags.
func (s salts) given() []string {
	var given []string
	for _, salt := range s {
		if salt.Given() {
			given = append(given, salt.Said())
		}
	}
	return given
}

func (s salts) composition() solution.Composition {
	at := func(i int) float64 { return float64(s[i].Typed()) }
	return solution.Composition{NaCl: at(0), CaCl2: at(1), MgCl2: at(2), KCl: at(3)}
}
