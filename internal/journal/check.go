package journal

import (
	"errors"
	"fmt"

	"brineyard/internal/quantity"
)

// strongest is beyond what salt brine holds in the warm.
const strongest quantity.Strength = 0.28

// Check refuses an entry that lacks what its kind needs, or that contradicts itself. It is
// for what people record: a row that stands in the file is read as far as it can be.
func (e *Entry) Check() error {
	if e.NaCl != nil && *e.NaCl > strongest {
		return fmt.Errorf("a strength of %v: no salt brine holds that much; allowed: up to %v", e.NaCl.In(quantity.US), strongest.In(quantity.US))
	}
	if err := e.checkKind(); err != nil {
		return err
	}
	if e.Kind == Count {
		return nil
	}
	for _, amount := range []struct {
		name string
		zero bool
	}{
		{"volume", e.Volume != nil && *e.Volume <= 0}, {"water", e.Water != nil && *e.Water <= 0}, {"salt", e.Salt != nil && *e.Salt <= 0},
	} {
		if amount.zero {
			return fmt.Errorf("a %s of nothing; allowed: above 0", amount.name)
		}
	}
	return nil
}

// kindRule is what an entry needs, with the refusal of one that lacks it.
type kindRule struct {
	broken func(*Entry) bool
	text   string
}

// kindRules are those of each kind.
var kindRules = map[Kind][]kindRule{
	Batch: {
		{func(e *Entry) bool { return e.Tank == "" }, "a batch needs its tank"},
		{func(e *Entry) bool { return (e.Volume == nil || !e.composed()) && (e.Salt == nil || e.Water == nil) }, "a batch needs volume and strength, or salt and water, or all of them"},
	},
	Reading: {
		{func(e *Entry) bool { return e.Tank == "" }, "a reading needs its tank"},
		{func(e *Entry) bool { return e.NaCl == nil && (e.Scale == "" || e.Reading == nil || e.Temp == nil) }, "a reading needs scale, reading and temp, or the true strength"},
	},
	Correction: {
		{func(e *Entry) bool { return e.Tank == "" }, "a correction needs its tank"},
		{func(e *Entry) bool { return e.Tank == e.From }, "a tank is not corrected from itself; allowed: two tanks"},
		{func(e *Entry) bool { return e.Salt == nil && e.Water == nil && e.Volume == nil }, "a correction needs water, salt, or the volume of a brine with its strength or the tank it came from"},
		{func(e *Entry) bool { return e.Volume != nil && e.From == "" && !e.composed() && e.Liquid == "" }, "a volume of what? allowed: with the tank it came from, or its strength"},
		{func(e *Entry) bool { return e.From != "" && e.composed() }, "a tank and a strength: the entries know what is in the tank; allowed: one of them"},
	},
	Transfer: {
		{func(e *Entry) bool { return e.Tank == "" || e.From == "" || e.Volume == nil }, "a transfer needs volume and two tanks"},
		{func(e *Entry) bool { return e.Tank == e.From }, "a transfer from and into the same tank; allowed: two tanks"},
	},
	Load: {
		{func(e *Entry) bool { return (e.From == "") != (e.Volume == nil) }, "a load needs volume and the tank it came from"},
		{func(e *Entry) bool { return e.Volume == nil && e.Salt == nil }, "a load needs volume and the tank it came from, or dry salt, or all of them"},
	},
	Unload: {
		{func(e *Entry) bool { return e.Truck == "" || e.Tank == "" || e.Volume == nil }, "an unload needs its truck, the tank it went into, and volume"},
	},
	Order: {
		{func(e *Entry) bool { return (e.Salt == nil) == (e.Volume == nil) }, "an order needs salt, or volume with its liquid; allowed: one of them"},
		{func(e *Entry) bool { return e.Volume != nil && e.Liquid == "" }, "an order of what? allowed: with a liquid"},
		{func(e *Entry) bool { return e.Due == nil }, "an order needs the day on which it is due"},
	},
	Spill: goneRules("spill"),
	Sale:  goneRules("sale"),
	Loan:  goneRules("loan"),
	Gift:  goneRules("gift"),
	Rinse: {
		{func(e *Entry) bool { return e.Line == "" }, "a rinse needs its line"},
		{func(e *Entry) bool { return e.Tank != "" && e.Water == nil }, "a rinse into a tank needs its water"},
	},
	Work: {
		{func(e *Entry) bool { return e.Hours == nil && e.Distance == nil }, "work needs hours, or the distance driven, or both"},
	},
	Delivery: {
		{func(e *Entry) bool { return (e.Salt == nil) == (e.Volume == nil) }, "a delivery needs salt, or volume with tank and liquid; allowed: one of them"},
		{func(e *Entry) bool { return e.Salt != nil && (e.composed() || e.Liquid != "") }, "a delivery of salt has no liquid and no strength; allowed: salt alone"},
		{func(e *Entry) bool { return e.Volume != nil && e.Tank == "" && e.Liquid == "" }, "a delivery into which tank? allowed: with the tank, or a liquid that is kept beside the tanks"},
		{func(e *Entry) bool { return e.Volume != nil && e.Liquid == "" && !e.composed() }, "a delivery of what? allowed: with a liquid, or its strengths"},
	},
	Clean: {
		{func(e *Entry) bool { return e.Tank == "" }, "a cleaning needs its tank"},
	},
	Count: {
		{func(e *Entry) bool { return (e.Salt == nil) == (e.Volume == nil) }, "a count needs a tank and its volume, or the salt on the pile; allowed: one of them"},
		{func(e *Entry) bool { return e.Volume != nil && e.Tank == Pile }, "a count of the pile needs its salt"},
		{func(e *Entry) bool { return e.Volume != nil && e.Tank == "" && e.Truck == "" && e.Liquid == "" }, "a count of a volume needs its tank, its truck, or the liquid that stands beside the tanks"},
		{func(e *Entry) bool { return e.Tank != "" && e.Truck != "" }, "a tank and a truck: two counts; allowed: one of them"},
		{func(e *Entry) bool { return e.Salt != nil && e.Truck != "" }, "a count of salt is that of the pile, or of the bed in a tank; allowed: no truck"},
	},
	Note: {
		{func(e *Entry) bool { return e.Note == "" }, "a note needs words"},
	},
}

// goneRules are those of what left the yard otherwise than on the road.
func goneRules(kind string) []kindRule {
	return []kindRule{
		{func(e *Entry) bool { return (e.Salt == nil) == (e.Volume == nil) }, "a " + kind + " needs salt, or volume with its tank or liquid; allowed: one of them"},
		{func(e *Entry) bool { return e.Volume != nil && e.From == "" && e.Liquid == "" }, "a " + kind + " of what? allowed: with the tank it came from, or a liquid that is kept beside the tanks"},
		{func(e *Entry) bool { return e.Salt != nil && e.From != "" }, "salt comes off the pile, not out of a tank; allowed: salt alone"},
	}
}

func (e *Entry) checkKind() error {
	for _, rule := range kindRules[e.Kind] {
		if rule.broken(e) {
			return errors.New(rule.text)
		}
	}
	return nil
}

// composed tells whether the entry says what a liquid consists of.
func (e *Entry) composed() bool {
	return e.NaCl != nil || e.KCl != nil || e.CaCl2 != nil || e.MgCl2 != nil
}
