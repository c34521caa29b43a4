package storm

import (
	"cmp"
	"math"

	"brineyard/internal/quantity"
)

// rule decides what the pump does next.
type rule struct {
	order []int   // of the errands: of loads that can start at the same time the first goes
	mixer mixerBy // which mixing tank is next
	// sequence is the mixing tanks in order, as far as it goes; then mixer decides.
	sequence []int
	// patience is the part of a batch by which a truck may be kept waiting for it; above 1 the pump even waits for water.
	patience float64
	least    float64 // part of a load with which a truck leaves when there is no more brine yet
	fit      bool    // the last batch is as small as it may be
	// queued is the part of a load with which a truck leaves while another waits at the pump; 0 for a whole load.
	queued float64
}

// mixerBy is how the next mixing tank is chosen.
type mixerBy int

const (
	byRate mixerBy = iota // most brine for the pump's time
	bySize
	bySoon
)

const (
	// mostStormBatches bounds a plan: no pile of salt makes more.
	mostStormBatches = 2000
	// mostLoads bounds the work for a truck that carries next to nothing.
	mostLoads = 20000
	// handling is what a batch costs the yard beyond the pump's time: a plan with fewer
	// batches is taken if it is done no more than this later for each one saved. Common
	// practice, no source.
	handling = 15 * quantity.Minute
	// leastBatch is the part of a mixing tank's batch below which none is mixed. Common practice, no source.
	leastBatch = 0.02
	// leastLoad is the part of what a truck carries for which it is not sent out, unless that is all that is left.
	leastLoad = 0.02
)

// stage is what loads are for.
type stage int

const (
	untilBy  stage = iota // those that are down in time, if in part
	late                  // the rest
	scraping              // with what brine there is, where no more can come before it is gone
)

// follow goes on with a course until all is out, or no more can be had.
func (p *plant) follow(c *course, r rule) {
	for at := untilBy; at <= scraping; {
		for len(r.order) > 0 && c.left[r.order[0]] <= 0 {
			r.order = r.order[1:] // all out
		}
		load, loads := p.nextLoad(c, r, at)
		batch, batches := p.nextBatch(c, r)
		if at == untilBy {
			batches = batches && p.serves(c, r, batch.done)
		}
		wait := quantity.Duration((1 - r.patience) * float64(batch.done-batch.mix))
		switch {
		case c.loads >= mostLoads:
			return
		case batches && at < scraping && (!loads || batch.mix+wait <= load.start):
			p.batch(c, batch)
		case loads:
			p.load(c, load)
			if at == scraping {
				at = untilBy // a mixing tank may be free again
			}
		default:
			at++
		}
	}
}

// serves tells whether brine that is done at a time can still be down in time.
func (p *plant) serves(c *course, r rule, done quantity.Duration) bool {
	for _, i := range r.order {
		if e := &p.errands[i]; c.left[i] > 0 && e.brine > 0 && e.by > done {
			return true
		}
	}
	return len(r.order) == 0
}

// nextLoad is the load that can start first, and of those the one for the errand that comes first.
func (p *plant) nextLoad(c *course, r rule, at stage) (best step, found bool) {
	stands, soonest := c.stands(), never
	for _, free := range c.trucks {
		soonest = min(soonest, free)
	}
	soonest = max(soonest, c.pump)
	best.start = never
	for _, i := range r.order {
		if c.left[i] <= 0 || best.start <= max(soonest, p.errands[i].from) {
			if best.start <= soonest {
				break
			}
			continue
		}
		for k := range c.trucks {
			if p.errands[i].fits[k] <= 0 || p.starts(c, k, i) >= best.start {
				continue
			}
			if v := p.loadable(c, r, at, i, k, stands); v > 0 {
				best, found = p.trip(c, k, i, v), true
			}
		}
	}
	return best, found
}

// loadable is what truck k can take for an errand now; 0 for nothing.
func (p *plant) loadable(c *course, r rule, at stage, i, k int, stands quantity.Volume) quantity.Volume {
	e := &p.errands[i]
	wanted := min(c.left[i], e.fits[k])
	if r.queued > 0 && p.waits(c, k) {
		wanted = min(wanted, e.fits[k]*quantity.Volume(r.queued))
	}
	v := min(wanted, p.there(c, i, stands))
	least := r.least * float64(wanted)
	if at == scraping {
		least = 0
	}
	if float64(v) < least*(1-1e-9) {
		return 0
	}
	if at == untilBy && e.by < never {
		v = min(v, p.inTime(c, i, k))
	}
	if v < min(leastLoad*e.fits[k], wanted) && (at < scraping || v <= 1e-6*e.given) {
		return 0
	}
	return v
}

// waits tells whether another truck than k stands at the pump.
func (p *plant) waits(c *course, k int) bool {
	for other, free := range c.trucks {
		if other != k && free <= max(c.pump, c.trucks[k]) {
			return true
		}
	}
	return false
}

// there is for how much of an errand the liquids stand ready. Brines of two strengths shrink a little in one tank, which
// is no shortage.
func (p *plant) there(c *course, i int, stands quantity.Volume) quantity.Volume {
	e, v := &p.errands[i], quantity.Volume(math.Inf(1))
	if e.brine > 0 {
		v = (stands + 1e-9*e.given) / quantity.Volume(e.brine)
	}
	if e.bought >= 0 && e.other > 0 {
		v = min(v, (c.bought[e.bought]+1e-9*e.given)/quantity.Volume(e.other))
	}
	return v
}

// inTime is the load with which truck k is back by the errand's time.
func (p *plant) inTime(c *course, i, k int) quantity.Volume {
	e := &p.errands[i]
	return quantity.Volume(float64(e.by-p.starts(c, k, i)) / p.takes(e, p.speeds[k]))
}

// nextBatch is the next batch, where more brine is wanted and can be made.
func (p *plant) nextBatch(c *course, r rule) (best step, found bool) {
	if p.enough(c) || c.batches >= mostStormBatches {
		return best, false
	}
	if c.batches < len(r.sequence) {
		if i := r.sequence[c.batches]; c.free[i] < never {
			if made := p.batchOf(c, i, r.fit); made > 0 {
				return p.plannedBatch(c, i, made), true
			}
		}
	}
	var bestKey float64
	for i := range p.runs {
		made := p.batchOf(c, i, r.fit)
		if made == 0 || c.free[i] == never {
			continue
		}
		s := p.plannedBatch(c, i, made)
		key := float64(s.done)
		switch r.mixer {
		case byRate:
			key = float64(s.done-min(c.pump, s.mix)) / float64(made)
		case bySize:
			key = -float64(made)
		}
		if !found || cmp.Less(key, bestKey) {
			best, bestKey, found = s, key, true
		}
	}
	return best, found
}

// batchOf is how much a batch of a mixing tank makes: a whole batch, or what the salt is enough for, or what is wanted; 0
// for a batch too small to mix.
func (p *plant) batchOf(c *course, i int, fit bool) quantity.Volume {
	run := &p.runs[i]
	full := run.full()
	made := full
	if run.Salt > 0 {
		made = min(full, full*quantity.Volume((c.salt+1e-12*run.Salt)/run.Salt))
	}
	if run.Fix != nil {
		if made < full {
			return 0
		}
		return full
	}
	if fit {
		made = min(made, c.want)
	}
	if made < leastBatch*full {
		return 0
	}
	return made
}
