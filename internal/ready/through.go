package ready

import (
	"cmp"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// ThroughRequest asks how strong water leaves that runs once, upward, through a bed of salt that is kept topped up.
type ThroughRequest struct {
	Flow        quantity.Flow   // of fresh water into the bed
	Bed         quantity.Volume // with its pores
	Temperature quantity.Temperature
	Band        yard.Band
	Volume      quantity.Volume // of brine wanted; 0 for none
	Before      []Passage       // what the bed did before; at least one
}

// Passage is a flow of fresh water at which brine of a strength left a bed.
type Passage struct {
	Flow     quantity.Flow
	Bed      quantity.Volume
	Strength quantity.Strength
	// Deviation is what the strength is unsure of.
	Deviation quantity.Strength
}

// ThroughResult is how strong it leaves, and how much may run in for the target. The outflow comes the nearer to
// saturation the longer the water touches salt,
//
//	strength = saturation (1 - exp(-K bed / flow)),
//
// a film of constant thickness about grains whose surface stays: the first-order approach of any text on mass transfer.
// K is the one constant of a yard's bed.
type ThroughResult struct {
	Constant   Span // K, 1/s
	Contact    quantity.Duration
	Strength   Span
	Saturation quantity.Strength
	Decision   yard.Decision // of the strength with its range
	OnTarget   Span          // the flow of water for the target, m3/s
	Out        quantity.Flow // of brine
	Takes      quantity.Duration
}

// The fields of its refusals.
const (
	FieldFlow = "flow"
	FieldBed  = "bed"
)

// usualPassage is how much ln K differs between batches where one alone is known. Common practice, no source.
const usualPassage = 0.15

// Through works it out. Errors: fault.InputError.
func Through(r ThroughRequest) (ThroughResult, error) {
	if err := cmp.Or(
		fault.If(!(r.Flow > 0), FieldFlow, "nothing runs; allowed: above 0 gal/min"),
		fault.If(!(r.Bed > 0), FieldBed, "no bed; allowed: above 0 lb"),
		fault.If(len(r.Before) == 0, fault.FieldReadings, "nothing is known of this bed; allowed: one or more readings of what leaves it, each behind its flow, like 30gal/min=21.5%%"),
		r.Band.Check(),
	); err != nil {
		return ThroughResult{}, err
	}
	full, err := balance.Saturation(r.Temperature)
	if err != nil {
		return ThroughResult{}, err
	}
	if _, err := balance.KnowTarget(r.Band.Target, r.Temperature); err != nil {
		return ThroughResult{}, err
	}
	out := ThroughResult{Saturation: full, Contact: r.Bed.Over(r.Flow)}
	log := constant(r.Before, full)
	out.Constant = log.span()
	strength := func(k float64) float64 { return float64(full) * (1 - math.Exp(-k*float64(out.Contact))) }
	out.Strength = out.Constant.through(strength)
	out.Decision = r.Band.JudgeRange(quantity.Strength(out.Strength.Value), quantity.Strength(out.Strength.Low), quantity.Strength(out.Strength.High))
	logs := -math.Log(1 - float64(r.Band.Target/full))
	out.OnTarget = out.Constant.through(func(k float64) float64 { return k * float64(r.Bed) / logs })
	out.Out = quantity.Flow(Rise(quantity.Volume(r.Flow), 0, quantity.Strength(out.Strength.Value), r.Temperature))
	out.Takes = r.Volume.Over(out.Out)
	return out, nil
}

// constant is ln K of the next batch by those before. Brine that left saturated tells that K is at least so high as to
// leave what no instrument shows.
func constant(before []Passage, full quantity.Strength) Spread {
	var logs sample
	for _, p := range before {
		deviation := math.Max(readingError, float64(p.Deviation))
		s := math.Min(float64(p.Strength), float64(full)-deviation)
		n := -math.Log(1 - math.Max(s, deviation)/float64(full))
		logs.add(Spread{math.Log(n * float64(p.Flow) / float64(p.Bed)), deviation / (float64(full) - s) / n})
	}
	return logs.next(usualPassage)
}

// span holds 95 in 100 of what has a normal logarithm.
func (s Spread) span() Span {
	return Span{math.Exp(s.Mean), math.Exp(s.Mean - 1.96*s.Deviation), math.Exp(s.Mean + 1.96*s.Deviation)}
}

// through is a rising function of a span.
func (s Span) through(f func(float64) float64) Span { return Span{f(s.Value), f(s.Low), f(s.High)} }

// WaterFlow is the fresh water behind a flow of brine of a strength.
func WaterFlow(brine quantity.Flow, w quantity.Strength, t quantity.Temperature) quantity.Flow {
	return quantity.Flow(Rise(quantity.Volume(brine), w, 0, t))
}
