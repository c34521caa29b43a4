package storm

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/quantity"
)

// search looks for the order of batches: one supply fills one mixing tank at a time,
// and one pump mixes a batch and pumps it off before it turns to the next. It goes on
// from the most promising beginnings of each length, since to try every order would
// take longer than to make the brine.
type search struct {
	y            *stormYard
	runs         []MixerRun
	wanted, room quantity.Volume
	pile         quantity.Mass
	most         []int // batches of each run; nil for as many as it takes
}

const (
	// mostStormBatches bounds a plan: no pile of salt makes more.
	mostStormBatches = 2000
	// width is how many beginnings of one length are kept.
	width = 24
	// handling is what a batch costs the yard beyond the pump's time: a plan with fewer
	// batches is taken if it is done no more than this later for each one saved. Common
	// practice, no source.
	handling = 15 * quantity.Minute
)

// never is when a mixing tank is free again that keeps brine until trucks have taken it.
const never = quantity.Duration(math.MaxFloat64)

// sequence is a row of batches, the last of which is here.
type sequence struct {
	before  *sequence
	count   int
	planned quantity.Volume // all that is made
	stored  quantity.Volume // of it, what went to storage
	salt    quantity.Mass
	supply  quantity.Duration   // free from then on
	level   quantity.Volume     // in the fresh-water tank then
	free    []quantity.Duration // never again, for a mixing tank that holds brine
	placed
}

// placed is a batch on the time line.
type placed struct {
	mixer               int
	fill, filled        quantity.Duration
	mix, pumpFree, done quantity.Duration // pumpFree is when the pump could have begun
	off, held           quantity.Volume   // to storage; and left in the mixer, because storage is full
}

// run returns the best sequence for all that is wanted and can be made, and the best of
// those that are done by Start.
func (s *search) run() (all, inTime *sequence) { return s.bySalt(s.search()) }

// search goes on from the most promising beginnings.
func (s *search) search() (all, inTime *sequence) {
	first := &sequence{supply: s.y.r.Now, free: make([]quantity.Duration, len(s.runs))}
	first.done, first.level = s.y.r.Now, s.y.r.Supply.Tank
	for i := range first.free {
		first.free[i] = s.y.r.Now
	}
	inTime = first
	for live := []*sequence{first}; len(live) > 0; {
		var next []*sequence
		for _, at := range live {
			grown := s.grow(at)
			if len(grown) == 0 && (all == nil || s.better(at, all)) {
				all = at
			}
			for _, g := range grown {
				if g.done <= s.y.r.Start+1e-6 && s.better(g, inTime) {
					inTime = g
				}
			}
			next = append(next, grown...)
		}
		live = s.keep(next)
	}
	return all, inTime
}

// bySalt makes the most of a pile that ends: where the beginnings that were kept use it up badly, the set of batches
// that fills it best is ordered instead.
func (s *search) bySalt(all, inTime *sequence) (*sequence, *sequence) {
	if all == nil || all.planned >= s.wanted-1e-12 || math.IsInf(float64(s.pile), 1) {
		return all, inTime
	}
	counts, planned := s.fullest()
	if planned <= all.planned*(1+1e-9) {
		return all, inTime
	}
	again := *s
	again.most = counts
	set, setInTime := again.search()
	if s.better(set, all) {
		all = set
	}
	if s.better(setInTime, inTime) {
		inTime = setInTime
	}
	return all, inTime
}

// mostCounted bounds the sets of batches that are counted out.
const mostCounted = 200_000

// fullest is how many batches of each mixing tank make most of what is wanted with the pile: all counts are tried, the
// largest tanks first, as long as they can be better than the best so far.
func (s *search) fullest() (best []int, most quantity.Volume) {
	counts, tried := make([]int, len(s.runs)), 0
	best = make([]int, len(s.runs))
	perVolume := s.runs[0].Salt / quantity.Mass(s.runs[0].Mixer.PumpOff)
	var try func(i int, salt quantity.Mass, made quantity.Volume)
	try = func(i int, salt quantity.Mass, made quantity.Volume) {
		if made > most*(1+1e-12) {
			most = made
			copy(best, counts)
		}
		tried++
		could := made + quantity.Volume((s.pile-salt)/perVolume)
		if i == len(s.runs) || tried > mostCounted || could <= most*(1+1e-12) || most >= s.wanted {
			return
		}
		run := s.runs[i]
		n := int((s.pile*(1+1e-12) - salt) / run.Salt)
		if n > mostStormBatches {
			n = mostStormBatches
		}
		for ; n >= 0; n-- {
			counts[i] = n
			try(i+1, salt+run.Salt*quantity.Mass(n), made+run.Mixer.PumpOff*quantity.Volume(n))
		}
		counts[i] = 0
	}
	try(0, 0, 0)
	return best, most
}

// grow adds a batch of each mixing tank to a sequence that has not enough.
func (s *search) grow(at *sequence) []*sequence {
	if at.planned >= s.wanted-1e-12 || at.count >= mostStormBatches {
		return nil
	}
	var out []*sequence
	for i, run := range s.runs {
		if at.salt+run.Salt > s.pile*(1+1e-12) || at.free[i] == never || s.most != nil && at.times(i) >= s.most[i] {
			continue
		}
		b := placed{mixer: i, off: min(run.Mixer.PumpOff, s.room-at.stored)}
		if b.held = run.Mixer.PumpOff - b.off; b.held <= 1e-9*run.Mixer.PumpOff {
			b.off, b.held = run.Mixer.PumpOff, 0 // rounding
		}
		level := s.fill(&b, at, run)
		b.mix = max(b.filled, at.done)
		b.done = b.mix + run.Mix + b.off.Over(run.Off)
		g := &sequence{before: at, count: at.count + 1, planned: at.planned + run.Mixer.PumpOff, stored: at.stored + b.off, salt: at.salt + run.Salt, supply: b.filled, placed: b}
		g.level = level
		g.free = slices.Clone(at.free)
		if g.free[i] = b.done; b.held > 0 {
			g.free[i] = never
		}
		out = append(out, g)
	}
	return out
}

// fill places the filling of a batch, and returns what the fresh-water tank then holds. Where the pump draws from that tank,
// it is not free for anything else.
func (s *search) fill(b *placed, at *sequence, run MixerRun) quantity.Volume {
	supply := s.y.r.Supply.Fed(s.y.r.Pump.Flow)
	b.fill, b.pumpFree = max(at.free[b.mixer], at.supply), at.done
	if s.y.pumpFills() {
		b.fill = max(b.fill, at.done)
	}
	level := supply.LevelAfter(at.level, 0, 0, b.fill-at.supply)
	b.filled = b.fill + supply.FillTimeFrom(level, run.Water)
	if s.y.pumpFills() {
		b.pumpFree += b.filled - b.fill
	}
	return supply.LevelAfter(level, run.Water, b.filled-b.fill, 0)
}

// pumpFills reports whether the pump draws the water of a batch from the fresh-water tank.
func (y *stormYard) pumpFills() bool { return y.r.Supply.Tank > 0 && y.r.Supply.TankFlow == 0 }

// better prefers more of what is wanted, then being done sooner, a batch counting as
// its handling.
func (s *search) better(a, b *sequence) bool {
	va, vb := min(a.planned, s.wanted), min(b.planned, s.wanted)
	if diff := va - vb; diff > 1e-9*s.wanted || diff < -1e-9*s.wanted {
		return va > vb
	}
	return a.cost() < b.cost()
}

func (q *sequence) cost() quantity.Duration { return q.done + quantity.Duration(q.count)*handling }

// keep leaves the beginnings that give most for their time, one of each set of batches.
func (s *search) keep(all []*sequence) []*sequence {
	rate := func(q *sequence) float64 {
		return float64(min(q.planned, s.wanted)) / float64(q.cost()-s.y.r.Now)
	}
	slices.SortStableFunc(all, func(a, b *sequence) int { return cmp.Compare(rate(b), rate(a)) })
	// Of beginnings that differ only in the order of their batches the first is enough, if
	// the same mixing tank came last: that tank is the one that is not full again.
	all = slices.CompactFunc(all, func(a, b *sequence) bool {
		return a.planned == b.planned && a.done == b.done && a.mixer == b.mixer
	})
	return all[:min(len(all), width)]
}

// times is how often a mixing tank is used.
func (q *sequence) times(mixer int) (n int) {
	for at := q; at.before != nil; at = at.before {
		if at.mixer == mixer {
			n++
		}
	}
	return n
}

// batches lists the sequence from its first batch on.
func (q *sequence) batches() []placed {
	all := make([]placed, 0, q.count)
	for at := q; at.before != nil; at = at.before {
		all = append(all, at.placed)
	}
	slices.Reverse(all)
	return all
}
