package brine

import (
	"strconv"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/sure"
)

// several is the brine behind several samples of one tank: their mean. What the samples share, the
// instruments' own errors, stays as it is for one: more samples do not narrow it. Their scatter, beyond
// what reading to a mark brings, widens the range. Samples further apart than that and mixing explain
// are not averaged.
func several(s Sample) (ReadingResult, error) {
	if len(s.More) >= sure.MostSamples {
		return ReadingResult{}, fault.Input(fault.FieldReading, "too many samples; allowed: up to %v", fault.Word(strconv.Itoa(sure.MostSamples)))
	}
	all := make([]ReadingResult, 0, 1+len(s.More))
	values := sure.Samples{}
	apparent, degrees := quantity.Strength(0), quantity.Temperature(0)
	n := float64(cap(all))
	for _, shown := range append([]Shown{{s.Reading, s.Temperature}}, s.More...) {
		one := s
		one.Reading, one.Temperature, one.More = shown.Reading, shown.Temperature, nil
		r, err := single(one)
		if err != nil {
			return ReadingResult{}, err
		}
		all = append(all, r)
		values.Values = append(values.Values, float64(r.True))
		values.Half = r.Sure.Of(PartMark)
		apparent += r.Apparent / quantity.Strength(n)
		degrees += r.Temperature / quantity.Temperature(n)
	}
	if apart, allowed := values.Apart(), values.Allowed(); apart > allowed {
		return ReadingResult{}, fault.Input(fault.FieldReading,
			"the samples lie %v apart; nothing was averaged, since reading and mixing explain less; pump the tank round and sample again; allowed: up to %v apart",
			quantity.Strength(apart), quantity.Strength(allowed))
	}
	return s.mean(quantity.Strength(values.Mean()), apparent, degrees, values.Mixing(), all)
}

// mean is the brine of a strength and temperature that several samples have in the mean.
func (s Sample) mean(w, apparent quantity.Strength, t quantity.Temperature, mixing float64, all []ReadingResult) (ReadingResult, error) {
	known, err := balance.Know(fault.FieldReading, w, t)
	if err != nil {
		return ReadingResult{}, err
	}
	s.Temperature = t
	if s.Reading, err = shown(s.Instrument, known.Density, t); err != nil {
		return ReadingResult{}, err
	}
	r := ReadingResult{Known: known, Sample: s, Singles: all}
	mark, _ := s.Instrument.Mark(s.Reading)
	r.describe(mark)
	r.Apparent = apparent
	r.Sure = surenessAt(s.Instrument, s.Thermometer, s.Reading, w, t, known.Density)
	r.Sure.Mixing = mixing
	return r, nil
}
