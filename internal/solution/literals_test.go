package solution

import (
	"fmt"
	"math"
)

// literal is one coefficient of the package's tables.
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

// literals returns every coefficient of the package's tables. The numbers that are
// part of an equation's form, and the limits of what is answered, are constants.
func literals() literalList {
	var l literalList
	l.addAll("Debye-Hueckel", "A-phi", debyeHueckel[:])
	for s := range binaryTable {
		b, name := &binaryTable[s], Salt(s).String()
		l.add("Pitzer, one salt", name+" alpha", &b.alpha1, &b.alpha2)
		for parameter, f := range map[string]*fit{"b0": &b.b0, "b1": &b.b1, "b2": &b.b2, "c0": &b.c0} {
			l.addAll("Pitzer, one salt", name+" "+parameter, f[:])
		}
	}
	for i := range pairTable {
		p := &pairTable[i]
		name := p.first.String() + "-" + p.second.String()
		l.addAll("Pitzer, two salts", name+" theta", p.theta[:])
		l.addAll("Pitzer, two salts", name+" psi", p.psi[:])
	}
	l.addAll("E-theta", "up to 1", harvieSmall[:])
	l.addAll("E-theta", "above 1", harvieLarge[:])
	for s := range solidData {
		d, group := &solidData[s], "solubility products"
		if Solid(s) == Ice {
			group = "ice"
		}
		l.addAll(group, d.name, d.logK[:])
		l.add(group, d.name+" water", &d.water)
	}
	for i := range anchorPoints {
		p := &anchorPoints[i]
		l.add("anchor points", fmt.Sprint(i), &p.celsius, &p.strength)
	}
	l.addOfLiquids()
	return l
}

// addOfLiquids takes what density, viscosity, heat and mass come from.
func (l *literalList) addOfLiquids() {
	for s := range laliberteTable {
		k, name := &laliberteTable[s], Salt(s).String()
		l.addAll("Laliberte density", name+" c", k.c[:])
		l.addAll("Laliberte viscosity", name+" v", k.v[:])
		l.addAll("Laliberte heat capacity", name+" a", k.a[:])
		for _, r := range []*span{&k.density, &k.viscosity, &k.heatCapacity} {
			l.add("Laliberte ranges", name, &r.low, &r.high, &r.w)
		}
		l.add("molar masses and charges", name, &saltData[s].molarMass, &saltData[s].charge)
	}
	c := &constants
	l.add("molar masses and charges", "water and chloride", &c.water, &c.chloride)
	l.add("gas constant and b", "", &c.gas, &c.debyeB)
	l.addAll("density of water", "", kell[:])
	l.addAll("viscosity of water", "", waterFlow[:])
	l.addAll("heat capacity of water", "", waterHeat[:])
}
