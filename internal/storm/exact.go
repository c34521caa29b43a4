package storm

import (
	"math"

	"brineyard/internal/quantity"
)

// Yards up to this size are searched to the end: every order of batches and loads, as far as it can be better than the best.
const (
	exactRuns    = 4
	exactTrucks  = 3
	exactErrands = 4
	// exactNodes bounds that search; beyond it the best so far stands.
	exactNodes = 30_000
)

// branching goes through the orders of batches and loads of a small yard, leaving out what cannot be better.
type branching struct {
	*searching
	nodes  int
	beaten *course // that brings more down in time than the best so far; nil for none
	worth  outcome
}

// exact searches a small yard to the end; proven tells whether it came there.
func (s *searching) exact() (proven bool) {
	if !s.hurried() || len(s.runs) > exactRuns || len(s.speeds) > exactTrucks || len(s.errands) > exactErrands {
		return false
	}
	b := branching{searching: s, worth: s.worth}
	b.branch(s.begin.clone())
	if b.beaten != nil {
		c := b.beaten.clone()
		s.follow(c, s.rule)
		s.best, s.worth = c, s.outcome(c)
	}
	return b.nodes < exactNodes
}

func (b *branching) branch(c *course) {
	if b.nodes++; b.nodes >= exactNodes {
		return
	}
	if o := b.outcome(c); o.inTimeThan(b.worth) > 0 {
		b.beaten, b.worth = c, o
	}
	if !b.promises(c) {
		return
	}
	r, stands := rule{}, c.stands()
	for i := range b.errands {
		for k := range c.trucks {
			if c.left[i] > 0 && b.errands[i].fits[k] > 0 {
				if v := b.loadable(c, r, untilBy, i, k, stands); v > 0 {
					next := c.clone()
					b.load(next, b.trip(c, k, i, v))
					b.branch(next)
				}
			}
		}
	}
	if b.enough(c) {
		return
	}
	for i := range b.runs {
		whole, part := b.batchOf(c, i, false), b.batchOf(c, i, true)
		for _, made := range []quantity.Volume{whole, part} {
			if made > 0 && c.free[i] < never {
				next := c.clone()
				b.batch(next, b.plannedBatch(next, i, made))
				b.branch(next)
			}
			if whole == part {
				break
			}
		}
	}
}

// promises tells whether more than the best may still be down in time: by priority, whatever each truck can carry at its
// quickest, and no more than is left and than the pump can load.
func (b *branching) promises(c *course) bool {
	for class := range b.priority {
		have, best := quantity.Volume(0), quantity.Volume(0)
		left, by, from := quantity.Volume(0), quantity.Duration(0), never
		for i := range b.errands {
			if e := &b.errands[i]; e.class <= class {
				have += c.inTime[i]
				left += c.left[i]
				by, from = max(by, e.by), min(from, e.from)
			}
		}
		for j := range class + 1 {
			best += b.worth.classes[j]
		}
		start := max(c.pump, from)
		could := min(left, quantity.Volume(float64(max(0, by-start))*float64(b.flow)), b.carried(c, class, by, from))
		if d := more(have+could, best); d != 0 {
			return d > 0
		}
	}
	return false
}

// carried is what the trucks can bring out until a time, each where it takes least time for a volume.
func (b *branching) carried(c *course, class int, by, from quantity.Duration) (v quantity.Volume) {
	for k, speed := range b.speeds {
		quickest := math.Inf(1)
		for i := range b.errands {
			if e := &b.errands[i]; e.class <= class && c.left[i] > 0 && e.fits[k] > 0 {
				quickest = min(quickest, b.takes(e, speed))
			}
		}
		v += quantity.Volume(float64(max(0, by-max(c.pump, c.trucks[k], from))) / quickest)
	}
	return v
}
