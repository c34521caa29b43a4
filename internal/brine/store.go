package brine

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Lot is a volume of a liquid.
type Lot struct {
	Volume quantity.Volume
	Liquid balance.Liquid
}

// StoreRequest asks what lots make together, the first being what the tank holds.
type StoreRequest struct {
	Lots        []Lot
	Temperature quantity.Temperature
	Capacity    quantity.Volume // 0 when not known
	Instrument  gauge.Instrument
	// Target, with With as the strength of what is added, asks how much brings
	// the mix there; 0 for not asked.
	Target, With quantity.Strength
	// Batches asks for the state after each of so many additions of the last lot,
	// instead of one.
	Batches int
}

// Stored is a state of the tank.
type Stored struct {
	Volume quantity.Volume
	Liquid balance.Liquid
}

// StoreResult is what the lots make.
type StoreResult struct {
	Now     Stored
	Density quantity.Density
	Cold    balance.Cold
	Reading float64
	OnScale bool
	// Fits is false when the volume is above a known capacity.
	Fits bool
	// Each is the state after each batch, when that was asked.
	Each []Stored
	// Correction brings it to target, when that was asked.
	Correction *Correction
}

// mostBatches bounds what a table can show.
const mostBatches = 1000

// Store mixes the lots. Errors: InputError.
func Store(r StoreRequest) (StoreResult, error) {
	if err := r.check(); err != nil {
		return StoreResult{}, err
	}
	out := StoreResult{Now: Stored{r.Lots[0].Volume, r.Lots[0].Liquid}}
	var err error
	for i, lot := range r.Lots[1:] {
		times := 1
		if r.Batches > 0 && i == len(r.Lots)-2 {
			times = r.Batches
		}
		for range times {
			if out.Now, err = r.pour(out.Now, lot); err != nil {
				return StoreResult{}, err
			}
			if r.Batches > 0 && i == len(r.Lots)-2 {
				out.Each = append(out.Each, out.Now)
			}
		}
	}
	return out, out.describe(r)
}

// pour adds a lot to what there is, by mass.
func (r StoreRequest) pour(now Stored, lot Lot) (Stored, error) {
	there, err := now.Liquid.Density(r.Temperature)
	if err != nil {
		return Stored{}, err
	}
	coming, err := lot.Liquid.Density(r.Temperature)
	if err != nil {
		return Stored{}, err
	}
	masses := []float64{float64(now.Volume.Mass(there)), float64(lot.Volume.Mass(coming))}
	mixed := balance.Mix("the mix", []balance.Liquid{now.Liquid, lot.Liquid}, masses)
	rho, err := mixed.Density(r.Temperature)
	if err != nil {
		return Stored{}, err
	}
	return Stored{quantity.Mass(masses[0] + masses[1]).Volume(rho), mixed}, nil
}

// describe works out what follows from the mix.
func (s *StoreResult) describe(r StoreRequest) error {
	var err error
	if s.Density, err = s.Now.Liquid.Density(r.Temperature); err != nil {
		return err
	}
	if s.Cold, err = s.Now.Liquid.DissolvesAt(r.Temperature); err != nil {
		return err
	}
	s.Reading, s.OnScale = s.Now.Liquid.Reading(r.Instrument, r.Temperature)
	s.Fits = r.Capacity == 0 || s.Now.Volume <= r.Capacity*(1+1e-12)
	if r.Target == 0 {
		return nil
	}
	return s.correct(r)
}

// correct finds how much of a stronger or weaker batch brings the mix to target.
func (s *StoreResult) correct(r StoreRequest) error {
	if _, plain := s.Now.Liquid.Strength(); !plain {
		return fault.Input(fault.FieldTarget, "a strength in salt means nothing for a blend; allowed: with plain salt brine alone")
	}
	if !s.Fits {
		return fault.Input(fault.FieldCapacity, "the tank is over full with these lots: they come to %v; allowed: smaller lots", s.Now.Volume)
	}
	c, err := Correct(r.Correction(*s))
	if err != nil {
		if input, ok := err.(*fault.InputError); ok && input.Field == fault.FieldStock {
			return fault.Relabel(err, fault.FieldWith)
		}
		return err
	}
	s.Correction = &c
	return nil
}

// Correction is the request that brings the mix to target.
func (r StoreRequest) Correction(s StoreResult) CorrectRequest {
	strength, _ := s.Now.Liquid.Strength()
	return CorrectRequest{
		Volume: s.Now.Volume, Strength: strength, Target: r.Target, Temperature: r.Temperature,
		Capacity: r.Capacity, With: AddStock, Stock: r.With, RockSalt: yard.PureSalt, Instrument: r.Instrument,
	}
}

func (r StoreRequest) check() error {
	if err := fault.CheckTemperature(fault.FieldTemperature, r.Temperature); err != nil {
		return err
	}
	for _, lot := range r.Lots {
		if !(lot.Volume > 0) {
			return fault.Input(fault.FieldParts, "no volume; allowed: above 0")
		}
		if _, err := lot.Liquid.DissolvesAt(r.Temperature); err != nil {
			return err
		}
	}
	switch {
	case r.Batches < 0 || r.Batches > mostBatches:
		return fault.Input(fault.FieldBatches, "allowed: 1 to 1000")
	case r.Batches > 0 && len(r.Lots) < 2:
		return fault.Input(fault.FieldBatches, "there is nothing to add; allowed: with the tank and a batch")
	}
	return nil
}
