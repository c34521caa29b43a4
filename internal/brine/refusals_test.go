package brine

import (
	"testing"

	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

func sampleOf(w wild.Wild) Sample {
	i := w.Instrument()
	ends := [...][2]float64{{-0.01, 0.29}, {0.95, 1.25}, {-5, 112}, {-3, 30}, {950, 1250}}[i.Scale]
	i.Division, i.OffsetSure = i.Scale.Division(), w.Between(0, 0.5*i.Scale.Division())
	s := Sample{
		Instrument: i, Thermometer: gauge.UsualThermometer(quantity.US), Reading: w.Between(ends[0], ends[1]), Temperature: w.Temperature(),
	}
	for range w.IntN(3) {
		s.More = append(s.More, Shown{s.Reading + w.Between(-i.Division, i.Division), s.Temperature})
	}
	return s
}

func blendOf(w wild.Wild) BlendRequest {
	r := BlendRequest{Temperature: w.Temperature(), ByWeight: w.IntN(2) == 0, Instrument: w.Instrument()}
	for range 1 + w.IntN(3) {
		r.Parts = append(r.Parts, Part{Liquid: w.Liquid(), Amount: w.Between(-0.1, 10)})
	}
	return r
}

// ask puts one request of each kind, and hands on what comes of it.
func ask(w wild.Wild, judge func(what string, err error)) {
	volume := quantity.Volume(w.Between(-0.1, 5))
	_, err := NewBatch(BatchRequest{
		Volume: volume, Target: w.Strength(), HeelVolume: volume * quantity.Volume(w.Between(-0.1, 1.1)), HeelStrength: w.Strength(),
		HeelTemp: w.Temperature(), WaterTemp: w.Temperature(), RockSalt: w.RockSalt(), Bed: quantity.Mass(w.Between(0, 20000)), Instrument: w.Instrument(),
	})
	judge("batch", err)
	sample := sampleOf(w)
	_, err = Reading(sample)
	judge("reading", err)
	band := yard.Band{Target: w.Strength(), Low: w.Strength(), High: w.Strength()}
	_, err = Check(CheckRequest{Sample: sample, Band: band, Volume: 1, RockSalt: w.RockSalt(), Stock: w.Strength(), With: Additive(w.IntN(4))})
	judge("check", err)
	_, err = Freeze(FreezeRequest{Liquid: w.Liquid(), StoredAt: w.Temperature(), Pavement: quantity.Celsius(w.Between(-72, 3)), Curve: true})
	judge("freeze", err)
	blend, ice := blendOf(w), quantity.Celsius(w.Between(-40, 1))
	_, err = NewBlend(blend)
	judge("blend", err)
	_, err = ShareForIce(blend, ice)
	judge("share", err)
	_, err = KeepClear(blend, ice)
	judge("keep clear", err)
	_, err = Store(StoreRequest{
		Lots: []Lot{{Volume: 1, Liquid: w.Liquid(), StrengthHalf: 0.003}, {Volume: volume, Liquid: w.Liquid(), VolumeHalf: volume / 50}}, Temperature: w.Temperature(), Target: w.Strength(), With: w.Strength(), Instrument: w.Instrument(),
	})
	judge("store", err)
}

// Whatever is asked is answered, or refused as an InputError that names a field: no
// request reaches the model's own errors, nor the panic of brineDensity.
func TestRefusalsAreOfTheInput(t *testing.T) {
	answered, refused := map[string]int{}, map[string]int{}
	for seed := range uint64(400) {
		w := wild.New(seed)
		ask(w, func(what string, err error) {
			if faulttest.RequireOfTheInput(t, err, what, seed) {
				refused[what]++
			} else {
				answered[what]++
			}
		})
	}
	// Both happen, to each of them.
	require.Len(t, answered, 8)
	require.Len(t, refused, 8)
}
