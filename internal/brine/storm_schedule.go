package brine

import (
	"math"
	"sort"

	"brineyard/internal/quantity"
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
	Fill    JobKind = "fill"
	Mixing  JobKind = "mix"
	PumpOff JobKind = "pump off"
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
	// Latest is when the work has to begin for all that is wanted and can be made to
	// be ready at Start; before Now when it is too late.
	Latest quantity.Duration
	// Limit is why less is made than wanted: "salt", "room", "time", "no mixing tank";
	// empty when all is made.
	Limit string
	// PumpTime is what the pump works on batches; Idle what it waits until the last is
	// done: for the first tank to fill, and for later ones.
	PumpTime             quantity.Duration
	IdleFirst, IdleLater quantity.Duration
}

// MixerRun is what a batch of a mixing tank takes.
type MixerRun struct {
	Mixer     StormMixer
	Fill, Mix quantity.Duration
	Salt      quantity.Mass // as delivered
	Water     quantity.Volume
	// The densities that this is reckoned with.
	Density, WaterDensity quantity.Density
}

// produce schedules batches until there is brine enough, or salt, room or time end.
// It tries each choice of mixing tanks and keeps the one that makes most by Start,
// then the one done first.
func (y *stormYard) produce(need quantity.Volume, drySalt quantity.Mass) (Production, error) {
	wanted := max(0, need-y.usable())
	p := Production{Wanted: wanted, DoneAt: y.r.Now, Latest: y.r.Start}
	if wanted <= 0 {
		return p, nil
	}
	runs, err := y.runs()
	if err != nil {
		return p, err
	}
	if len(runs) == 0 {
		p.Limit = "no mixing tank"
		return p, nil
	}
	best, found := Production{}, false
	for choice := 1; choice < 1<<len(runs); choice++ {
		var use []MixerRun
		for i, r := range runs {
			if choice&(1<<i) != 0 {
				use = append(use, r)
			}
		}
		if q := y.schedule(use, wanted, max(0, y.r.Plant.Pile-drySalt)); !found || betterRun(q, best) {
			best, found = q, true
		}
	}
	for _, j := range best.Jobs {
		if j.Kind == PumpOff {
			y.store(j.Volume)
		}
	}
	return best, nil
}

// betterRun prefers more made in time, then being done sooner.
func betterRun(a, b Production) bool {
	va, vb := min(a.Made, a.Wanted), min(b.Made, b.Wanted)
	if math.Abs(float64(va-vb)) > 1e-9 {
		return va > vb
	}
	return a.DoneAt < b.DoneAt
}

// mostMixers bounds the choices of mixing tanks: the largest are kept.
const mostMixers = 6

// runs works out what a batch of each mixing tank takes. Masses are those of brine on
// target at the temperature at which volumes are measured, so that they balance.
func (y *stormYard) runs() ([]MixerRun, error) {
	var runs []MixerRun
	salt := y.r.Plant.RockSalt
	water, err := brineDensity(0, y.r.Plant.WaterTemp)
	if err != nil {
		return nil, err
	}
	for _, m := range y.r.Mixers {
		if m.PumpOff == 0 {
			continue
		}
		if y.r.Plant.Supply == 0 {
			return nil, bad(FieldSupply, "without the flow of fresh water no batch can be timed; allowed: above 0")
		}
		mass := m.PumpOff.Mass(y.density)
		run := MixerRun{Mixer: m, Mix: m.MixTime, Density: y.density, WaterDensity: water}
		run.Salt = quantity.Mass(float64(mass.Times(y.r.Band.Target)) / salt.SodiumChloride())
		run.Water = (mass.Times(1-y.r.Band.Target) - run.Salt.Times(salt.Moisture)).Volume(water)
		run.Fill = run.Water.Over(y.r.Plant.Supply)
		runs = append(runs, run)
	}
	sort.SliceStable(runs, func(i, j int) bool { return runs[i].Mixer.PumpOff > runs[j].Mixer.PumpOff })
	return runs[:min(len(runs), mostMixers)], nil
}

// mostStormBatches bounds a plan: no pile of salt makes more.
const mostStormBatches = 5000

// schedule lays batches on the time line: one supply fills one tank at a time, one
// pump mixes a tank and pumps it off before it turns to the next. The next batch is
// always the one that will be done first.
func (y *stormYard) schedule(runs []MixerRun, wanted quantity.Volume, pile quantity.Mass) Production {
	p := Production{Wanted: wanted, Runs: runs, DoneAt: y.r.Now}
	free := make([]quantity.Duration, len(runs))
	for i := range free {
		free[i] = y.r.Now
	}
	supply, pump := y.r.Now, y.r.Now
	room, planned, lastDone := y.room(), quantity.Volume(0), y.r.Now
	saltPlanned := quantity.Mass(0)
	for range mostStormBatches {
		if planned >= wanted-1e-12 {
			break
		}
		at, done := -1, quantity.Duration(math.Inf(1))
		limit := ""
		for i, r := range runs {
			switch {
			case saltPlanned+r.Salt > pile*(1+1e-12):
				limit = "salt"
			case room-planned <= 1e-9*r.Mixer.PumpOff:
				limit = "room"
			default:
				filled := max(free[i], supply) + r.Fill
				off := min(r.Mixer.PumpOff, room-planned).Over(y.r.Plant.Pump)
				if end := max(filled, pump) + r.Mix + off; end < done {
					at, done = i, end
				}
			}
		}
		if at < 0 {
			p.Limit = limit
			break
		}
		r := runs[at]
		fill := max(free[at], supply)
		mix := max(fill+r.Fill, pump)
		off := min(r.Mixer.PumpOff, room-planned) // what does not fit stays in the mixer
		planned += off
		saltPlanned += r.Salt
		lastDone = done
		if done <= y.r.Start+1e-6 {
			p.batch(r, off, fill, mix, pump, done)
		}
		free[at], supply, pump = done, fill+r.Fill, done
	}
	if p.Made < planned-1e-12 {
		p.Limit = "time"
	}
	if y.r.Plant.Bucket > 0 {
		p.Buckets = float64(p.Salt / y.r.Plant.Bucket)
	}
	p.Latest = y.r.Start - (lastDone - y.r.Now)
	return p
}

// batch puts a batch on the time line, of which off is pumped off.
func (p *Production) batch(r MixerRun, off quantity.Volume, fill, mix, pumpFree, done quantity.Duration) {
	if wait := mix - pumpFree; p.Batches == 0 {
		p.IdleFirst += wait
	} else {
		p.IdleLater += wait
	}
	p.PumpTime += done - mix
	p.Jobs = append(p.Jobs,
		Job{Fill, r.Mixer.Name, fill, fill + r.Fill, r.Water},
		Job{Mixing, r.Mixer.Name, mix, mix + r.Mix, 0},
		Job{PumpOff, r.Mixer.Name, mix + r.Mix, done, off})
	p.Batches++
	p.Made += off
	p.Salt += r.Salt
	p.Water += r.Water
	p.DoneAt = done
}
