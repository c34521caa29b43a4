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
	mixers       map[string]*mixerNow

	store, room quantity.Volume // of brine above the dead volumes, and what the tanks can take
	toFill      quantity.Volume // of dead volumes, which brine that is made may go into
	pile        quantity.Mass
	bought      map[string]quantity.Volume
	start, made balance.Masses
	tally       Production // of the sums that the jobs come to
}

// mixerNow is a mixing tank in the replay: empty, filled, or with finished brine in it.
type mixerNow struct {
	free     quantity.Duration
	filled   bool
	finished quantity.Volume
}

// mixing is what volumes above may be off by: brines of two strengths shrink a little in
// one tank.
const mixing = 2e-4

func replay(t *testing.T, about string, r Request, p Plan) {
	t.Helper()
	y := &replayed{
		t: t, about: about, r: r, p: p, target: balance.BrineDensity(r.Band.Target, r.Temperature), pump: r.Now, supply: r.Now, cistern: float64(r.Supply.Tank),
		trucks: map[string]quantity.Duration{}, mixers: map[string]*mixerNow{}, bought: map[string]quantity.Volume{},
		pile: quantity.Mass(math.Inf(1)),
	}
	if r.Pile.OnHand != nil {
		y.pile = *r.Pile.OnHand
	}
	y.fillTanks()
	y.produce()
	y.serve()
	y.load()
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

// produce does the jobs in the order of their times, and compares what they come to.
func (y *replayed) produce() {
	y.tally.DoneAt = y.r.Now
	jobs := slices.Clone(y.p.Production.Jobs)
	slices.SortStableFunc(jobs, func(a, b Job) int { return cmp.Compare(a.Start, b.Start) })
	for _, j := range jobs {
		y.do(j)
	}
	for _, m := range y.mixers {
		require.False(y.t, m.filled, y.about)
		y.tally.InMixers += m.finished
	}
	sums, pr := y.tally, y.p.Production
	require.GreaterOrEqual(y.t, float64(y.room), -mixing*float64(sums.Made), "%s: the tanks run over", y.about)
	y.store += sums.Made
	y.made = y.brine(sums.Made, y.r.Band.Target)
	require.Equal(y.t, sums.Batches, pr.Batches, y.about)
	y.near(float64(sums.Made), float64(pr.Made), 0, "made")
	y.near(float64(sums.Water), float64(pr.Water), 0, "water")
	y.near(float64(sums.Salt), float64(pr.Salt), 0, "salt")
	y.near(float64(sums.InMixers), float64(pr.InMixers), 0, "in mixers")
	y.near(float64(sums.Salt/y.r.Pile.Bucket), pr.Buckets, 0, "buckets")
	y.near(float64(sums.DoneAt), float64(pr.DoneAt), 0, "done")
	y.near(float64(sums.PumpTime), float64(pr.PumpTime), 1e5, "pump")
	y.near(float64(sums.IdleFirst), float64(pr.IdleFirst), 1e5, "first wait")
	y.near(float64(sums.IdleLater), float64(pr.IdleLater), 1e5, "later waits")
	enough := pr.Made >= pr.Wanted*(1-1e-9)
	require.Equal(y.t, enough, !pr.Late && pr.Shortage == NoShortage, "%s: %+v", y.about, pr)
}

// do does one job.
func (y *replayed) do(j Job) {
	at := slices.IndexFunc(y.r.Mixers, func(m yard.Tank) bool { return m.Name == j.What })
	mixer := y.r.Mixers[at]
	if y.mixers[j.What] == nil {
		y.mixers[j.What] = &mixerNow{free: y.r.Now}
	}
	now := y.mixers[j.What]
	require.GreaterOrEqual(y.t, j.Start, now.free-1e-6, "%s: %s does two things at once", y.about, j.What)
	require.LessOrEqual(y.t, j.End, y.r.Start+1e-3, y.about)
	now.free, y.tally.DoneAt = j.End, max(y.tally.DoneAt, j.End)
	switch j.Kind {
	case JobFill:
		y.fill(j, mixer, now)
	case JobMix:
		y.takePump(j)
		require.True(y.t, now.filled, "%s: nothing is in %s", y.about, j.What)
		require.Zero(y.t, j.Volume)
		y.near(float64(mixer.MixTime), float64(j.End-j.Start), 1e5, "time to mix")
		now.filled, now.finished = false, mixer.PumpOff
		y.tally.Batches++
		y.tally.Made += mixer.PumpOff
	case JobPumpOff:
		y.takePump(j)
		y.near(float64(j.Volume)/float64(cmp.Or(y.r.OffFlow[j.What], y.r.Pump.Flow)), float64(j.End-j.Start), 1e5, "time to pump off")
		now.finished -= j.Volume
		y.room -= j.Volume
		require.GreaterOrEqual(y.t, float64(now.finished), -1e-9)
		if now.finished < 1e-9*mixer.PumpOff {
			now.finished = 0
		}
	}
}

// fill runs water and salt into an empty mixing tank.
func (y *replayed) fill(j Job, mixer yard.Tank, now *mixerNow) {
	require.GreaterOrEqual(y.t, j.Start, y.supply-1e-6, "%s: the supply does two things at once", y.about)
	require.False(y.t, now.filled || now.finished > 0, "%s: %s is not empty", y.about, j.What)
	rock, water := y.batch(mixer.PumpOff)
	y.near(float64(water), float64(j.Volume), 0, "water of a batch")
	y.near(y.runsIn(j.Start, float64(water)), float64(j.End-j.Start), 1e5, "time to fill")
	if y.r.Supply.Tank > 0 && y.r.Supply.TankFlow == 0 { // the pump draws it
		y.takePump(j)
	}
	y.supply, y.pile, now.filled = j.End, y.pile-rock, true
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
