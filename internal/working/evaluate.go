package working

import (
	"math"
	"strconv"
	"strings"
)

// Evaluate works out an expression of printed numbers, their units left aside: + - x / and
// brackets, x and / before + and -. It is NaN for what is no such expression.
func Evaluate(text string) float64 {
	p := &parser{rest: text}
	value := p.sum()
	if p.skip(); p.rest != "" {
		return math.NaN()
	}
	return value
}

// parser reads an expression from the left.
type parser struct{ rest string }

func (p *parser) skip() { p.rest = strings.TrimLeft(p.rest, " ") }

// next takes an operator, if it is the next thing.
func (p *parser) next(operator string) bool {
	p.skip()
	rest, found := strings.CutPrefix(p.rest, operator)
	if found {
		p.rest = rest
	}
	return found
}

func (p *parser) sum() float64 {
	value := p.product()
	for {
		switch {
		case p.next("+ "):
			value += p.product()
		case p.next("- "):
			value -= p.product()
		default:
			return value
		}
	}
}

func (p *parser) product() float64 {
	value := p.factor()
	for {
		switch {
		case p.next("x "):
			value *= p.factor()
		case p.next("/ "):
			value /= p.factor()
		default:
			return value
		}
	}
}

// factor is a number with the unit behind it, or a sum in brackets.
func (p *parser) factor() float64 {
	if p.next("(") {
		value := p.sum()
		if !p.next(")") {
			return math.NaN()
		}
		return value
	}
	if p.next("-") {
		return -p.factor()
	}
	p.skip()
	end := strings.IndexFunc(p.rest, func(r rune) bool { return r != '.' && (r < '0' || r > '9') })
	if end < 0 {
		end = len(p.rest)
	}
	value, err := strconv.ParseFloat(p.rest[:end], 64)
	p.rest = p.rest[end:]
	if err != nil {
		return math.NaN()
	}
	p.unit()
	return value
}

// unit passes over the unit behind a number: what stands up to the next space that an
// operator follows, or to a bracket.
func (p *parser) unit() {
	for p.rest != "" && p.rest[0] != ')' {
		if p.rest[0] == ' ' && isOperator(p.rest[1:]) {
			return
		}
		p.rest = p.rest[1:]
	}
}

// isOperator reports whether the first word of a text is an operator.
func isOperator(text string) bool {
	word, _, _ := strings.Cut(text, " ")
	return len(word) == 1 && strings.Contains("+-x/", word)
}

// fill puts the terms into the places of an expression.
func fill(expression string, terms []Term) string {
	parts := strings.Split(expression, "{}")
	if len(parts) != len(terms)+1 {
		panic("working: " + strconv.Itoa(len(terms)) + " terms for " + strconv.Quote(expression))
	}
	var b strings.Builder
	for i, part := range parts {
		b.WriteString(part)
		if i < len(terms) {
			b.WriteString(terms[i].String())
		}
	}
	return b.String()
}

// placeholders turns a formula in words into an expression: each name becomes a {}. A name
// goes on over words until an operator or a bracket ends it.
func placeholders(formula string) string {
	var b strings.Builder
	named := false
	for i, word := range strings.Fields(formula) {
		inner := strings.TrimLeft(word, "(")
		opened, inner := word[:len(word)-len(inner)], strings.TrimRight(inner, ")")
		closed := word[len(opened)+len(inner):]
		if named && opened == "" && !isOperator(inner) {
			inner = "" // one more word of the name
		} else if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(opened + placeholder(inner) + closed)
		named = closed == "" && (inner == "" || strings.HasSuffix(placeholder(inner), "}"))
	}
	return b.String()
}

// placeholder is what stands for a word of a formula: operators and numbers stand for
// themselves.
func placeholder(word string) string {
	name, negative := strings.CutPrefix(word, "-")
	switch _, err := strconv.ParseFloat(word, 64); {
	case word == "", isOperator(word), err == nil:
		return word
	case negative && name != "":
		return "-{}"
	}
	return "{}"
}
