package storm

import (
	"cmp"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Job is a piece of work on the time line.
type Job struct {
	Kind       JobKind
	What       string // the mixing tank
	Start, End quantity.Duration
	Volume     quantity.Volume
}

// JobKind is what is done. All but filling take the pump.
type JobKind string

// The kinds of jobs.
const (
	JobFill    JobKind = "fill"
	JobMix     JobKind = "mix"
	JobPumpOff JobKind = "pump off"
)

// Production is how the brine that is wanted gets made.
type Production struct {
	Wanted quantity.Volume // beyond what stands in store
	// Swallowed is the part of Wanted that stays below the suctions of empty tanks.
	Swallowed quantity.Volume
	Made      quantity.Volume // by Start
	Batches   int
	Runs      []MixerRun // of the mixing tanks in use
	Jobs      []Job
	Salt      quantity.Mass // as delivered
	Buckets   float64
	Water     quantity.Volume
	DoneAt    quantity.Duration // of the last batch made
	// InMixers is what of it stays in the mixing tanks, since the storage tanks have no
	// room: it is loaded from there.
	InMixers quantity.Volume
	// Latest is when the work has to begin for all that is wanted and can be made to
	// be ready at Start; before Now when it is too late.
	Latest quantity.Duration
	// Shortage is why less can be made than wanted, and Late is set when there is not time
	// enough for what can be made.
	Shortage Shortage
	Late     bool
	// PumpTime is how long the pump works on batches. It waits IdleFirst for the first tank
	// to fill, and IdleLater for later ones.
	PumpTime             quantity.Duration
	IdleFirst, IdleLater quantity.Duration
}

// MixerRun is what a batch of a mixing tank takes.
type MixerRun struct {
	Mixer     yard.Tank
	Fill, Mix quantity.Duration // Fill with a full fresh-water tank, where there is one
	Off       quantity.Flow     // into storage
	Salt      quantity.Mass     // as delivered
	Water     quantity.Volume
	// Holds is finished brine that stays in the mixing tank.
	Holds        quantity.Volume
	Density      quantity.Density // of the brine
	WaterDensity quantity.Density
}

// runs works out what a batch of each mixing tank takes. Masses are those of brine on
// target at the temperature at which volumes are measured, so that they balance.
func (y *stormYard) runs() ([]MixerRun, error) {
	var runs []MixerRun
	salt, target := y.r.Pile.Quality, y.r.Band.Target
	density, water := balance.BrineDensity(target, y.r.Temperature), balance.BrineDensity(0, y.r.Supply.Temperature)
	for _, m := range y.r.Mixers {
		if m.PumpOff == 0 {
			continue
		}
		if y.r.Supply.Flow == 0 {
			return nil, fault.Input(fault.FieldSupply, "without the flow of fresh water no batch can be timed; allowed: above 0")
		}
		mass := m.PumpOff.Mass(density)
		run := MixerRun{Mixer: m, Mix: m.MixTime, Density: density, WaterDensity: water}
		run.Salt = quantity.Mass(float64(mass.Times(target)) / salt.SodiumChloride())
		run.Water = (mass.Times(1-target) - run.Salt.Times(salt.Moisture)).Volume(water)
		run.Fill, run.Off = y.r.Supply.Fed(y.r.Pump.Flow).FillTime(run.Water), y.r.PumpOffFlow(m.Name)
		runs = append(runs, run)
	}
	slices.SortStableFunc(runs, func(a, b MixerRun) int { return cmp.Compare(b.Mixer.PumpOff, a.Mixer.PumpOff) })
	return runs, nil
}

// produce plans batches until there is brine enough, or salt, room or time end.
func (y *stormYard) produce(runs []MixerRun, need quantity.Volume, drySalt quantity.Mass) Production {
	wanted := max(0, need-y.usable())
	p := Production{Wanted: wanted, DoneAt: y.r.Now, Latest: y.r.Start}
	if wanted <= 1e-12 {
		return p
	}
	wanted = y.takes(wanted)
	p.Swallowed, p.Wanted = wanted-p.Wanted, wanted
	if len(runs) == 0 {
		p.Shortage = NoMixer
		return p
	}
	s := search{y: y, runs: runs, wanted: wanted, room: y.room(), pile: max(0, y.r.pile()-drySalt)}
	all, inTime := s.run()
	p.Shortage = s.shortage(all)
	p.Latest = y.r.Start - (all.done - y.r.Now)
	p.Late = min(all.planned, wanted) > min(inTime.planned, wanted)+1e-9*wanted
	p.lay(s, inTime)
	if y.r.Pile.Bucket > 0 {
		p.Buckets = float64(p.Salt / y.r.Pile.Bucket)
	}
	return p
}

// lay puts the batches of a sequence on the time line.
func (p *Production) lay(s search, last *sequence) {
	holds := map[int]quantity.Volume{} // of each mixing tank in use
	for _, b := range last.batches() {
		run := s.runs[b.mixer]
		holds[b.mixer] += b.held
		if wait := b.mix - b.pumpFree; p.Batches == 0 {
			p.IdleFirst += wait
		} else {
			p.IdleLater += wait
		}
		p.PumpTime += b.done - b.mix
		if s.y.pumpFills() {
			p.PumpTime += b.filled - b.fill
		}
		p.Jobs = append(p.Jobs,
			Job{JobFill, run.Mixer.Name, b.fill, b.filled, run.Water},
			Job{JobMix, run.Mixer.Name, b.mix, b.mix + run.Mix, 0})
		if b.off > 0 {
			p.Jobs = append(p.Jobs, Job{JobPumpOff, run.Mixer.Name, b.mix + run.Mix, b.done, b.off})
		}
		p.Batches++
		p.Made += run.Mixer.PumpOff
		p.InMixers += b.held
		p.Salt += run.Salt
		p.Water += run.Water
		p.DoneAt = b.done
	}
	for i, run := range s.runs {
		if held, used := holds[i]; used {
			run.Holds = held
			p.Runs = append(p.Runs, run)
		}
	}
}

// shortage is what ended a sequence before there was enough: the first rule that holds.
func (s *search) shortage(last *sequence) Shortage {
	smallest := slices.MinFunc(s.runs, func(a, b MixerRun) int { return cmp.Compare(a.Salt, b.Salt) }).Salt
	noTank := len(s.y.tanks) == 0
	for _, rule := range []struct {
		holds bool
		why   Shortage
	}{
		{last.planned >= s.wanted-1e-12, NoShortage},
		{last.salt+smallest > s.pile*(1+1e-12), SaltEnds},
		{last.count >= mostStormBatches, TooManyRuns},
		{noTank && s.y.outOfBand > 0, OutOfBand},
		{noTank, NoStorage},
	} {
		if rule.holds {
			return rule.why
		}
	}
	return TanksFull
}
