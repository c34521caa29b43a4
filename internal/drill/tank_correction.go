package drill

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// offTarget is a tank whose brine has to be brought to target.
type offTarget struct {
	tank    yard.Tank
	request brine.CorrectRequest
	result  brine.Correction
	glass   *glass // with the reading that the question gives; nil where it gives the strength
}

// drawStrength draws the strength of the brine, or a reading behind which it stands.
func (o *offTarget) drawStrength(d *draw, behindGlass bool, low, high quantity.Strength) error {
	if !behindGlass {
		o.request.Strength = d.strength(low, high)
		return nil
	}
	g, err := d.glass(low, high)
	if err != nil {
		return err
	}
	o.glass, o.request.Temperature, o.request.Strength = &g, g.sample.Temperature, g.result.True
	return nil
}

// opening begins a question with the brine in the tank, its target and the densities.
func (o offTarget) opening(water quantity.Density) (string, []quantity.Quantity) {
	r := o.request
	args := []quantity.Quantity{fault.Word(o.tank.Name), r.Volume}
	text := "The tank %v holds %v of brine of %v at %v. "
	facts := []quantity.Quantity{r.Strength, r.Temperature}
	if o.glass != nil {
		text, facts = o.glass.sentence()
		text = "The tank %v holds %v of brine. " + text
	}
	return text + "It is to have %v. The brine in it weighs %v, water %v. ", append(append(args, facts...), r.Target, o.result.TankDensity, water)
}

// begin returns a draft with the working and the mistakes that come of the reading. answer
// is the answer as it would be for another strength.
func (o *offTarget) begin(answer func(quantity.Strength) quantity.Quantity) draft {
	var out draft
	out.Working.Correct, out.Working.Correction = &o.request, &o.result
	if o.glass != nil {
		o.glass.note(&out.Working)
		out.Mistakes = o.glass.mistakes(answer)
	}
	return out
}

// strengthByHand is the strength that a pocket calculator finds.
func (o offTarget) strengthByHand(d *draw) float64 {
	if o.glass != nil {
		return o.glass.byRule
	}
	return d.num(o.request.Strength)
}

// dose is the mass to add to a mass of brine to bring it from strength w to wt, in the unit
// of that mass, since a pocket calculator works in the user's.
func dose(a balance.Addition, m, w, wt float64) float64 {
	return float64(a.Dose(quantity.Mass(m), quantity.Strength(w), quantity.Strength(wt)))
}
