package storm

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

func wildStorm(w wild.Wild, seed uint64) Request {
	r := drawStorm(seed)
	r.Low, r.Temperature, r.Supply.Temperature = quantity.Celsius(w.Between(-72, 5)), w.Temperature(), w.Temperature()
	r.Pile.Quality, r.Band = w.RockSalt(), yard.BandAround(w.Strength())
	for i := range r.Tanks {
		r.Tanks[i].Liquid = new(w.Liquid())
	}
	r.Others[0].Liquid = w.Liquid()
	return r
}

// Whatever storm is asked about is planned, or refused as an InputError that names a field.
func TestStormRefusalsAreOfTheInput(t *testing.T) {
	planned, refused := 0, 0
	for seed := range uint64(400) {
		_, err := Make(wildStorm(wild.New(seed), seed))
		if faulttest.RequireOfTheInput(t, err, "storm", seed) {
			refused++
		} else {
			planned++
		}
	}
	require.Positive(t, planned)
	require.Positive(t, refused)
}

func TestStormRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		field  string
		change func(*Request)
	}{
		"no routes":  {fault.FieldRoutes, func(r *Request) { r.Routes = nil }},
		"before now": {fault.FieldStart, func(r *Request) { r.Start = r.Now - 1 }},
		"no pump":    {fault.FieldPump, func(r *Request) { r.Pump.Flow = 0 }},
		"no supply":  {fault.FieldSupply, func(r *Request) { r.Supply.Flow = 0 }},
		"no reserve": {fault.FieldReserve, func(r *Request) { r.Reserve = -1 }},
		"no liquid":  {fault.FieldRoutes, func(r *Request) { r.Routes[0].Liquid = "beer" }},
		"no additive": {fault.FieldRoutes, func(r *Request) {
			r.Blends = []yard.Blend{{Name: "b", Additive: "beer", Share: 0.1}}
			r.Routes[0].Liquid = "b"
		}},
		"too strong":  {fault.FieldTarget, func(r *Request) { r.Band = yard.Band{Target: 0.28, Low: 0.27, High: 0.29} }},
		"band upside": {fault.FieldLow, func(r *Request) { r.Band.Low = 0.24 }},
		"hot":         {fault.FieldTemperature, func(r *Request) { r.Temperature = quantity.Celsius(80) }},
	} {
		r := handYard()
		c.change(&r)
		_, err := Make(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// Refusals in words, and of what is found when the yard is taken stock of.
func TestStormRefusalsInWords(t *testing.T) {
	cal := func(s float64) []yard.Liquid {
		return []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: s}}, OnHand: 10 * quantity.Gallon}}
	}
	for _, c := range []struct {
		field, words string
		change       func(*Request)
	}{
		{fault.FieldRoutes, "no liquid is named beer; allowed: brine, cal, mix", func(r *Request) {
			r.Others, r.Blends, r.Routes[0].Liquid = cal(0.3), []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.1}}, "beer"
		}},
		{fault.FieldParts, "not all of the blend stays dissolved at 60 F", func(r *Request) {
			r.Others, r.Blends, r.Routes[0].Liquid = cal(0.38), []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.5}}, "mix"
			r.Band = yard.BandAround(0.255)
		}},
		{fault.FieldStrength, "allowed: 0% to 26.39% (saturated)", func(r *Request) { r.Tanks[0].Liquid = new(balance.SaltBrine(0.3)) }},
		{fault.FieldLow, "allowed: -94 F to 122 F", func(r *Request) { r.Low = quantity.Celsius(-71) }},
		{fault.FieldWaterTemp, "allowed: -13 F to 122 F", func(r *Request) { r.Supply.Temperature = quantity.Celsius(60) }},
		{fault.FieldRoutes, "more salt dissolved in cal than the model covers; allowed: 50% in all", func(r *Request) {
			r.Others, r.Routes[0].Liquid = cal(0.53), "cal"
		}},
		{fault.FieldRoutes, "the additive beer of blend mix is no liquid of the yard; allowed: brine, mix", func(r *Request) {
			r.Blends, r.Routes[0].Liquid = []yard.Blend{{Name: "mix", Additive: "beer", Share: 0.1}}, "mix"
		}},
		{fault.FieldSupply, "without the flow of fresh water", func(r *Request) { r.Supply.Flow = 0 }},
	} {
		r := handYard()
		c.change(&r)
		_, err := Make(r)
		faulttest.RequireRefusal(t, err, c.field, c.words)
	}
}
