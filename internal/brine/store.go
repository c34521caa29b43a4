package brine

import (
	"cmp"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/sure"
	"brineyard/internal/yard"
)

// Lot is a volume of a liquid.
type Lot struct {
	Volume quantity.Volume
	Liquid balance.Liquid
	// VolumeHalf is how far Volume may be off either way, spread evenly, and StrengthHalf the half-width
	// of the range of a brine's strength; 0 where nothing was measured.
	VolumeHalf   quantity.Volume
	StrengthHalf quantity.Strength
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
	// Sure is what makes the strength of plain salt brine unsure, in mass fraction, and Range the
	// strengths that hold the true one 95 times in 100.
	Sure  sure.Budget
	Range Span[quantity.Strength]
	// Fits is false when the volume is above a known capacity.
	Fits bool
	// Each is the state after each batch, when that was asked.
	Each []Stored
	// Correction brings it to target; Corrected tells whether that was asked.
	Correction Correction
	Corrected  bool
}

// mostBatches bounds what a table can show.
const mostBatches = 1000

// Store mixes the lots. Errors: InputError.
func Store(r StoreRequest) (StoreResult, error) {
	if err := r.check(); err != nil {
		return StoreResult{}, err
	}
	var out StoreResult
	var tank balance.Vessel
	for i, lot := range r.Lots {
		poured, err := balance.Fill(lot.Liquid, lot.Volume, r.Temperature)
		batches := 0
		if i == len(r.Lots)-1 {
			batches = r.Batches
		}
		for range max(1, batches) {
			tank.Add(poured.Liquid, poured.Mass)
			if i > 0 {
				tank.Liquid.Name = "the mix"
			}
			if err := cmp.Or(err, out.take(tank, r.Temperature)); err != nil {
				return StoreResult{}, err
			}
			if batches > 0 {
				out.Each = append(out.Each, out.Now)
			}
		}
	}
	if err := out.spread(r); err != nil {
		return StoreResult{}, err
	}
	return out, out.describe(r)
}

// spread finds how well the strength of the mix is known: each lot's strength goes in by its share of the
// weight, and its volume by how far it lies from the mix.
func (s *StoreResult) spread(r StoreRequest) error {
	w, plain := s.Now.Liquid.Strength()
	s.Range = Span[quantity.Strength]{Low: w, High: w}
	if !plain {
		return nil
	}
	all := s.Now.Volume.Mass(s.Density)
	for i, lot := range r.Lots {
		rho, err := lot.Liquid.Density(r.Temperature)
		own, brine := lot.Liquid.Strength()
		if err != nil || !brine {
			return err
		}
		times := quantity.Mass(1)
		if i == len(r.Lots)-1 {
			times = quantity.Mass(max(1, r.Batches))
		}
		share := float64(times * lot.Volume.Mass(rho) / all)
		s.Sure.Mixing = math.Hypot(s.Sure.Mixing, share*float64(lot.StrengthHalf))
		off := share * float64(lot.VolumeHalf/lot.Volume) * math.Abs(float64(own-w))
		s.Sure = s.Sure.And(sure.Part{Name: PartStick, Half: off})
	}
	s.Range = around(w, quantity.Strength(s.Sure.Half()), 0, solution.MaxSolute)
	return nil
}

// Volumes is the range of the mix's volume, as far as a stick leaves that of the lots open.
func (s StoreResult) Volumes(r StoreRequest) (low, high quantity.Volume) {
	var stick sure.Budget
	for _, lot := range r.Lots {
		stick = stick.And(sure.Part{Name: PartStick, Half: float64(lot.VolumeHalf)})
	}
	half := quantity.Volume(stick.Half())
	return s.Now.Volume - half, s.Now.Volume + half
}

// take notes what stands in the tank.
func (s *StoreResult) take(tank balance.Vessel, t quantity.Temperature) error {
	var err error
	s.Density, err = tank.Density(t)
	s.Now = Stored{tank.Mass.Volume(s.Density), tank.Liquid}
	return err
}

// describe works out what follows from the mix.
func (s *StoreResult) describe(r StoreRequest) error {
	var err error
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
	strength, plain := s.Now.Liquid.Strength()
	if err := cmp.Or(
		fault.If(!plain, fault.FieldTarget, "a strength in salt means nothing for a blend; allowed: with plain salt brine alone"),
		fault.If(!s.Fits, fault.FieldCapacity, "the tank is over full with these lots: they come to %v; allowed: smaller lots", s.Now.Volume),
	); err != nil {
		return err
	}
	mix := balance.Known{Strength: strength, Temperature: r.Temperature, Density: s.Density, Freezing: s.Cold.Freezing}
	var err error
	s.Correction, err = CorrectKnown(r.Correction(*s), mix)
	s.Corrected = err == nil
	if input, ok := err.(*fault.InputError); ok && input.Field == fault.FieldStock {
		return fault.Relabel(err, fault.FieldWith)
	}
	return err
}

// Correction is the request that brings the mix to target.
func (r StoreRequest) Correction(s StoreResult) CorrectRequest {
	strength, _ := s.Now.Liquid.Strength()
	return CorrectRequest{
		Volume: s.Now.Volume, Strength: strength, Target: r.Target, Temperature: r.Temperature,
		Capacity: r.Capacity, With: AddStock, Stock: r.With, RockSalt: yard.PureSalt(), Instrument: r.Instrument,
		Sure: s.Sure, VolumeHalf: r.Lots[0].VolumeHalf,
	}
}

func (r StoreRequest) check() error {
	if err := fault.CheckTemperature(fault.FieldTemperature, r.Temperature); err != nil {
		return err
	}
	for _, lot := range r.Lots {
		_, err := lot.Liquid.DissolvesAt(r.Temperature)
		if err := cmp.Or(fault.If(!(lot.Volume > 0), fault.FieldParts, "no volume; allowed: above 0"), err); err != nil {
			return err
		}
	}
	return cmp.Or(
		fault.If(r.Batches < 0 || r.Batches > mostBatches, fault.FieldBatches, "allowed: 1 to 1000"),
		fault.If(r.Batches > 0 && len(r.Lots) < 2, fault.FieldBatches, "there is nothing to add; allowed: with the tank and a batch"),
	)
}
