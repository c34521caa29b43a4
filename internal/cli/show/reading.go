package show

import (
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// ReadingFigures are what a reading means, for every command that takes one.
func (v View) ReadingFigures(r brine.ReadingResult) []report.Figure {
	return append(v.StrengthFigures(r),
		v.Figure("specific_gravity", "Specific gravity, 60/60 F", r.Gravity()),
		v.Figure("density", v.Say("Density at %v", r.Sample.Temperature), r.Density),
		v.Figure("salt_per_volume", "Salt in it", r.SaltPerVolume),
	)
}

// StrengthFigures are the strengths that a reading looks like and means.
func (v View) StrengthFigures(r brine.ReadingResult) []report.Figure {
	half := r.Half
	return append([]report.Figure{v.Figure("apparent_strength", "Apparent strength", v.Sure(r.Apparent, half))},
		Ranged(v, v.Figure("true_strength", "True strength", v.True(r)), r.Range.Low, r.Range.High)...)
}

// DensityNotes say when densities were asked for outside their fit.
func (v View) DensityNotes(w quantity.Strength, t quantity.Temperature) []string {
	if len(solution.OutOfRange(solution.DensityFit, solution.Brine(float64(w)), float64(t))) == 0 {
		return nil
	}
	return []string{v.Say("The density fit for brine begins at %v; below it the strength may be off by 0.1.", quantity.Celsius(0))}
}
