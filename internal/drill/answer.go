package drill

import (
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// Kind is the sort of answer that a question asks for.
type Kind int

// The kinds.
const (
	KindVolume Kind = iota
	KindMass
	KindStrength
	KindWord
)

// String names the kind, for people.
func (k Kind) String() string {
	return [...]string{"volume", "weight", "strength", "word"}[k]
}

// Answer is the right answer.
type Answer struct {
	Kind  Kind
	Value quantity.Quantity // Volume, Mass, Strength or fault.Word
	Words []string          // those to choose from, for KindWord
	// Tolerance is relative for a volume and a weight, a Strength (not a share of
	// one) for a strength, and 0 for a word.
	Tolerance float64
}

const (
	// relative is the tolerance of volumes and weights: densities of three digits and a
	// loader's care are no better.
	relative = 0.01
	// points is the tolerance of strengths: a percent hydrometer is read to a tenth. A share
	// of the strength would allow more in strong brine than the band is wide.
	points = quantity.Strength(0.001)
)

// Unit is the unit of an answer that is typed without one; empty for a word.
func (p Problem) Unit() string {
	if p.Answer.Kind == KindWord {
		return ""
	}
	return p.Answer.Value.In(p.System).Unit
}

func volumeAnswer(v quantity.Volume) Answer {
	return Answer{Kind: KindVolume, Value: v, Tolerance: relative}
}

func massAnswer(m quantity.Mass) Answer {
	return Answer{Kind: KindMass, Value: m, Tolerance: relative}
}

func strengthAnswer(s quantity.Strength) Answer {
	return Answer{Kind: KindStrength, Value: s, Tolerance: float64(points)}
}

func wordAnswer(right string, words []string) Answer {
	return Answer{Kind: KindWord, Value: fault.Word(right), Words: words}
}

// off is the difference of two answers: of strengths as it is, of other quantities as a share
// of the second.
func (a Answer) off(from, to quantity.Quantity) float64 {
	if a.Kind == KindStrength {
		return si(from) - si(to)
	}
	return si(from)/si(to) - 1
}

// si returns a quantity of a sum in SI units; 0 for a word.
func si(q quantity.Quantity) float64 {
	switch q := q.(type) {
	case quantity.Volume:
		return float64(q)
	case quantity.Mass:
		return float64(q)
	case quantity.Strength:
		return float64(q)
	case quantity.Density:
		return float64(q)
	}
	return 0
}
