package storm

import (
	"math"
	"slices"

	"brineyard/internal/quantity"
)

// bound is a volume above which no plan brings anything down in time: the least of what the routes are given, what the
// trucks can carry in the time there is, what the pump can load and make, and what can be made of the water that comes.
// Each is reckoned as if the other things cost no time.
func (p *plant) bound() quantity.Volume {
	given, from, by := quantity.Volume(0), never, quantity.Duration(0)
	for i := range p.errands {
		e := &p.errands[i]
		given += e.given
		from, by = min(from, e.from), max(by, e.by)
	}
	if by >= never {
		return given
	}
	return min(given, p.byTrucks(from, by), p.byPump(from, by))
}

// byTrucks is what the trucks can carry, by the dual of the linear program that gives each truck's time to the errands: with
// any price on the trucks' time, what all their time is worth, and what the errands gain that take less than a volume is
// worth. The prices are those at which a volume of one errand, in turn, is worth its time in every truck.
func (p *plant) byTrucks(from, by quantity.Duration) quantity.Volume {
	best := quantity.Volume(math.Inf(1))
	for i := range p.errands {
		best = min(best, p.pricedBy(&p.errands[i], from, by))
	}
	return best
}

func (p *plant) pricedBy(at *errand, from, by quantity.Duration) (v quantity.Volume) {
	takes := make([]float64, len(p.speeds))
	for k, speed := range p.speeds {
		takes[k] = p.takes(at, speed)
		if serves := slices.ContainsFunc(p.errands, func(e errand) bool { return e.fits[k] > 0 }); serves {
			v += quantity.Volume(float64(max(0, by-max(from, p.begin.trucks[k]))) / takes[k])
		}
	}
	for i := range p.errands {
		e, least := &p.errands[i], 1.0
		for k, speed := range p.speeds {
			if e.fits[k] > 0 {
				least = min(least, p.takes(e, speed)/takes[k])
			}
		}
		v += e.given * quantity.Volume(1-least)
	}
	return v
}

// byPump is what the pump can load with the batches that takes beyond the brine in store, and what the mixing tanks and the
// water can give in the time there is. Routes that take less brine for a volume than others count as taking none.
func (p *plant) byPump(from, by quantity.Duration) quantity.Volume {
	brine, others := 0.0, quantity.Volume(0)
	for i := range p.errands {
		brine = max(brine, p.errands[i].brine)
	}
	for i := range p.errands {
		if e := &p.errands[i]; e.brine < brine*(1-1e-9) {
			others += e.given
		}
	}
	loading := quantity.Volume(float64(by-from) * float64(p.flow))
	if brine == 0 {
		return loading
	}
	stored, perVolume, made := p.making(by)
	pump := float64(by-p.y.r.Now) + float64(stored)*perVolume
	could := min(stored+made, quantity.Volume(pump/(1/(brine*float64(p.flow))+perVolume)))
	return min(loading, others+could/quantity.Volume(brine))
}

// making is the brine in store, the least of the pump's time that a volume takes to be made, and what can be made in all.
// Pumping off counts where storage has room for all, so that nothing is loaded from a mixing tank.
func (p *plant) making(by quantity.Duration) (stored quantity.Volume, perVolume float64, made quantity.Volume) {
	c, now := &p.begin, p.y.r.Now
	stored = c.store.usable
	roomy, water := c.store.space(p.empty) >= c.want, math.Inf(1)
	perVolume = math.Inf(1)
	for i := range p.runs {
		run := &p.runs[i]
		if run.Fix != nil {
			stored += run.Fix.Usable
			continue
		}
		pump := run.Mix
		if roomy {
			pump += run.full().Over(run.Off)
		}
		perVolume = min(perVolume, float64(pump)/float64(run.full()))
		water = min(water, float64(run.Water)/float64(run.full()))
		made += run.full() * quantity.Volume(float64(by-now)/float64(pump+run.Fill))
	}
	if math.IsInf(perVolume, 1) {
		return stored, 0, 0
	}
	flows := float64(c.level) + float64(p.supply.Flow)*float64(by-now)
	return stored, perVolume, min(made, quantity.Volume(flows/water))
}
