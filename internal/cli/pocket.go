package cli

import (
	"math"
	"strconv"
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// pocket writes the working of an answer so that it can be followed with a
// pocket calculator: each number is rounded as it is printed before it is used,
// and the next step goes on from the printed result.
type pocket struct {
	system quantity.System
	steps  []report.Step
}

// term is a printed number: value is exactly what text says.
type term struct {
	value float64
	unit  string
}

// digits of a printed number that is used further: one pound in ten tons, one
// part in a million of a density.
const pocketDigits = 6

// text shows the number in full, with its unit.
func (t term) text() string {
	text := strconv.FormatFloat(t.value, 'f', -1, 64)
	switch t.unit {
	case "":
		return text
	case "%":
		return text + "%"
	}
	return text + " " + t.unit
}

// number rounds a value to what is printed of it.
func number(x float64, unit string) term { return term{significant(x), unit} }

func significant(x float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', pocketDigits, 64), 64)
	if err != nil {
		return math.NaN()
	}
	return y
}

// of prints a quantity in the user's units.
func (p *pocket) of(q quantity.Quantity) term {
	shown := q.In(p.system)
	return number(shown.Value, shown.Unit)
}

// as prints a quantity as it is reckoned with.
func (p *pocket) as(q quantity.Quantity) term {
	switch q := q.(type) {
	case quantity.Density:
		return p.density(q)
	case quantity.Strength:
		return p.percent(q)
	}
	return p.of(q)
}

// density prints a density in the unit that turns gallons into pounds, or liters
// into kilograms.
func (p *pocket) density(d quantity.Density) term {
	if p.system == quantity.Metric {
		return number(float64(d)/1000, "kg/L")
	}
	return p.of(d)
}

// share prints a strength as the fraction that is multiplied with.
func (p *pocket) share(s quantity.Strength) term { return number(float64(s), "") }

// percent prints a strength in percent.
func (p *pocket) percent(s quantity.Strength) term { return number(100*float64(s), "%") }

// step adds a step with a result: numbers is the formula with each {} replaced
// by the text of a term, result what it comes to.
func (p *pocket) step(what, formula, numbers string, terms []term, result float64, unit string) term {
	for _, t := range terms {
		numbers = strings.Replace(numbers, "{}", t.text(), 1)
	}
	r := number(result, unit)
	p.steps = append(p.steps, report.Step{What: what, Formula: formula, Numbers: numbers, Result: r.text()})
	return r
}

// read adds a step that looks something up and computes nothing.
func (p *pocket) read(what, source string, t term) term {
	p.steps = append(p.steps, report.Step{What: what, Formula: source, Result: t.text()})
	return t
}

// sum adds terms of one unit.
func (p *pocket) sum(what string, terms []term) term {
	if len(terms) == 1 {
		return terms[0]
	}
	total := 0.0
	for _, t := range terms {
		total += t.value
	}
	return p.step(what, "sum", strings.TrimSuffix(strings.Repeat("{} + ", len(terms)), " + "), terms, total, terms[0].unit)
}
