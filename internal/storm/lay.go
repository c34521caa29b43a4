package storm

import (
	"slices"

	"brineyard/internal/quantity"
)

// lay puts the course that was found on the plan's time line, and does it in the yard.
func (y *stormYard) lay(p *Plan, pl *plant, c *course) {
	pr := &p.Production
	pr.DoneAt, pr.Wanted = c.done, max(0, pl.begin.want)
	used := map[int]bool{}
	for _, s := range c.steps {
		if s.load {
			y.layLoad(p, s)
			continue
		}
		pr.layBatch(&pl.runs[s.mixer], s, pl.pumpFills)
		y.stow(&pl.runs[s.mixer], s)
		used[s.mixer] = true
	}
	for i, run := range pl.runs {
		if used[i] && run.Fix == nil {
			run.Holds = c.held[i]
			pr.InMixers += run.Holds
			pr.Runs = append(pr.Runs, run)
		}
	}
	if y.r.Pile.Bucket > 0 {
		pr.Buckets = float64(pr.Salt / y.r.Pile.Bucket)
	}
	pr.Swallowed = max(0, pr.Made-(pl.begin.want-c.want))
	y.sum(p, pl, c)
}

// layBatch adds a batch, or the correction of a tank.
func (pr *Production) layBatch(run *MixerRun, s step, pumpFills bool) {
	part := s.made / run.full()
	water := run.Water * part
	if pr.Batches == 0 {
		pr.IdleFirst += s.idle
	} else {
		pr.IdleLater += s.idle
	}
	pr.PumpTime += s.done - s.mix
	if pumpFills {
		pr.PumpTime += s.filled - s.fill
	}
	if water > 0 {
		pr.Jobs = append(pr.Jobs, Job{JobFill, run.Mixer.Name, s.fill, s.filled, water})
	}
	pr.Salt += run.Salt * quantity.Mass(part)
	pr.Water += water
	if run.Fix != nil {
		pr.Jobs = append(pr.Jobs, Job{JobCorrect, run.Mixer.Name, s.mix, s.done, 0})
		pr.Corrected = append(pr.Corrected, run.Mixer.Name)
		return
	}
	pr.Jobs = append(pr.Jobs, Job{JobMix, run.Mixer.Name, s.mix, s.mix + run.Mix, 0})
	if s.off > 0 {
		pr.Jobs = append(pr.Jobs, Job{JobPumpOff, run.Mixer.Name, s.mix + run.Mix, s.done, s.off})
	}
	pr.Batches++
	pr.Made += s.made
}

// stow brings what a batch made into store; what has no room stays in the mixing tank.
func (y *stormYard) stow(run *MixerRun, s step) {
	if run.Fix != nil {
		y.correct(run.Mixer.Name)
		return
	}
	y.keep(s.off)
	if s.held > 0 {
		y.hold(run, s.held)
	}
}

// layLoad adds a load, and draws it.
func (y *stormYard) layLoad(p *Plan, s step) {
	r := &p.Routes[s.errand]
	part := s.volume / r.Demanded
	y.draw(r.brine * part)
	if o := r.bought; o != nil {
		taken := min(r.other*part, o.left)
		o.left -= taken
		o.loaded += taken
	}
	p.DrySalt += r.Route.Salt() * quantity.Mass(part)
	r.Served += s.volume
	r.DownAt = max(r.DownAt, s.back)
	if s.back <= r.By+moment {
		r.InTime += s.volume
	}
	if len(y.r.Trucks) > 0 {
		p.Loading.count(TruckLoad{y.r.Trucks[s.truck].Name, r.Route.Name, s.volume, s.start, s.out, s.back}, r.laneOf(s.volume))
	}
}

// laneOf is the length of lanes that a volume serves.
func (r *RoutePlan) laneOf(v quantity.Volume) quantity.Length {
	return r.LaneLength * quantity.Length(v/r.Demanded)
}

// sum adds up what the routes get, and says what each lacks.
func (y *stormYard) sum(p *Plan, pl *plant, c *course) {
	for i := range p.Routes {
		r := &p.Routes[i]
		if r.Served >= r.Given*(1-1e-9) {
			r.Served = r.Given
		}
		if more(r.Served, r.InTime) == 0 {
			r.InTime = r.Served
		}
		switch {
		case r.Served < r.Given:
			r.Lack = Lack{Why: BrineEnds}
		case r.Lack != Lack{}:
		case r.InTime < r.Served:
			r.Lack = Lack{Why: NoTime}
		}
		p.Loaded += r.Served
		p.InTime += r.InTime
		p.Production.Late = p.Production.Late || r.InTime < r.Served
	}
	if p.Short = p.Demanded - p.Loaded; p.Short < 1e-12*p.Demanded {
		p.Short = 0 // rounding
	}
	p.ReserveGap = max(0, y.r.Reserve-y.usable())
	if p.ReserveGap < 1e-9*y.r.Reserve {
		p.ReserveGap = 0
	}
	p.Production.Shortage = pl.shortage(p, c)
}

// shortage is what keeps brine from being made: the first rule that holds.
func (p *plant) shortage(plan *Plan, c *course) Shortage {
	lacks := slices.ContainsFunc(plan.Routes, func(r RoutePlan) bool { return r.Lack.Why == BrineEnds })
	if !lacks && plan.ReserveGap == 0 {
		return NoShortage
	}
	mixers, noSalt, noTank := 0, true, len(p.y.tanks) == 0
	for i, run := range p.runs {
		if run.Fix == nil {
			mixers++
			noSalt = noSalt && p.batchOf(c, i, false) == 0
		}
	}
	for _, rule := range []struct {
		holds bool
		why   Shortage
	}{
		{mixers == 0, NoMixer},
		{noSalt, SaltEnds},
		{c.batches >= mostStormBatches || c.loads >= mostLoads, TooManyRuns},
		{noTank && p.y.outOfBand > 0, OutOfBand},
		{noTank, NoStorage},
	} {
		if rule.holds {
			return rule.why
		}
	}
	return TanksFull
}
