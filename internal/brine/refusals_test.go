package brine

import (
	"math/rand/v2"
	"testing"

	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
)

// wild draws values that reach beyond what is allowed.
type wild struct{ *rand.Rand }

func (w wild) between(low, high float64) float64 { return low + (high-low)*w.Float64() }

func (w wild) strength() quantity.Strength { return quantity.Strength(w.between(-0.005, 0.29)) }

func (w wild) temperature() quantity.Temperature { return quantity.Celsius(w.between(-27, 52)) }

func (w wild) rockSalt() RockSalt {
	return RockSalt{quantity.Strength(w.between(0.48, 1.01)), quantity.Strength(w.between(-0.01, 0.21))}
}

func (w wild) instrument() gauge.Instrument {
	return gauge.Instrument{Scale: gauge.Scale(w.IntN(5)), Calibration: float64(w.temperature())}
}

func (w wild) sample() Sample {
	i := w.instrument()
	ends := [...][2]float64{{-0.01, 0.29}, {0.95, 1.25}, {-5, 112}, {-3, 30}, {950, 1250}}[i.Scale]
	return Sample{i, w.between(ends[0], ends[1]), w.temperature()}
}

func (w wild) liquid() Liquid {
	switch w.IntN(4) {
	case 0:
		return SaltBrine(w.strength())
	case 1:
		return calcium(w.between(0, 0.55))
	case 2:
		sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.2, Temperature: 263}}}
		return OfProduct("sheet", sheet)
	}
	return Liquid{Name: "mixed", Composition: solution.Composition{
		NaCl: w.between(0, 0.2), KCl: w.between(0, 0.1), CaCl2: w.between(0, 0.2), MgCl2: w.between(0, 0.2),
	}}
}

func (w wild) blend() BlendRequest {
	r := BlendRequest{Temperature: w.temperature(), ByWeight: w.IntN(2) == 0, Instrument: w.instrument()}
	for range 1 + w.IntN(3) {
		r.Parts = append(r.Parts, Part{Liquid: w.liquid(), Amount: w.between(-0.1, 10)})
	}
	return r
}

func (w wild) storm(seed uint64) StormRequest {
	r := drawStorm(seed)
	r.Low, r.Temperature, r.Plant.WaterTemp = quantity.Celsius(w.between(-72, 5)), w.temperature(), w.temperature()
	r.Plant.RockSalt, r.Band = w.rockSalt(), BandAround(w.strength())
	for i := range r.Tanks {
		r.Tanks[i].Liquid = w.liquid()
	}
	r.Others[0].Liquid = w.liquid()
	return r
}

// ask puts one request of each kind, and hands on what comes of it.
func (w wild) ask(seed uint64, judge func(what string, err error)) {
	volume := quantity.Volume(w.between(-0.1, 5))
	_, err := NewBatch(BatchRequest{
		Volume: volume, Target: w.strength(), HeelVolume: volume * quantity.Volume(w.between(-0.1, 1.1)), HeelStrength: w.strength(),
		HeelTemp: w.temperature(), WaterTemp: w.temperature(), RockSalt: w.rockSalt(), Bed: quantity.Mass(w.between(0, 20000)), Instrument: w.instrument(),
	})
	judge("batch", err)
	sample := w.sample()
	_, err = Reading(sample)
	judge("reading", err)
	band := Band{Target: w.strength(), Low: w.strength(), High: w.strength()}
	_, err = Check(CheckRequest{Sample: sample, Band: band, Volume: 1, RockSalt: w.rockSalt(), Stock: w.strength(), With: Agent(w.IntN(4))})
	judge("check", err)
	_, err = Freeze(FreezeRequest{Liquid: w.liquid(), StoredAt: w.temperature(), Pavement: quantity.Celsius(w.between(-72, 3)), Curve: true})
	judge("freeze", err)
	blend, ice := w.blend(), quantity.Celsius(w.between(-40, 1))
	_, err = NewBlend(blend)
	judge("blend", err)
	_, err = ShareForIce(blend, ice)
	judge("share", err)
	_, err = KeepClear(blend, ice)
	judge("keep clear", err)
	_, err = Store(StoreRequest{
		Lots: []Lot{{1, w.liquid()}, {volume, w.liquid()}}, Temperature: w.temperature(), Target: w.strength(), With: w.strength(), Instrument: w.instrument(),
	})
	judge("store", err)
	_, err = Truck(TruckRequest{Liquid: w.liquid(), Temperature: w.temperature(), Tank: volume})
	judge("truck", err)
	_, err = PlanStorm(w.storm(seed))
	judge("storm", err)
}

// Whatever is asked is answered, or refused as an InputError that names a field: no
// request reaches the model's own errors, nor the panic of brineDensity.
func TestRefusalsAreOfTheInput(t *testing.T) {
	answered, refused := map[string]int{}, map[string]int{}
	for seed := range uint64(400) {
		w := wild{rand.New(rand.NewPCG(seed, 3))}
		w.ask(seed, func(what string, err error) {
			if err == nil {
				answered[what]++
				return
			}
			refused[what]++
			var input *InputError
			require.ErrorAs(t, err, &input, "%s, seed %d", what, seed)
			require.NotEmpty(t, input.Field)
			require.Contains(t, input.Reason, "allowed", "%s, seed %d", what, seed)
		})
	}
	// Both happen, to each of them.
	require.Len(t, answered, 10)
	require.Len(t, refused, 10)
}
