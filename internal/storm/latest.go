package storm

import "brineyard/internal/quantity"

// longBefore is how far back a beginning is looked for that would have been in time.
const longBefore = 7 * 24 * 60 * quantity.Minute

// mostRetried is the length of a course up to which other rules are tried for a later beginning.
const mostRetried = 100

// from tells whether work that begins at another time comes to something, by the best rule, or by one near it.
func (s *searching) from(now quantity.Duration, holds func(*plant, *course) bool) bool {
	rules := []rule{s.rule}
	if len(s.best.steps) <= mostRetried {
		free := s.rule
		free.sequence = nil
		rules = append(append(rules, free), s.near(free)...)
	}
	p := s.begun(now)
	for _, r := range rules {
		c := p.without(s.home)
		if p.follow(c, r); holds(p, c) {
			return true
		}
	}
	return false
}

// latest is when work has to begin at the latest for the same to be down in time, with the last truck back as soon. Where
// some comes late for want of time, it is when work would have had to begin; Now where no beginning would help.
func (s *searching) latest() quantity.Duration {
	p, c, o := s.plant, s.best, s.worth
	now := p.y.r.Now
	if c.batches == 0 && !p.late(c) {
		return p.y.r.Start
	}
	serves := func(at quantity.Duration) bool {
		return s.from(at, func(p *plant, c *course) bool {
			got := p.outcome(c)
			return got.inTimeThan(o) >= 0 && more(got.loaded, o.loaded) >= 0 && more(o.gap, got.gap) >= 0 && got.back <= o.back+1
		})
	}
	lo, hi := now, max(c.lastBack, c.done, p.y.r.Start)
	if p.late(c) {
		all := func(at quantity.Duration) bool {
			return s.from(at, func(p *plant, c *course) bool { return !p.late(c) })
		}
		if !all(now - longBefore) {
			return now
		}
		return halve(now-longBefore, now, all)
	}
	if !serves(now) {
		return now
	}
	return halve(lo, hi, serves)
}

// halve finds the last time for which something still holds, to the minute.
func halve(lo, hi quantity.Duration, holds func(quantity.Duration) bool) quantity.Duration {
	for hi-lo > quantity.Minute/2 {
		if mid := (lo + hi) / 2; holds(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// late tells whether something that there is comes down after its time.
func (p *plant) late(c *course) bool {
	for i := range p.errands {
		if more(p.errands[i].given-c.left[i], c.inTime[i]) > 0 {
			return true
		}
	}
	return false
}
