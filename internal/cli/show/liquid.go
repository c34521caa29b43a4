package show

import (
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// Describe names what a liquid holds, in a sentence.
func (v View) Describe(l balance.Liquid) string {
	if w, plain := l.Strength(); plain && w == 0 {
		return "water"
	} else if name, _, _ := strings.Cut(l.Name, "@"); plain && isSaltName(name) {
		return v.Say("%v brine", w)
	}
	return l.Name
}

// isSaltName reports whether a liquid is called by its salt.
func isSaltName(name string) bool {
	_, ok := balance.SaltNamed(name)
	return ok
}

// Contents names a liquid by its strength, or by what is in it.
func (v View) Contents(l balance.Liquid) string {
	if w, plain := l.Strength(); plain && w > 0 {
		return v.Say("%v brine", w)
	}
	return v.CompositionText(l)
}

// CompositionText lists the salts of a liquid: 18.2% NaCl, 7% CaCl2.
func (v View) CompositionText(l balance.Liquid) string {
	var parts []string
	for _, salt := range balance.Salts() {
		if w := l.Composition.Fraction(salt); w > 0 {
			parts = append(parts, v.Say("%v %s", quantity.Strength(w), salt))
		}
	}
	if w := l.Composition.Other; w > 0 {
		parts = append(parts, v.Say("%v other", quantity.Strength(w)))
	}
	if len(parts) == 0 {
		return "water"
	}
	return strings.Join(parts, ", ")
}

// Composition lists what is dissolved in a liquid.
func (v View) Composition(l balance.Liquid) []report.Figure {
	var figures []report.Figure
	for _, salt := range balance.Salts() {
		w := l.Composition.Fraction(salt)
		figures = append(figures, QuietUnless(w > 0, v.Figure(balance.SaltName(salt), salt.String(), quantity.Strength(w))))
	}
	other := l.Composition.Other
	return append(figures, QuietUnless(other > 0, v.Figure("other", "Other solutes", quantity.Strength(other))))
}

// LiquidCautions go with pumping a mix.
func LiquidCautions(mix balance.Liquid) []string {
	cautions := []string{CautionPump, CautionDrain, CautionLocal}
	if c := mix.Composition; c.CaCl2 > 0 || c.MgCl2 > 0 {
		return append([]string{CautionChloride}, cautions...)
	}
	return cautions
}
