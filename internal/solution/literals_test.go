package solution

import (
	"fmt"
	"math"
)

// literal is one coefficient of a table.
type literal struct {
	group, name string
	at          *float64
}

// unit is one unit of the fourth significant digit; for a zero, a thousandth.
func (l literal) unit() float64 {
	if *l.at == 0 {
		return 1e-3
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(*l.at)))-3)
}

// literalList collects coefficients.
type literalList []literal

// add takes single coefficients.
func (l *literalList) add(group, name string, at ...*float64) {
	for i, x := range at {
		*l = append(*l, literal{group, fmt.Sprintf("%s %s %d", group, name, i), x})
	}
}

// addAll takes a row of coefficients.
func (l *literalList) addAll(group, name string, row []float64) {
	for i := range row {
		l.add(group, fmt.Sprintf("%s %d", name, i), &row[i])
	}
}

// literals returns the place of every coefficient. Numbers that belong to the form of an
// equation, and the ends of ranges, are constants and not listed.
func literals(k *coefficients) literalList {
	var l literalList
	l.addAll("Debye-Hueckel", "A-phi", k.debyeHueckel[:])
	for s := range k.binary {
		b, name := &k.binary[s], Salt(s).String()
		l.add("Pitzer, one salt", name+" alpha", &b.alpha1, &b.alpha2)
		for parameter, f := range map[string]*fit{"b0": &b.b0, "b1": &b.b1, "b2": &b.b2, "c0": &b.c0} {
			l.addAll("Pitzer, one salt", name+" "+parameter, f[:])
		}
	}
	for i := range k.pair {
		p := &k.pair[i]
		name := p.first.String() + "-" + p.second.String()
		l.addAll("Pitzer, two salts", name+" theta", p.theta[:])
		l.addAll("Pitzer, two salts", name+" psi", p.psi[:])
	}
	l.addAll("E-theta", "up to 1", k.jSmall[:])
	l.addAll("E-theta", "above 1", k.jLarge[:])
	for s := range k.solid {
		d, group := &k.solid[s], "solubility products"
		if Solid(s) == Ice {
			group = "ice"
		}
		l.addAll(group, d.name, d.logK[:])
		l.add(group, d.name+" water", &d.water)
	}
	for i := range k.anchor {
		p := &k.anchor[i]
		l.add("anchor points", fmt.Sprint(i), &p.celsius, &p.strength)
	}
	c := &k.cotectic
	l.add("line of ice and hydrohalite", "", &c.a, &c.b, &c.c, &c.d, &c.e, &c.f)
	l.addOfLiquids(k)
	return l
}

// addOfLiquids adds the coefficients of density, heat and mass.
func (l *literalList) addOfLiquids(k *coefficients) {
	for s := range k.laliberte {
		fit, name := &k.laliberte[s], Salt(s).String()
		l.addAll("Laliberte density", name+" c", fit.c[:])
		l.addAll("Laliberte heat capacity", name+" a", fit.a[:])
		l.add("Laliberte ranges", name, &fit.heatLow, &fit.density.low, &fit.density.high, &fit.density.w)
		l.add("molar masses and charges", name, &k.salt[s].molarMass, &k.salt[s].charge)
	}
	l.add("molar masses and charges", "water and chloride", &k.water, &k.chloride)
	l.add("gas constant and b", "", &k.gas, &k.debyeB)
	l.addAll("density of water", "", k.waterDensity[:])
	l.addAll("heat capacity of water", "", k.waterHeat[:])
}
