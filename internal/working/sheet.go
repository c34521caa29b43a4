// Package working writes the arithmetic of an answer so that it can be followed with a
// pocket calculator. Each number is rounded as it is printed before it is used, a step is
// worked out from the numbers printed in it, and the next step goes on from the printed
// result: so a result cannot disagree with its line.
package working

import (
	"math"
	"strconv"
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// Sheet is a working as it is written.
type Sheet struct {
	system quantity.System
	steps  []report.Step
}

// New begins a sheet in a system of units.
func New(system quantity.System) *Sheet { return &Sheet{system: system} }

// Steps returns what was written.
func (s *Sheet) Steps() []report.Step { return s.steps }

// Term is a printed number: its value is exactly what is printed.
type Term struct {
	value float64
	unit  string
}

// digits of a printed number that is used further: one pound in ten tons, one part in a
// million of a density.
const digits = 6

// Number is a term of a plain number, in a unit or in none.
func Number(x float64, unit string) Term { return Term{rounded(x), unit} }

// rounded returns a value as it is printed.
func rounded(x float64) float64 { return toDigits(x, digits) }

// toDigits keeps so many digits; NaN stays NaN.
func toDigits(x float64, digits int) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil {
		return math.NaN()
	}
	return y
}

// Value returns the printed number.
func (t Term) Value() float64 { return t.value }

// Unit returns the unit behind it.
func (t Term) Unit() string { return t.unit }

// In returns the term with another unit behind the same number.
func (t Term) In(unit string) Term { return Term{t.value, unit} }

// String shows the number in full, with its unit.
func (t Term) String() string {
	text := strconv.FormatFloat(t.value, 'f', -1, 64)
	switch t.unit {
	case "":
		return text
	case "%":
		return text + "%"
	}
	return text + " " + t.unit
}

// Step writes a formula in words, the same with numbers put in, and what that comes to,
// which it returns. The formula joins names by + - x / and brackets; each name, in the order
// in which it stands there, is one of the terms. Numbers in it stand for themselves.
func (s *Sheet) Step(what, formula, unit string, terms ...Term) Term {
	return s.StepAs(what, formula, placeholders(formula), unit, terms...)
}

// StepAs is Step for a formula whose words are no expression: the expression has a {} for
// each term.
func (s *Sheet) StepAs(what, words, expression, unit string, terms ...Term) Term {
	numbers := fill(expression, terms)
	result := Number(Evaluate(numbers), unit)
	s.write(what, words, numbers, result.String())
	return result
}

// Sum adds terms of one unit; of one term it is that term, with nothing written.
func (s *Sheet) Sum(what, words string, terms ...Term) Term {
	if len(terms) == 1 {
		return terms[0]
	}
	return s.StepAs(what, words, strings.TrimSuffix(strings.Repeat("{} + ", len(terms)), " + "), terms[0].unit, terms...)
}

// Read writes a number that is looked up, not worked out here, and where.
func (s *Sheet) Read(what, source string, t Term) Term {
	s.write(what, source, "", t.String())
	return t
}

// Tell writes a line that ends in words.
func (s *Sheet) Tell(what, how, result string) { s.write(what, how, "", result) }

// Least writes the smaller of two terms of one unit.
func (s *Sheet) Least(what, words string, a, b Term) Term {
	if b.value < a.value {
		a = b
	}
	return s.Read(what, words, a)
}

// Logarithm writes the natural logarithm of a term.
func (s *Sheet) Logarithm(what string, of Term) Term {
	return s.Read(what, "ln", Number(math.Log(of.value), ""))
}

// Exponential writes e to the power of a term, below nothing.
func (s *Sheet) Exponential(what string, of Term) Term {
	return s.Read(what, "e^-x", Number(math.Exp(-of.value), ""))
}

func (s *Sheet) write(what, formula, numbers, result string) {
	s.steps = append(s.steps, report.Step{What: what, Formula: formula, Numbers: numbers, Result: result})
}
