package brine

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// NightMargin is by how much (K) a tank has to stay above the temperature at which something
// forms in it before it counts as clear: 5 F for what a forecast and a reading may be off by.
// Common practice, no source.
const NightMargin = quantity.Difference(5 / 1.8)

// NightRequest asks what one cold night does to every tank of a yard.
type NightRequest struct {
	Tanks []NightTank
	// Low is how cold it gets; 0 for not asked.
	Low quantity.Temperature
}

// NightTank is what stands in a tank. Low and High are the range of the strength of plain brine
// as it was read; both 0 where it was not.
type NightTank struct {
	Name      string
	Liquid    balance.Liquid
	Low, High quantity.Strength
}

// Night is what the cold does to one tank.
type Night struct {
	Tank NightTank
	// First is what forms first, at the warm side of what is known of the strength and of published
	// data. Where it is not Found, nothing forms down to its temperature, and what comes below is not known.
	First solution.Onset
	// Margin is by how much the low stays above First; 0 where no low was asked.
	Margin quantity.Difference
	State  NightState
	Cause  NightCause // where the State is NightForms
}

// NightState says how a tank comes through a night.
type NightState int

// The states, from the best to the worst.
const (
	NightClear   NightState = iota // by NightMargin and more
	NightClose                     // by less, or at no more than an end of what is known of the liquid
	NightForms                     // ice or salt, in the liquid as it was read
	NightUnknown                   // no solution that the model knows, so nothing can be said
)

// NightCause is why something forms, which tells what is done about it.
type NightCause int

// The causes.
const (
	NightOther     NightCause = iota // no plain brine
	NightTooWeak                     // ice that a stronger brine would not form
	NightTooStrong                   // salt that a weaker brine would hold
	NightTooCold                     // below the eutectic of NaCl and water, where no plain brine is all liquid
)

// Nights answers for each tank, in the order of the request: one that cannot be judged leaves
// the others their answers. Errors: InputError for a low outside the model.
func Nights(r NightRequest) ([]Night, error) {
	if r.Low != 0 {
		if err := inModel(r.Low); err != nil {
			return nil, err
		}
	}
	nights := make([]Night, 0, len(r.Tanks))
	for _, t := range r.Tanks {
		nights = append(nights, t.night(r.Low))
	}
	return nights, nil
}

func (t NightTank) night(low quantity.Temperature) Night {
	read, err := warmSide(t.Liquid)
	n := Night{Tank: t, First: read}
	if err == nil {
		n.First, err = t.worst(read)
	}
	switch {
	case err != nil:
		n.State = NightUnknown
	case low != 0:
		n.Margin = quantity.Difference(float64(low) - n.First.Temperature)
		n.State = stateOf(n.Margin, n.First.Found)
	}
	if n.State == NightForms && float64(low) > read.Temperature {
		n.State = NightClose // only an end of the range would
	}
	if n.State == NightForms {
		n.Cause = t.cause(read, low)
	}
	return n
}

// cause says why something forms in the liquid at a temperature.
func (t NightTank) cause(first solution.Onset, low quantity.Temperature) NightCause {
	if _, plain := t.Liquid.Strength(); !plain {
		return NightOther
	}
	_, eutectic, _, err := solution.Anchored().Eutectic(solution.NaCl)
	switch {
	case err != nil || float64(low) <= eutectic:
		return NightTooCold
	case first.Solid == solution.Ice:
		return NightTooWeak
	}
	return NightTooStrong
}

// stateOf judges a margin over what is found, or over the end of what is known.
func stateOf(margin quantity.Difference, found bool) NightState {
	switch {
	case margin <= 0 && found:
		return NightForms
	case margin < NightMargin && (found || margin < 0):
		return NightClose
	}
	return NightClear
}

// worst is the warmest of what forms in the liquid as it was read, and at either end of its range.
func (t NightTank) worst(read solution.Onset) (solution.Onset, error) {
	if t.High == 0 {
		return read, nil
	}
	warmest := read
	for _, w := range []quantity.Strength{t.Low, t.High} {
		o, err := warmSide(balance.SaltBrine(w))
		if err != nil {
			return o, err
		}
		if o.Found && (!warmest.Found || o.Temperature > warmest.Temperature) {
			warmest = o
		}
	}
	return warmest, nil
}

// warmSide is what forms first in a liquid; of an estimated ice point, its warm bound.
func warmSide(l balance.Liquid) (solution.Onset, error) {
	c, err := l.Dissolves()
	if err != nil {
		return solution.Onset{}, err
	}
	switch first := c.First(); {
	case c.Beyond:
		return solution.Onset{Solid: solution.Ice, Temperature: c.Ice.Temperature}, nil
	case c.Estimated:
		return solution.Onset{Solid: solution.Ice, Temperature: c.IceHigh, Found: true}, nil
	case first.Found:
		return first, nil
	}
	return solution.Onset{Solid: solution.Ice, Temperature: solution.Floor}, nil
}
