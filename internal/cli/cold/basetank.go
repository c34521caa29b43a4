package cold

import (
	"slices"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

// baseTank is a tank whose contents are the base of a blend; the other parts go into
// it. A blend can be without one.
type baseTank struct {
	yard.Tank
	flag  *bind.Text
	clock func() time.Time
}

func (t *baseTank) given() bool { return t.flag.Given() }

// said is the flag as it was typed.
func (t *baseTank) said() string { return "--additive-into " + t.flag.Quoted() }

// bind binds the tank, and puts what it holds before the parts, as the rest of 100.
func (t *baseTank) bind(b *bind.Set, parts *[]brine.Part) {
	var name string
	t.flag = bind.Name(b, &name, "additive-into",
		"`tank` of the yard file whose contents are the base, the shares given being of the blend in percent", bind.TankNames)
	b.Then(func(s *bind.Scope) (err error) {
		if !t.given() {
			return nil
		}
		if t.Tank, err = s.Tank("additive-into", name); err != nil {
			return err
		}
		t.clock = s.Now
		additives := 0.0
		for _, p := range *parts {
			additives += p.Amount
		}
		switch {
		case t.Liquid == nil || t.Held() == 0:
			return fault.Refuse("%s: neither the journal nor the yard file says that anything stands in that tank; allowed: a tank with contents and strength", t.said())
		case len(*parts) == 0:
			return fault.Refuse("%s: no additive; allowed: like 20:cacl2@32%%", t.said())
		case !(additives < 100):
			return fault.Refuse("%s: additives of %g leave nothing of the tank; allowed: shares in percent of the blend, below 100 in all", t.said(), additives)
		}
		*parts = slices.Concat([]brine.Part{{Liquid: *t.Liquid, Amount: 100 - additives}}, *parts)
		return nil
	})
}

// amounts makes so much of a blend that its base is all that stands in the tank.
func (t *baseTank) amounts(b brine.Blend) brine.Blend {
	scale := t.Held() / b.Amounts[0]
	b.Amounts = slices.Clone(b.Amounts)
	for i := range b.Amounts {
		b.Amounts[i] *= scale
	}
	b.Total *= scale
	return b
}

// stands says what the base is, and who said so.
func (t *baseTank) stands(v show.View) string {
	return v.Say("Into the %v in %s%s: ", t.Held(), t.Name, v.Source(t.Said, t.clock()))
}

// figures say what goes in, and whether it fits.
func (t *baseTank) figures(v show.View, b brine.Blend) []report.Figure {
	additives := quantity.Volume(0)
	for _, volume := range b.Amounts[1:] {
		additives += volume
	}
	fits := report.Word(show.YesNo(b.Total <= t.Capacity))
	fits.Text += v.Say(", tank %s holds %v", t.Name, t.Capacity)
	return []report.Figure{
		v.Figure("additive_to_add", "Additive to pump in, in all", additives),
		v.Figure("final_volume", "Comes to", b.Total),
		{Key: "fits", Label: "Fits the tank", Value: fits},
	}
}
