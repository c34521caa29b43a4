package storm

import (
	"cmp"
	"slices"

	"brineyard/internal/quantity"
)

// effort bounds the search, in steps of courses that are followed.
const effort = 20_000

// mostReordered is the number of batches up to which their order is changed.
const mostReordered = 30

// everySubset is the number of trucks up to which every choice of them is tried.
const everySubset = 5

// search looks for the course that brings most down in time. It follows the rules, changes one at a time as long as that
// is better, and then does so without a truck: a slow or small one that would be the last on the road stays at home.
func (p *plant) search() *searching {
	s := &searching{plant: p, orders: p.orders()}
	home := make([]bool, len(p.speeds))
	s.improve(home)
	if n := len(home); n <= everySubset {
		for set := 1; set < 1<<n-1 && s.steps < effort; set++ {
			for k := range home {
				home[k] = set>>k&1 == 1
			}
			s.improve(home)
		}
	} else {
		s.leaveHome(home)
	}
	s.reorder()
	return s
}

// searching is the state of a search.
type searching struct {
	*plant
	orders [][]int
	best   *course
	worth  outcome
	rule   rule   // of the best
	home   []bool // the trucks that it leaves at home
	proven bool
	steps  int
}

// orders are those in which errands are tried: as they are served; those first that take least of a truck's time for a
// volume; and those first that are done soonest.
func (p *plant) orders() [][]int {
	served := make([]int, len(p.errands))
	for i := range served {
		served[i] = i
	}
	sorted := func(key func(*errand) float64) []int {
		order := slices.Clone(served)
		slices.SortStableFunc(order, func(a, b int) int {
			x, y := &p.errands[a], &p.errands[b]
			return cmp.Or(cmp.Compare(x.class, y.class), cmp.Compare(key(x), key(y)))
		})
		return order
	}
	byLane := sorted(func(e *errand) float64 { return e.lane })
	soonest := sorted(func(e *errand) float64 { return e.lane * float64(e.given) })
	return [][]int{served, byLane, soonest}
}

// try follows a rule with the trucks that are not at home, and keeps the course if it is the best.
func (s *searching) try(r rule, home []bool) outcome {
	c := s.without(home)
	s.follow(c, r)
	s.steps += len(c.steps) + 1
	o := s.outcome(c)
	if s.best == nil || o.better(s.worth) {
		s.best, s.worth, s.rule, s.home = c, o, r, slices.Clone(home)
	}
	return o
}

// without is the beginning of a course with some trucks at home.
func (p *plant) without(home []bool) *course {
	c := p.begin.clone()
	for k := range c.trucks {
		if home[k] {
			c.trucks[k] = never
		}
	}
	return c
}

// improve changes one part of the rule at a time as long as that is better.
func (s *searching) improve(home []bool) {
	at := rule{order: s.orders[0], patience: 0.5, least: 1}
	worth := s.try(at, home)
	for again := true; again && s.steps < effort; {
		again = false
		for _, r := range s.near(at) {
			if o := s.try(r, home); o.better(worth) {
				at, worth, again = r, o, true
			}
		}
	}
}

// reorder changes the order of the batches of the best course, one at a time, as long as that is better.
func (s *searching) reorder() {
	for again := true; again && s.steps < effort; {
		again = false
		var sequence []int
		for _, step := range s.best.steps {
			if !step.load {
				sequence = append(sequence, step.mixer)
			}
		}
		for _, next := range changed(sequence, len(s.runs)) {
			if s.steps >= effort {
				return
			}
			before, r := s.worth, s.rule
			r.sequence = next
			s.try(r, s.home)
			if again = s.worth.better(before); again {
				break
			}
		}
	}
}

// changed lists the sequences with one batch left out, in another mixing tank, or after the next.
func changed(sequence []int, mixers int) (all [][]int) {
	if mixers < 2 || len(sequence) > mostReordered {
		return nil
	}
	for i, at := range sequence {
		all = append(all, slices.Delete(slices.Clone(sequence), i, i+1))
		for k := range mixers {
			if k != at {
				next := slices.Clone(sequence)
				next[i] = k
				all = append(all, next)
			}
		}
		if i > 0 {
			next := slices.Clone(sequence)
			next[i], next[i-1] = next[i-1], next[i]
			all = append(all, next)
		}
	}
	return all
}

// near lists the rules that differ from one in one part.
func (s *searching) near(at rule) []rule {
	var all []rule
	with := func(change func(*rule)) {
		r := at
		change(&r)
		all = append(all, r)
	}
	for _, order := range s.orders {
		if !slices.Equal(order, at.order) {
			with(func(r *rule) { r.order = order })
		}
	}
	for _, patience := range []float64{0, 0.5, 1, 2} {
		if patience != at.patience {
			with(func(r *rule) { r.patience = patience })
		}
	}
	for _, by := range []mixerBy{byRate, bySize, bySoon} {
		if by != at.mixer {
			with(func(r *rule) { r.mixer = by })
		}
	}
	with(func(r *rule) { r.least = 1.5 - r.least })
	if s.hurried() {
		with(func(r *rule) { r.fit = !r.fit })
		for _, part := range []float64{0, 0.25, 0.5} {
			if part != at.queued {
				with(func(r *rule) { r.queued = part })
			}
		}
	}
	return all
}

// hurried tells whether anything must be down by a time. Batches are whole unless it is.
func (p *plant) hurried() bool {
	return slices.ContainsFunc(p.errands, func(e errand) bool { return e.by < never })
}

// leaveHome leaves one truck after the other at home, as long as that is better.
func (s *searching) leaveHome(home []bool) {
	for s.steps < effort {
		before, out := s.worth, -1
		for k := range home {
			if home[k] || s.steps >= effort {
				continue
			}
			home[k] = true
			s.improve(home)
			home[k] = false
			if s.worth.better(before) {
				before, out = s.worth, k
			}
		}
		if out < 0 {
			return
		}
		home[out] = true
	}
}

// begun is the course of the plan if work began at another time.
func (p *plant) begun(now quantity.Duration) *plant {
	q := *p
	c := p.begin.clone()
	c.pump, c.supply, c.done, c.lastBack = now, now, now, now
	for i := range c.free {
		c.free[i] = now
	}
	for k := range c.trucks {
		c.trucks[k] = max(now, c.trucks[k])
	}
	q.begin = *c
	return &q
}
