package storm

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// A second, plain simulation. It takes a plan's jobs and loads as they stand in its output,
// does them one by one in a yard that it follows by volumes, and asks whether they can be
// done and what they sum up to. It shares the densities of liquids and the band with the
// planner, and none of its code.
type replayed struct {
	t      *testing.T
	about  string
	r      Request
	p      Plan
	target quantity.Density // of brine on target

	pump, supply quantity.Duration // free from then on
	cistern      float64           // in the fresh-water tank at the end of the last fill
	trucks       map[string]quantity.Duration
	left, down   map[string]quantity.Volume // by route: still to be loaded, and down in time
	mixers       map[string]*mixerNow

	store, room quantity.Volume // of brine above the dead volumes, and what the tanks can take
	toFill      quantity.Volume // of dead volumes, which brine that is made may go into
	pile        quantity.Mass
	bought      map[string]quantity.Volume
	start, made balance.Masses
	corrected   balance.Masses // what corrections add to tanks
	tally       Production     // of the sums that the jobs come to
}

// mixerNow is a mixing tank in the replay: empty, filled, or with finished brine in it.
type mixerNow struct {
	free     quantity.Duration
	filled   quantity.Volume // of brine to be, while water and salt stand in it
	finished quantity.Volume
}

// mixing is what volumes above may be off by: brines of two strengths shrink a little in
// one tank.
const mixing = 2e-4

func replay(t *testing.T, about string, r Request, p Plan) {
	t.Helper()
	y := &replayed{
		t: t, about: about, r: r, p: p, target: balance.BrineDensity(r.Band.Target, r.Temperature), pump: r.Now, supply: r.Now, cistern: float64(r.Supply.Tank),
		trucks: map[string]quantity.Duration{}, down: map[string]quantity.Volume{}, mixers: map[string]*mixerNow{}, bought: map[string]quantity.Volume{},
		pile: quantity.Mass(math.Inf(1)),
	}
	if r.Pile.OnHand != nil {
		y.pile = *r.Pile.OnHand
	}
	y.fillTanks()
	y.demand()
	y.work()
	y.serve()
	y.weigh()
	y.price()
}

// near compares to rounding, or to a part of a whole.
func (y *replayed) near(want, got, whole float64, what string) {
	y.t.Helper()
	require.InDelta(y.t, want, got, 1e-9*math.Abs(want)+1e-9*math.Abs(whole)+1e-12, "%s: %s", y.about, what)
}

func (y *replayed) brine(v quantity.Volume, s quantity.Strength) balance.Masses {
	return balance.MassesOf(balance.SaltBrine(s), v.Mass(balance.BrineDensity(s, y.r.Temperature)))
}

// fillTanks puts in what the request says; brine out of the band is of no use.
func (y *replayed) fillTanks() {
	for _, l := range y.r.Others {
		y.bought[l.Name] += l.OnHand
	}
	for _, t := range y.r.Tanks {
		s, _ := t.Holds().Strength()
		switch {
		case t.LiquidName != balance.BrineName:
			y.bought[t.LiquidName] += max(0, *t.Contents-t.DeadVolume)
		case y.r.Band.Judge(s) == yard.MayPump:
			y.start = y.start.Plus(y.brine(*t.Contents, s))
			y.store += max(0, *t.Contents-t.DeadVolume)
			y.room += t.Capacity - *t.Contents
			y.toFill += max(0, t.DeadVolume-*t.Contents)
		}
	}
}

// work does the jobs and the loads in the order of their times, and compares what they come to.
func (y *replayed) work() {
	y.tally.DoneAt = y.r.Now
	type event struct {
		at quantity.Duration
		do func()
	}
	var events []event
	for _, j := range y.p.Production.Jobs {
		events = append(events, event{j.Start, func() { y.do(j) }})
	}
	for _, l := range y.p.Loading.Loads {
		events = append(events, event{l.Start, func() { y.send(l) }})
	}
	slices.SortStableFunc(events, func(a, b event) int { return cmp.Compare(a.at, b.at) })
	for _, e := range events {
		e.do()
	}
	for _, m := range y.mixers {
		require.Zero(y.t, m.filled, y.about)
		y.tally.InMixers += m.finished
	}
	sums, pr := y.tally, y.p.Production
	y.made = y.brine(sums.Made, y.r.Band.Target).Plus(y.corrected)
	require.Equal(y.t, sums.Batches, pr.Batches, y.about)
	y.near(float64(sums.Made), float64(pr.Made), 0, "made")
	y.near(float64(sums.Water), float64(pr.Water), 0, "water")
	y.near(float64(sums.Salt), float64(pr.Salt), 0, "salt")
	y.near(float64(sums.Salt/y.r.Pile.Bucket), pr.Buckets, 0, "buckets")
	y.near(float64(sums.DoneAt), float64(pr.DoneAt), 0, "done")
	y.near(float64(sums.PumpTime), float64(pr.PumpTime), 1e5, "pump")
	if len(y.r.Trucks) > 0 {
		y.near(float64(sums.IdleFirst), float64(pr.IdleFirst), 1e5, "first wait")
		y.near(float64(sums.IdleLater), float64(pr.IdleLater), 1e5, "later waits")
		y.near(float64(sums.InMixers), float64(pr.InMixers), 100*float64(sums.Made), "in mixers")
		y.sumTrucks()
	}
}

// do does one job.
func (y *replayed) do(j Job) {
	at := slices.IndexFunc(y.r.Mixers, func(m yard.Tank) bool { return m.Name == j.What })
	if at < 0 {
		y.correct(j)
		return
	}
	mixer := y.r.Mixers[at]
	if y.mixers[j.What] == nil {
		y.mixers[j.What] = &mixerNow{free: y.r.Now}
	}
	now := y.mixers[j.What]
	require.GreaterOrEqual(y.t, j.Start, now.free-1e-6, "%s: %s does two things at once", y.about, j.What)
	now.free, y.tally.DoneAt = j.End, max(y.tally.DoneAt, j.End)
	switch j.Kind {
	case JobFill:
		y.fill(j, mixer, now)
	case JobMix:
		y.takePump(j)
		require.Positive(y.t, now.filled, "%s: nothing is in %s", y.about, j.What)
		require.Zero(y.t, j.Volume)
		y.near(float64(mixer.MixTime), float64(j.End-j.Start), 1e5, "time to mix")
		made := now.filled
		now.finished, now.filled = now.finished+now.filled, 0
		y.tally.Batches++
		y.tally.Made += made
	case JobPumpOff:
		y.takePump(j)
		y.near(float64(j.Volume)/float64(cmp.Or(y.r.OffFlow[j.What], y.r.Pump.Flow)), float64(j.End-j.Start), 1e5, "time to pump off")
		now.finished -= j.Volume
		y.room -= j.Volume
		y.store += j.Volume
		require.GreaterOrEqual(y.t, float64(now.finished), -1e-9)
		if now.finished < 1e-9*mixer.PumpOff {
			now.finished = 0
		}
		if len(y.r.Trucks) > 0 {
			require.GreaterOrEqual(y.t, float64(y.room), -1e-6, "%s: the tanks run over", y.about)
		}
	}
}

// correct brings a storage tank to target: M = m (t - s) / (q - t (q + w)) of salt with q NaCl and w water in it, or
// m (s / t - 1) of water.
func (y *replayed) correct(j Job) {
	tank := y.r.Tanks[slices.IndexFunc(y.r.Tanks, func(t yard.Tank) bool { return t.Name == j.What })]
	s, _ := tank.Holds().Strength()
	before := y.brine(*tank.Contents, s)
	m, from, to := before.Total(), float64(s), float64(y.r.Band.Target)
	water := max(0, m*(from/to-1))
	if j.Kind == JobFill {
		y.near(water/float64(balance.BrineDensity(0, y.r.Temperature)), float64(j.Volume), 1, "water of a correction")
		require.GreaterOrEqual(y.t, j.Start, y.supply-1e-6, "%s: the supply does two things at once", y.about)
		y.near(y.runsIn(j.Start, float64(j.Volume)), float64(j.End-j.Start), 1e5, "time to fill")
		if y.r.Supply.Tank > 0 && y.r.Supply.TankFlow == 0 {
			y.takePump(j)
		}
		y.supply = j.End
		y.tally.Water += j.Volume
		return
	}
	y.takePump(j)
	quality := y.r.Pile.Quality
	q := float64(quality.Purity) * float64(1-quality.Moisture)
	rock := max(0, m*(to-from)/(q-to*(q+float64(quality.Moisture))))
	final := quantity.Volume((m + water + rock*(q+float64(quality.Moisture))) / float64(y.target))
	y.store += max(0, final-tank.DeadVolume)
	y.room += tank.Capacity - final
	y.pile -= quantity.Mass(rock)
	y.tally.Salt += quantity.Mass(rock)
	y.tally.DoneAt = max(y.tally.DoneAt, j.End)
	y.start, y.corrected = y.start.Plus(before), y.corrected.Plus(y.brine(final, y.r.Band.Target)).Minus(before)
}

// fill runs water and salt into an empty mixing tank.
func (y *replayed) fill(j Job, mixer yard.Tank, now *mixerNow) {
	require.GreaterOrEqual(y.t, j.Start, y.supply-1e-6, "%s: the supply does two things at once", y.about)
	require.False(y.t, now.filled > 0 || now.finished > 0 && len(y.r.Trucks) > 0, "%s: %s is not empty", y.about, j.What)
	rock, water := y.batch(mixer.PumpOff)
	part := j.Volume / water
	require.Less(y.t, float64(part), 1+1e-9, "%s: more than a whole batch", y.about)
	require.Greater(y.t, float64(part), 0.02-1e-9, "%s: a batch too small to mix", y.about)
	rock, water = rock*quantity.Mass(part), j.Volume
	y.near(y.runsIn(j.Start, float64(water)), float64(j.End-j.Start), 1e5, "time to fill")
	if y.r.Supply.Tank > 0 && y.r.Supply.TankFlow == 0 { // the pump draws it
		y.takePump(j)
	}
	y.supply, y.pile, now.filled = j.End, y.pile-rock, mixer.PumpOff*part
	y.tally.Water += water
	y.tally.Salt += rock
}

// runsIn is how long water takes that is drawn from the fresh-water tank until that is down; what it holds is kept.
func (y *replayed) runsIn(start quantity.Duration, water float64) float64 {
	in, out := float64(y.r.Supply.Flow), float64(y.r.Supply.TankFlow)
	if y.r.Supply.Tank == 0 {
		return water / in
	}
	if out == 0 {
		out = float64(y.r.Pump.Flow)
	}
	y.cistern = min(float64(y.r.Supply.Tank), y.cistern+in*float64(start-y.supply))
	quick := water // as much of it as comes at the quick flow
	if out > in {
		quick = min(water, out*y.cistern/(out-in))
	}
	took := quick/out + (water-quick)/in
	y.cistern = max(0, y.cistern+in*took-water)
	return took
}

// takePump has the pump wait for a job and work on it.
func (y *replayed) takePump(j Job) {
	require.GreaterOrEqual(y.t, j.Start, y.pump-1e-6, "%s: the pump does two things at once", y.about)
	if j.Kind == JobPumpOff {
		require.InDelta(y.t, float64(y.pump), float64(j.Start), 1e-6, "%s: a batch is left between mixing and pumping off", y.about)
	}
	wait := &y.tally.IdleLater
	if y.tally.Batches == 0 {
		wait = &y.tally.IdleFirst
	}
	*wait += j.Start - y.pump
	y.tally.PumpTime += j.End - j.Start
	y.pump = j.End
}

// batch is the salt as delivered, and the water, that make a volume of brine on target.
func (y *replayed) batch(v quantity.Volume) (rock quantity.Mass, water quantity.Volume) {
	brine, quality := float64(v)*float64(y.target), y.r.Pile.Quality
	nacl := brine * float64(y.r.Band.Target)
	rock = quantity.Mass(nacl / float64(quality.Purity) / float64(1-quality.Moisture))
	run := brine - nacl - float64(rock)*float64(quality.Moisture)
	return rock, quantity.Volume(run / float64(balance.BrineDensity(0, y.r.Supply.Temperature)))
}
