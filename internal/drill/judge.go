package drill

import (
	"math"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// Verdict is the judgement of an answer.
type Verdict struct {
	Right bool
	// Given is the answer as it was understood.
	Given quantity.Quantity
	// Off is its difference from the right one: relative for a volume and a weight,
	// the difference (0.01 is one percent point) for a strength, 0 for a word.
	Off float64
	// Mistake is the wrong method that leads to the answer; nil where none is known.
	Mistake *Mistake
}

// Judge judges an answer as it is typed. A bare number is in Unit. Errors: fault.InputError
// for text that is no answer, with the answers that are allowed.
func (p Problem) Judge(text string) (Verdict, error) {
	given, err := p.parse(strings.TrimSpace(text))
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{Given: given}
	if p.Answer.Kind == KindWord {
		v.Right = given == p.Answer.Value
	} else {
		v.Off = p.Answer.off(given, p.Answer.Value)
		v.Right = math.Abs(v.Off) <= p.Answer.Tolerance*(1+1e-9)
	}
	if !v.Right {
		v.Mistake = p.cause(given)
	}
	return v, nil
}

// cause finds the mistake whose answer is nearest, if that is within the tolerance.
func (p Problem) cause(given quantity.Quantity) *Mistake {
	var best *Mistake
	least := p.Answer.Tolerance * (1 + 1e-9)
	for i, m := range p.Mistakes {
		if p.Answer.Kind == KindWord {
			if m.Answer == given {
				return &p.Mistakes[i]
			}
			continue
		}
		if off := math.Abs(p.Answer.off(given, m.Answer)); off <= least {
			best, least = &p.Mistakes[i], off
		}
	}
	return best
}

// parse reads an answer of the kind that is asked for.
func (p Problem) parse(text string) (quantity.Quantity, error) {
	switch p.Answer.Kind {
	case KindWord:
		return p.word(text)
	case KindMass:
		return parseWith(p, text, quantity.ParseMass)
	case KindStrength:
		return parseWith(p, text, quantity.ParseStrength)
	}
	return parseWith(p, text, quantity.ParseVolume)
}

// parseWith gives a bare number the unit of the user's system.
func parseWith[Q quantity.Quantity](p Problem, text string, parse func(string) (Q, bool, error)) (quantity.Quantity, error) {
	text = quantity.Plain(text)
	q, bare, err := parse(text)
	if err == nil && bare {
		q, _, err = parse(text + p.Unit())
	}
	if err != nil {
		return nil, fault.Input(FieldAnswer, strings.ReplaceAll(err.Error(), "%", "%%"))
	}
	return q, nil
}

// word finds one of the words, whatever the case of its letters.
func (p Problem) word(text string) (quantity.Quantity, error) {
	for _, same := range []func(a, b string) bool{func(a, b string) bool { return a == b }, strings.EqualFold} {
		for _, w := range p.Answer.Words {
			if same(w, text) {
				return fault.Word(w), nil
			}
		}
	}
	return nil, fault.Input(FieldAnswer, "none of the answers; allowed: %v", fault.Word(words.Joined(p.Answer.Words, "none")))
}
