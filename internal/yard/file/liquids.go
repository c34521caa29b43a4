package file

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// readLiquid reads a solution of salts, or a product that is known by its data sheet.
func readLiquid(t *table, y *yard.Yard) {
	l := yard.Liquid{}
	t.readName(&l.Name)
	c := &l.Composition
	t.read(
		number("nacl", as[float64](quantity.ParseTypedStrength), &c.NaCl),
		number("kcl", as[float64](quantity.ParseTypedStrength), &c.KCl),
		number("cacl2", as[float64](quantity.ParseTypedStrength), &c.CaCl2),
		number("mgcl2", as[float64](quantity.ParseTypedStrength), &c.MgCl2),
		optional("price", quantity.ParsePricePerVolume, &l.Price),
		number("on_hand", quantity.ParseVolume, &l.OnHand),
	)
	salts := t.knows("nacl") || t.knows("kcl") || t.knows("cacl2") || t.knows("mgcl2")
	product := readProduct(t)
	switch {
	case builtIn(l.Name):
		t.nameFault("%s is a built-in liquid; allowed: another name", words.Quoted(l.Name))
	case salts && product != nil:
		t.fault("freezing", "a freezing table and salts are two descriptions; allowed: one of them")
	case !salts && product == nil:
		t.fault("name", "what it holds is missing; allowed: nacl, kcl, cacl2, mgcl2, or solute, density and freezing")
	case salts:
		t.refuse(c.Check() != nil, "name", "more is dissolved than there can be; allowed: 50%% in all")
	default:
		l.Liquid = balance.OfProduct(l.Name, product)
	}
	y.Liquids = append(y.Liquids, l)
}

// builtIn reports whether a name is that of a liquid that every yard knows.
func builtIn(name string) bool {
	switch name {
	case balance.BrineName, "nacl", "kcl", "cacl2", "mgcl2", "water":
		return true
	}
	return false
}

// readProduct reads a product by its data sheet; nil when there is none.
func readProduct(t *table) *solution.Product {
	p, rho := &solution.Product{}, quantity.Density(0)
	t.read(
		number("solute", as[float64](quantity.ParseTypedStrength), &p.Solute),
		number("density", quantity.ParseDensity, &rho),
		freezing(&p.Freezing),
	)
	p.Density = float64(rho)
	switch {
	case !t.knows("solute") && !t.knows("density") && !t.knows("freezing"):
		return nil
	case t.knows("solute", "density") && len(p.Freezing) > 0:
		err := p.Check()
		t.refuse(err != nil, "freezing", "%v", err)
	default:
		for _, key := range []string{"solute", "density", "freezing"} {
			t.refuse(!t.has(key), key, "%s is missing; a product takes solute, density and freezing", key)
		}
	}
	return p
}

// freezing is a list of pairs of strength and temperature.
func freezing(to *[]solution.FreezingPoint) key {
	const name = "freezing"
	strength := column[quantity.Strength]{"strength", quantity.ParseStrength}
	temperature := column[quantity.Temperature]{"temperature", quantity.ParseTemperature}
	return key{name: name, read: func(t *table, value any) bool {
		list, ok := value.([]any)
		switch {
		case !ok:
			t.fault(name, "freezing takes a list of pairs, like [[\"10%%\", \"-5C\"], [\"20%%\", \"-12C\"]]")
		case len(list) == 0:
			t.fault(name, "freezing is empty; allowed: pairs of strength and temperature")
		}
		pairs(t, name, list, strength, temperature, func(_ int, s quantity.Strength, at quantity.Temperature) {
			*to = append(*to, solution.FreezingPoint{Solute: float64(s), Temperature: float64(at)})
		})
		return ok
	}}
}

func readBlend(t *table, y *yard.Yard) {
	b := yard.Blend{}
	t.readName(&b.Name) // liquids and blends share their names
	t.read(
		text("additive", &b.Additive).needed(),
		number("share", as[quantity.Fraction](quantity.ParseStrength), &b.Share).needed(),
	)
	_, known := y.Liquid(b.Additive)
	t.refuse(b.Additive != "" && !known, "additive", "no liquid is named %s", words.Quoted(b.Additive))
	t.refuse(t.knows("share") && (b.Share <= 0 || b.Share >= 1), "share",
		"share %v is no part of a blend; allowed: above 0%% and below 100%%", show(quantity.Strength(b.Share)))
	y.Blends = append(y.Blends, b)
}
