package drill

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// loading is the limits of a truck's load, in any one set of units.
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

// last is the last load of a haul in full loads; the load itself where there is no haul.
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

// truckLoad asks how much brine a truck may load. From level 2 the brine is cold or warm and
// the truck carries gear; at level 3 the question asks for the last load of a haul.
func truckLoad(d *draw) (draft, error) {
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
		return draft{}, err
	}
	if h.water, err = waterDensity(r.Temperature); err != nil {
		return draft{}, err
	}
	return h.draft(d), nil
}

// draft puts question, answer and mistakes together.
func (h haul) draft(d *draw) draft {
	var out draft
	out.Question, out.Args = h.question()
	out.Working.Truck, out.Working.TruckResult = &h.request, &h.result
	out.Answer = volumeAnswer(h.result.Load.Volume)
	if h.request.Haul > 0 {
		out.Answer = volumeAnswer(h.result.Load.LastOne)
		out.Working.Closing = h.lastLoad()
	}
	out.byHand = h.balance(d.num).solve()
	out.Mistakes = h.mistakes()
	return out
}

func (h haul) question() (string, []quantity.Quantity) {
	t, r := h.truck, h.request
	text := "The truck %v has a tank of %v, weighs %v empty and may weigh %v in all. "
	args := []quantity.Quantity{fault.Word(t.Name), t.Tank, t.Empty, t.Gross}
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

// balance is the problem in the numbers that num makes of its quantities.
func (h haul) balance(num func(quantity.Quantity) float64) loading {
	t := h.truck
	return loading{
		tank: num(t.Tank), gross: num(t.Gross), empty: num(t.Empty), gear: num(h.gear),
		density: num(h.result.Density), haul: num(h.request.Haul),
	}
}

func (h haul) mistakes() []Mistake {
	b := h.balance(si)
	if !h.result.Load.Weighed {
		return []Mistake{weightAlone.to(quantity.Volume(b.last(b.byWeight())))}
	}
	thin, noEmpty, light := b, b, b
	thin.density, noEmpty.empty, light.gear = float64(h.water), 0, 0
	out := []Mistake{
		asWater.to(quantity.Volume(b.last(thin.byWeight()))),
		tankFilled.to(quantity.Volume(b.last(b.tank))),
		noTruck.to(quantity.Volume(b.last(noEmpty.byWeight()))),
	}
	if h.gear > 0 {
		out = append(out, noGear.to(quantity.Volume(light.solve())))
	}
	return out
}
