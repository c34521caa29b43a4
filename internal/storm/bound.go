package storm

import (
	"cmp"
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

// byTrucks is what the trucks can carry: the errands that take least of the road for a volume fill their time first. A
// truck's time counts as road at its speed, loading as road at the speed of the slowest.
func (p *plant) byTrucks(from, by quantity.Duration) quantity.Volume {
	road, slowest := 0.0, math.Inf(1)
	for k, speed := range p.speeds {
		if serves := slices.ContainsFunc(p.errands, func(e errand) bool { return e.fits[k] > 0 }); serves {
			road += float64(max(0, by-max(from, p.begin.trucks[k]))) * float64(speed)
			slowest = min(slowest, float64(speed))
		}
	}
	if road == 0 {
		return 0
	}
	return p.fill(road, func(e *errand) float64 { return 2*e.lane + slowest/float64(p.flow) })
}

// fill gives a resource to the errands that take least of it for a volume.
func (p *plant) fill(there float64, takes func(*errand) float64) (v quantity.Volume) {
	order := slices.Clone(p.errands)
	slices.SortStableFunc(order, func(a, b errand) int { return cmp.Compare(takes(&a), takes(&b)) })
	for i := range order {
		e := &order[i]
		part := min(e.given, quantity.Volume(there/takes(e)))
		v += part
		if there -= float64(part) * takes(e); there <= 0 {
			break
		}
	}
	return v
}

// byPump is what the pump can load before the last truck has to be on its way, with the batches that takes beyond the
// brine in store; and what can be made of the water that comes.
func (p *plant) byPump(from, by quantity.Duration) quantity.Volume {
	stored := p.begin.store.usable
	batch, made := math.Inf(1), math.Inf(1) // time of the pump, and of the water, for a volume
	for i := range p.runs {
		run := &p.runs[i]
		if run.Fix != nil {
			stored += run.Fix.Usable
			continue
		}
		batch = min(batch, float64(run.Mix)/float64(run.full()))
		made = min(made, float64(run.Water)/float64(run.full()))
	}
	now := p.y.r.Now
	water := float64(p.begin.level) + float64(p.y.r.Supply.Flow)*float64(by-now)
	could := stored
	if !math.IsInf(made, 1) {
		could += quantity.Volume(min(water/made, float64(by-now)/batch))
	}
	loading := quantity.Volume(float64(by-from) * float64(p.flow))
	brine := 0.0
	for i := range p.errands {
		brine = max(brine, p.errands[i].brine)
	}
	least := brine
	others := quantity.Volume(0) // of errands that take no brine, or less
	for i := range p.errands {
		if e := &p.errands[i]; e.brine < brine*(1-1e-9) {
			others += e.given
		}
	}
	if least == 0 {
		return loading
	}
	return min(loading, others+could/quantity.Volume(least))
}
