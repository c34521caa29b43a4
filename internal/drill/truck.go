package drill

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// loading is what limits a truck's load, in any one set of units.
type loading struct {
	tank, gross, empty, gear, density float64
	haul                              float64 // to be carried in all; 0 where one load is asked for
}

// solve finds the load, or the last one of a haul.
func (l loading) solve() float64 {
	return l.last(math.Min(l.tank, l.byWeight()))
}

// byWeight is the volume that the gross limit leaves.
func (l loading) byWeight() float64 { return (l.gross - l.empty - l.gear) / l.density }

// last is what is left of a haul for the last of full loads.
func (l loading) last(load float64) float64 {
	if l.haul == 0 {
		return load
	}
	return l.haul - (math.Ceil(l.haul/load-1e-9)-1)*load
}

// haul is a truck to be loaded.
type haul struct {
	truck   yard.Truck
	strong  quantity.Strength
	gear    quantity.Mass
	water   quantity.Density
	request truck.Request
	result  truck.Result
}

// truckLoad asks how much brine a truck may load; from level 2 it is cold or warm
// and the truck carries gear, at level 3 the last load of a haul is asked for.
func truckLoad(d *draw) (sketch, error) {
	h := haul{truck: oneOf(d, d.Shop.haulers()), strong: d.strength(0.2, 0.25)}
	t := &h.truck
	t.Tank, t.Empty, t.Gross = d.roundVolume(t.Tank), d.roundMass(t.Empty), d.roundMass(t.Gross)
	if d.Level > 1 {
		payload := t.Gross - t.Empty
		h.gear = d.mass(0.05*payload, 0.2*payload)
	}
	r := &h.request
	*r = truck.Request{
		Liquid: balance.SaltBrine(h.strong), Temperature: d.outdoors(),
		Tank: t.Tank, Empty: t.Empty + h.gear, Gross: t.Gross, LoadFlow: d.Shop.PumpFlow,
	}
	if d.Level == Highest {
		r.Haul = d.partly(t.Tank, 1.5, 3.5)
	}
	var err error
	if h.result, err = truck.Calculate(*r); err != nil {
		return sketch{}, err
	}
	if h.water, err = waterDensity(r.Temperature); err != nil {
		return sketch{}, err
	}
	return h.sketch(d), nil
}

// sketch puts question, answer and mistakes together.
func (h haul) sketch(d *draw) sketch {
	var out sketch
	out.Question, out.Args = h.question()
	out.Working.Truck, out.Working.TruckResult = &h.request, &h.result
	out.Answer = volumeAnswer(h.result.Load.Volume)
	if h.request.Haul > 0 {
		out.Answer = volumeAnswer(h.result.Load.LastOne)
		out.Working.Closing = h.lastLoad()
	}
	out.hand = loading{
		tank: d.num(h.truck.Tank), gross: d.num(h.truck.Gross), empty: d.num(h.truck.Empty), gear: d.num(h.gear),
		density: d.num(h.result.Density), haul: d.num(h.request.Haul),
	}.solve()
	out.Mistakes = h.mistakes()
	return out
}

func (h haul) question() (string, []quantity.Quantity) {
	t, r := h.truck, h.request
	text := "The truck %v has a tank of %v, weighs %v empty and may weigh %v in all. "
	args := []quantity.Quantity{Word(t.Name), t.Tank, t.Empty, t.Gross}
	if h.gear > 0 {
		text += "Driver and gear weigh %v. "
		args = append(args, h.gear)
	}
	text += "Brine of %v weighs %v at %v, water %v. "
	args = append(args, h.strong, h.result.Density, r.Temperature, h.water)
	if r.Haul > 0 {
		return text + "It is to haul %v of that brine, in loads as large as are allowed. How large is the last one?", append(args, r.Haul)
	}
	return text + "How much of that brine may it load?", args
}

func (h haul) mistakes() []Mistake {
	t := h.truck
	b := loading{
		tank: float64(t.Tank), gross: float64(t.Gross), empty: float64(t.Empty), gear: float64(h.gear),
		density: float64(h.result.Density), haul: float64(h.request.Haul),
	}
	volume := func(x float64) quantity.Quantity { return quantity.Volume(x) }
	if !h.result.Load.Weighed {
		return []Mistake{weightAlone.to(volume(b.last(b.byWeight())))}
	}
	thin, noEmpty, light := b, b, b
	thin.density, noEmpty.empty, light.gear = float64(h.water), 0, 0
	out := []Mistake{
		asWater.to(volume(b.last(thin.byWeight()))),
		tankFilled.to(volume(b.last(b.tank))),
		noTruck.to(volume(b.last(noEmpty.byWeight()))),
	}
	if h.gear > 0 {
		out = append(out, noGear.to(volume(light.solve())))
	}
	return out
}
