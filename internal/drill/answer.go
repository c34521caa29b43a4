package drill

import "brineyard/internal/quantity"

// Kind is what sort of answer is asked for.
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

// Answer is the right one.
type Answer struct {
	Kind  Kind
	Value quantity.Quantity // Volume, Mass, Strength or Word
	Words []string          // those to choose from, for KindWord
	// Tolerance is relative for a volume and a weight, a Strength (not a share of
	// one) for a strength, and 0 for a word.
	Tolerance float64
}

const (
	// relative is what densities to three digits and a loader's care leave sure.
	relative = 0.01
	// points is what a percent hydrometer can be read to. A share of the strength
	// would forgive more in strong brine than the band is wide.
	points = quantity.Strength(0.001)
)

// Unit is what a bare number is taken to be in; empty for a word.
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
	return Answer{Kind: KindWord, Value: Word(right), Words: words}
}

// off tells by how much one value differs from another: the difference of
// strengths, else the difference over the other.
func (a Answer) off(from, to quantity.Quantity) float64 {
	if a.Kind == KindStrength {
		return si(from) - si(to)
	}
	return si(from)/si(to) - 1
}

// si is the number behind a quantity that can be an answer.
func si(q quantity.Quantity) float64 {
	switch q := q.(type) {
	case quantity.Volume:
		return float64(q)
	case quantity.Mass:
		return float64(q)
	case quantity.Strength:
		return float64(q)
	}
	return 0
}

// Word is a name, of a tank or a valve, in a sentence of quantities.
type Word string

// In shows the word.
func (w Word) In(quantity.System) quantity.Shown { return quantity.Shown{Words: string(w)} }
