package storm

import (
	"math"
	"sort"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Job is a piece of work on the time line.
type Job struct {
	Kind       JobKind
	What       string // tank, truck
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

// Shortage is what ends production before there is enough, however much time there is.
type Shortage string

// The limits.
const (
	NoShortage  Shortage = ""
	SaltEnds    Shortage = "salt"
	TanksFull   Shortage = "room"
	NoMixer     Shortage = "no mixing tank"
	NoStorage   Shortage = "no storage tank"
	OutOfBand   Shortage = "out of band" // the only tanks for it
	TooManyRuns Shortage = "batches"     // more than a plan holds
)

// Production is how the brine that is wanted gets made.
type Production struct {
	Wanted  quantity.Volume // beyond what stands in store
	Made    quantity.Volume // by Start
	Batches int
	Runs    []MixerRun // of the mixing tanks in use
	Jobs    []Job
	Salt    quantity.Mass // as delivered
	Buckets float64
	Water   quantity.Volume
	DoneAt  quantity.Duration // of the last batch made
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
	// PumpTime is what the pump works on batches; Idle what it waits until the last is
	// done: for the first tank to fill, and for later ones.
	PumpTime             quantity.Duration
	IdleFirst, IdleLater quantity.Duration
}

// MixerRun is what a batch of a mixing tank takes.
type MixerRun struct {
	Mixer     yard.Tank
	Fill, Mix quantity.Duration
	Salt      quantity.Mass // as delivered
	Water     quantity.Volume
	// Holds is finished brine that stays in the mixing tank.
	Holds quantity.Volume
	// The densities that this is reckoned with.
	Density, WaterDensity quantity.Density
}

// runs works out what a batch of each mixing tank takes. Masses are those of brine on
// target at the temperature at which volumes are measured, so that they balance.
func (y *stormYard) runs() ([]MixerRun, error) {
	var runs []MixerRun
	salt := y.r.Plant.RockSalt
	water := balance.BrineDensity(0, y.r.Plant.WaterTemp)
	for _, m := range y.r.Mixers {
		if m.PumpOff == 0 {
			continue
		}
		if y.r.Plant.Supply == 0 {
			return nil, fault.Input(fault.FieldSupply, "without the flow of fresh water no batch can be timed; allowed: above 0")
		}
		mass := m.PumpOff.Mass(y.density)
		run := MixerRun{Mixer: m, Mix: m.MixTime, Density: y.density, WaterDensity: water}
		run.Salt = quantity.Mass(float64(mass.Times(y.r.Band.Target)) / salt.SodiumChloride())
		run.Water = (mass.Times(1-y.r.Band.Target) - run.Salt.Times(salt.Moisture)).Volume(water)
		run.Fill = run.Water.Over(y.r.Plant.Supply)
		runs = append(runs, run)
	}
	sort.SliceStable(runs, func(i, j int) bool { return runs[i].Mixer.PumpOff > runs[j].Mixer.PumpOff })
	return runs, nil
}

// produce plans batches until there is brine enough, or salt, room or time end.
func (y *stormYard) produce(runs []MixerRun, need quantity.Volume, drySalt quantity.Mass) Production {
	wanted := max(0, need-y.usable())
	p := Production{Wanted: wanted, DoneAt: y.r.Now, Latest: y.r.Start}
	switch {
	case wanted <= 1e-12:
		return p
	case len(runs) == 0:
		p.Shortage = NoMixer
		return p
	}
	s := search{y: y, runs: runs, wanted: wanted, room: y.room(), pile: max(0, y.r.Plant.Pile-drySalt)}
	all, inTime := s.run()
	p.Shortage = s.limit(all)
	p.Latest = y.r.Start - (all.done - y.r.Now)
	p.Late = min(all.planned, wanted) > min(inTime.planned, wanted)+1e-9*wanted
	p.lay(s, inTime)
	if y.r.Plant.Bucket > 0 {
		p.Buckets = float64(p.Salt / y.r.Plant.Bucket)
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
		p.Jobs = append(p.Jobs,
			Job{JobFill, run.Mixer.Name, b.fill, b.fill + run.Fill, run.Water},
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

// limit is what ended a sequence before there was enough.
func (s *search) limit(last *sequence) Shortage {
	smallest := math.Inf(1)
	for _, run := range s.runs {
		smallest = math.Min(smallest, float64(run.Salt))
	}
	switch {
	case last.planned >= s.wanted-1e-12:
		return NoShortage
	case float64(last.salt)+smallest > float64(s.pile)*(1+1e-12):
		return SaltEnds
	case last.count >= mostStormBatches:
		return TooManyRuns
	case len(s.y.tanks) == 0 && s.y.outOfBand > 0:
		return OutOfBand
	case len(s.y.tanks) == 0:
		return NoStorage
	}
	return TanksFull
}
