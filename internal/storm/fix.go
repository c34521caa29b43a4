package storm

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// fixable is a storage tank out of the band that water or salt brings back, without drawing anything off first.
type fixable struct {
	tank     yard.Tank
	strength quantity.Strength
	fix      brine.Correction
}

// fixes are the runs that correct storage tanks, as far as the pile goes. The pump circulates a tank as long as the slowest
// mixing tank mixes, and once over at least. Common practice, no source.
func (y *stormYard) fixes() (runs []MixerRun) {
	longest, pile := quantity.Duration(0), y.r.pile()
	for _, m := range y.r.Mixers {
		longest = max(longest, m.MixTime)
	}
	for _, f := range y.fixable {
		if f.fix.Salt > pile || f.fix.Final <= f.tank.DeadVolume {
			continue
		}
		pile -= f.fix.Salt
		runs = append(runs, MixerRun{
			Mixer: f.tank, Mix: max(longest, f.fix.Final.Over(y.r.Pump.Flow)), Salt: f.fix.Salt, Water: f.fix.Water,
			Fix: &TankFix{Usable: max(0, f.fix.Final-f.tank.DeadVolume), Room: max(0, f.tank.Capacity-f.fix.Final), Final: f.fix.Final},
		})
	}
	return runs
}

// correct brings a storage tank to target. It stood outside the plan's balance until now.
func (y *stormYard) correct(name string) {
	for _, f := range y.fixable {
		if f.tank.Name != name {
			continue
		}
		t := &vessel{tank: f.tank, at: y.r.Temperature}
		before := t.fill(f.tank.Held(), f.strength)
		t.Vessel = balance.Vessel{}
		after := t.fill(f.fix.Final, y.r.Band.Target)
		y.start = y.start.Plus(before)
		y.made = y.made.Plus(after).Minus(before)
		y.tanks = append(y.tanks, t)
	}
}
