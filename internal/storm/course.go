package storm

import (
	"math"
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// plant is what does not change while a plan is searched for: what batches take, what the routes are to get, and how the
// yard stands when work begins.
type plant struct {
	y         *stormYard
	runs      []MixerRun
	errands   []errand
	empty     []emptyTank
	flow      quantity.Flow // of loading
	speeds    []quantity.Speed
	priority  []int // of the classes of errands, the first class first
	supply    yard.Supply
	pumpFills bool // the pump draws the water of a batch
	begin     course
}

// errand is what a route is to get in one window of time. Brine, other, dry salt and lanes are for a unit of volume.
type errand struct {
	brine, other float64
	dry, lane    float64 // kg and m for a m3
	bought       int     // of the yard's liquids; -1 for none
	fits         []quantity.Volume
	given        quantity.Volume
	from, by     quantity.Duration
	class        int
}

// course is the yard as far as the plan has come. One pump, one supply, each mixing tank and each truck do one thing at a
// time, in the order of the steps.
type course struct {
	pump, supply quantity.Duration   // free from then on
	level        quantity.Volume     // in the fresh-water tank when the supply is free
	free         []quantity.Duration // the mixing tanks; never while brine stands in them
	held         []quantity.Volume   // that brine
	trucks       []quantity.Duration
	store        store
	salt         quantity.Mass   // for batches
	want         quantity.Volume // brine that is still to be made
	left         []quantity.Volume
	bought       []quantity.Volume // of each liquid
	inTime       []quantity.Volume // of each errand
	batches      int
	loads        int
	lastBack     quantity.Duration
	done         quantity.Duration // the last batch
	steps        []step
}

// step is a batch, a correction, or a load.
type step struct {
	load  bool
	mixer int             // of a batch
	made  quantity.Volume // of it
	// fill to done are the times of a batch; idle is how long the pump waited for it.
	fill, filled, mix, done, idle quantity.Duration
	off, held                     quantity.Volume
	level                         quantity.Volume // in the fresh-water tank when it is filled

	truck, errand    int
	volume           quantity.Volume
	start, out, back quantity.Duration
}

// never is when a mixing tank is free again in which brine stands, or a truck that stays at home.
const never = quantity.Duration(math.MaxFloat64)

// moment is what times are compared to.
const moment = quantity.Duration(1e-6)

// clone copies the course, so that it can go on in another way.
func (c *course) clone() *course {
	d := *c
	d.free, d.held, d.trucks = slices.Clone(c.free), slices.Clone(c.held), slices.Clone(c.trucks)
	d.left, d.bought, d.inTime = slices.Clone(c.left), slices.Clone(c.bought), slices.Clone(c.inTime)
	d.steps = c.steps[:len(c.steps):len(c.steps)]
	return &d
}

// stands is the brine that can be loaded.
func (c *course) stands() quantity.Volume {
	v := c.store.usable
	for _, h := range c.held {
		v += h
	}
	return v
}

// plannedBatch is a batch of so much in a mixing tank, as early as it can be.
func (p *plant) plannedBatch(c *course, mixer int, made quantity.Volume) step {
	run := &p.runs[mixer]
	part := made / run.full()
	water := run.Water * part
	s := step{mixer: mixer, made: made, fill: c.free[mixer], idle: -c.pump, level: c.level}
	if water > 0 {
		s.fill = max(s.fill, c.supply)
		if p.pumpFills {
			s.fill = max(s.fill, c.pump)
		}
		s.level = p.supply.LevelAfter(s.level, 0, 0, s.fill-c.supply)
	}
	s.filled = s.fill + p.supply.FillTimeFrom(s.level, water)
	if water > 0 {
		s.level = p.supply.LevelAfter(s.level, water, s.filled-s.fill, 0)
		if p.pumpFills {
			s.idle -= s.filled - s.fill
		}
	}
	s.mix = max(s.filled, c.pump)
	s.idle += s.mix
	s.done = s.mix + run.Mix
	if run.Fix == nil {
		s.off = min(made, c.store.space(p.empty))
		if s.held = made - s.off; s.held <= 1e-9*made {
			s.off, s.held = made, 0 // rounding
		}
		s.done += s.off.Over(run.Off)
	}
	return s
}

// batch makes a batch, or corrects a tank.
func (p *plant) batch(c *course, s step) {
	run := &p.runs[s.mixer]
	if run.Water > 0 {
		c.level, c.supply = s.level, s.filled
	}
	c.pump, c.done = s.done, max(c.done, s.done)
	c.salt -= run.Salt * quantity.Mass(s.made/run.full())
	c.free[s.mixer] = s.done
	if run.Fix != nil {
		c.store.usable += run.Fix.Usable
		c.store.room += run.Fix.Room
		c.want -= run.Fix.Usable
		c.free[s.mixer] = never
	} else {
		c.want -= s.made - c.store.put(s.off, p.empty)
		if c.held[s.mixer] = s.held; s.held > 0 {
			c.free[s.mixer] = never
		}
		c.batches++
	}
	c.steps = append(c.steps, s)
}

// starts is when a truck can be loaded for an errand.
func (p *plant) starts(c *course, truck, at int) quantity.Duration {
	return max(c.pump, c.trucks[truck], p.errands[at].from)
}

// enough tells whether no more brine is wanted.
func (p *plant) enough(c *course) bool { return c.want <= 1e-9*p.begin.want }

// trip is a load of so much, as early as it can be.
func (p *plant) trip(c *course, truck, at int, v quantity.Volume) step {
	e := &p.errands[at]
	s := step{load: true, truck: truck, errand: at, volume: v, start: p.starts(c, truck, at)}
	s.out = s.start + v.Over(p.flow)
	s.back = s.out + e.road(v, p.speeds[truck])
	return s
}

// road is how long a truck is out with a volume: over its lanes, and as far back.
func (e *errand) road(v quantity.Volume, speed quantity.Speed) quantity.Duration {
	return quantity.Duration(2 * e.lane * float64(v) / float64(speed))
}

// takes is how long a truck is loaded and on the road for a unit of volume.
func (p *plant) takes(e *errand, speed quantity.Speed) float64 {
	return 1/float64(p.flow) + float64(e.road(1, speed))
}

// load sends a truck out. Brine that stands in mixing tanks goes first, so that they are free again.
func (p *plant) load(c *course, s step) {
	e := &p.errands[s.errand]
	brine := s.volume * quantity.Volume(e.brine)
	for i, held := range c.held {
		if held == 0 || brine == 0 {
			continue
		}
		part := min(held, brine)
		brine -= part
		if c.held[i] -= part; c.held[i] <= 1e-9*p.runs[i].full() {
			c.held[i], c.free[i] = 0, s.out
		}
	}
	c.store.take(brine)
	if e.bought >= 0 {
		c.bought[e.bought] = max(0, c.bought[e.bought]-s.volume*quantity.Volume(e.other))
	}
	if c.left[s.errand] -= s.volume; c.left[s.errand] <= 1e-9*e.given {
		c.left[s.errand] = 0
	}
	if s.back <= e.by+moment {
		c.inTime[s.errand] += s.volume
	}
	c.pump, c.trucks[s.truck] = s.out, s.back
	c.lastBack = max(c.lastBack, s.back)
	c.loads++
	c.steps = append(c.steps, s)
}
