package storm

import (
	"slices"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// Why a plan falls short, one yard for each reason: 1,000 gal stand in store of 2,800.
func TestStormReasons(t *testing.T) {
	wet := yard.Route{Name: "wet", Liquid: balance.BrineName, Lanes: 160 * quantity.Mile,
		Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
		SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))}
	weak := yard.Tank{Name: "weak", Capacity: 5000 * quantity.Gallon, Contents: new(100 * quantity.Gallon), Liquid: new(balance.SaltBrine(0.2))}
	hurry := func(r *Request) { r.Start, r.DownBy = r.Now, r.Now+2*3600 }
	for name, c := range map[string]struct {
		want     []Reason
		onlyTime bool
		change   func(*Request)
	}{
		"none":          {nil, false, func(*Request) {}},
		"time":          {[]Reason{{Why: NoTime}}, true, hurry},
		"time and salt": {[]Reason{{Why: NoTime}, {Why: SaltEnds}}, false, func(r *Request) { hurry(r); *r.Pile.OnHand = 3000 * quantity.Pound }},
		"time and liquid": {[]Reason{{Why: NoTime}, {LiquidEnds, []string{"cal"}}}, false, func(r *Request) {
			hurry(r)
			r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.3).Named("cal")}}
			r.Routes = append(r.Routes, yard.Route{Name: "bought", Liquid: "cal", Lanes: quantity.Mile, Rate: 40 * gallonPerMile})
		}},
		"trucks":                           {[]Reason{{NoTruck, []string{"long", "short"}}}, false, func(r *Request) { r.Trucks[0].Tank = 0 }},
		"dry salt, and no brine is wanted": {[]Reason{{Why: NoDrySalt}}, false, func(r *Request) { r.Routes = []yard.Route{wet} }},
		"reserve": {[]Reason{{Why: NoMixer}}, false, func(r *Request) {
			r.Routes, r.Reserve, r.Mixers = r.Routes[1:], 900*quantity.Gallon, nil
		}},
		"room": {[]Reason{{Why: TanksFull}}, false, func(r *Request) { r.Tanks[0].Capacity, r.Reserve = 1300*quantity.Gallon, 5000*quantity.Gallon }},
		"room but for a tank": {[]Reason{{ToCorrect, []string{"weak"}}, {Why: TanksFull}}, false, func(r *Request) {
			r.Tanks[0].Capacity, r.Reserve = 1300*quantity.Gallon, 5000*quantity.Gallon
			r.Tanks = append(r.Tanks, weak)
		}},
		"a tank, but salt ends first": {[]Reason{{Why: SaltEnds}}, false, func(r *Request) {
			*r.Pile.OnHand, r.Tanks = 0, append(r.Tanks, weak)
		}},
	} {
		r := handYard()
		c.change(&r)
		p, err := Make(r)
		require.NoError(t, err, name)
		require.Equal(t, c.want, p.Reasons(), name)
		require.Equal(t, c.onlyTime, onlyTimeLacks(p), name)
	}
}

// A liquid may have any name: that it runs out is not that there is no truck.
func TestStormLiquidNamedTruck(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.3).Named("truck")}}
	r.Routes[0].Liquid = "truck"
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, []Reason{{LiquidEnds, []string{"truck"}}}, p.Reasons())
}

// onlyTimeLacks tells whether with more time there would be enough.
func onlyTimeLacks(p Plan) bool {
	return p.Production.Shortage == NoShortage && slices.Equal(p.lacks(), []Lack{{Why: NoTime}})
}
