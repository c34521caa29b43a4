package brine

import (
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/sure"
)

// BatchRange is how well the amounts of a batch are known, as far as the heel leaves them open.
type BatchRange struct {
	Water Span[quantity.Volume]
	Salt  Span[quantity.Mass] // to load
	// WaterSure is what makes the water unsure, in m3, and SaltSure the salt, in kg.
	WaterSure, SaltSure sure.Budget
}

// Range works a batch out again beside the heel's volume and strength: what is not known of these goes
// over to water and salt by their slopes. Errors: those of NewBatch.
func (r BatchRequest) Range(b Batch) (BatchRange, error) {
	var out BatchRange
	if half := min(r.HeelVolumeHalf, r.HeelVolume, r.Volume-r.HeelVolume) / 2; half > 0 {
		perWater, perSalt, err := r.slopes(b, float64(half), func(q *BatchRequest, by float64) { q.HeelVolume += quantity.Volume(by) })
		if err != nil {
			return BatchRange{}, err
		}
		stick := sure.Budget{}.And(sure.Part{Name: PartStick, Half: float64(r.HeelVolumeHalf)})
		out.WaterSure, out.SaltSure = stick.Times(perWater), stick.Times(perSalt)
	}
	if half := r.HeelSure.Half(); half > 0 && r.HeelVolume > 0 {
		perWater, perSalt, err := r.slopes(b, half/2, func(q *BatchRequest, by float64) {
			q.HeelStrength = min(solution.MaxSolute, max(0, q.HeelStrength+quantity.Strength(by)))
		})
		if err != nil {
			return BatchRange{}, err
		}
		out.WaterSure = r.HeelSure.Times(perWater).And(out.WaterSure.Parts...)
		out.SaltSure = r.HeelSure.Times(perSalt).And(out.SaltSure.Parts...)
	}
	out.Water = around(b.Water, quantity.Volume(out.WaterSure.Half()), 0, r.Volume)
	out.Salt = around(b.SaltToLoad, quantity.Mass(out.SaltSure.Half()), 0, 2*b.SaltToLoad+b.BrineMass)
	return out, nil
}

// slopes are the changes of water (m3) and salt (kg) with what change makes of the request, by a
// difference on that side of it where there is a batch.
func (r BatchRequest) slopes(b Batch, by float64, change func(q *BatchRequest, by float64)) (water, salt float64, err error) {
	for _, way := range []float64{by, -by} {
		beside := r
		change(&beside, way)
		var there Batch
		if there, err = NewBatch(beside); err == nil {
			return float64(there.Water-b.Water) / way, float64(there.SaltToLoad-b.SaltToLoad) / way, nil
		}
	}
	return 0, 0, err
}
