package cold

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// standsIn is a tank of the yard whose contents are the liquid; a question can be without one.
type standsIn struct {
	yard.Tank
	flag  *bind.Text
	clock func() time.Time
	every bool        // no liquid was named: every tank is meant
	tanks []yard.Tank // then, as they stand
	weak  []yard.WeakLine
}

func (t *standsIn) given() bool { return t.flag.Given() }

// said is the flag as it was typed.
func (t *standsIn) said() string { return "--tank " + t.flag.Quoted() }

// bind binds the tank, and takes the liquid that stands in it.
func (t *standsIn) bind(b *bind.Set, to *balance.Liquid) {
	var name string
	t.flag = bind.Name(b, &name, "tank", "`name` of a tank of the yard file: what stands in it", bind.TankNames)
	b.Then(func(s *bind.Scope) (err error) {
		t.clock = s.Now
		if t.Tank = (yard.Tank{}); !t.given() {
			return nil
		}
		if t.Tank, err = s.Tank("tank", name); err != nil {
			return err
		}
		if t.Liquid == nil || t.Held() == 0 {
			return fault.Refuse("%s: neither the journal nor the yard file says that anything stands in that tank; allowed: a tank with contents, or --nacl", t.said())
		}
		*to = t.Liquid.Named(t.Name)
		return nil
	})
}

// volume takes what stands in the tank.
func (t *standsIn) volume(string, *bind.Scope) (quantity.Volume, bind.Place, bool) {
	return t.Held(), bind.Place{}, t.Name != "" && t.Held() > 0
}

// stands says what the liquid is, and who said so; nothing without a tank.
func (t *standsIn) stands(v show.View) string {
	if !t.given() {
		return ""
	}
	return v.Say("%s holds %v of %s%s. ", t.Name, t.Held(), v.Contents(*t.Liquid), v.Source(t.Said, t.clock()))
}
