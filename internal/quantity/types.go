package quantity

import "math"

// Strength is mass of salt per mass of brine (or another mass fraction), 0 to 1.
type Strength float64

// Temperature is in K. Celsius and Fahrenheit are affine, hence functions.
type Temperature float64

// Difference is a temperature difference in K.
type Difference float64

// Volume is in m3.
type Volume float64

// Mass is in kg.
type Mass float64

// Density is in kg/m3; also mass of salt per volume of brine.
type Density float64

// Flow is in m3/s.
type Flow float64

// Duration is in s.
type Duration float64

// SpecificGravity is a density over that of water at the stated temperatures.
type SpecificGravity float64

// SalometerDegrees is a salometer's reading: 100 is saturated brine at 60 F.
type SalometerDegrees float64

// BaumeDegrees is the reading of a Baume hydrometer for heavy liquids.
type BaumeDegrees float64

// Celsius returns the temperature of t degrees Celsius.
func Celsius(t float64) Temperature { return Temperature(t + zeroCelsius) }

// Fahrenheit returns the temperature of t degrees Fahrenheit.
func Fahrenheit(t float64) Temperature { return Celsius((t - 32) * fahrenheitOne) }

// Celsius returns degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - zeroCelsius }

// Fahrenheit returns degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return t.Celsius()/fahrenheitOne + 32 }

// Mass returns the mass of the volume at a density.
func (v Volume) Mass(rho Density) Mass { return Mass(float64(v) * float64(rho)) }

// Volume returns the volume of the mass at a density.
func (m Mass) Volume(rho Density) Volume { return Volume(float64(m) / float64(rho)) }

// Times returns the mass of salt in brine of a strength.
func (m Mass) Times(s Strength) Mass { return Mass(float64(m) * float64(s)) }

// Over returns the time that the volume takes at a flow.
func (v Volume) Over(q Flow) Duration { return Duration(float64(v) / float64(q)) }

// In shows percent.
func (s Strength) In(System) Shown {
	return shown(100*float64(s), "%", hundredthsIfAny)
}

// In shows F or C.
func (t Temperature) In(sys System) Shown {
	if sys == Metric {
		return metric(t.Celsius(), "C", tenthsIfAny)
	}
	return shown(t.Fahrenheit(), "F", tenthsIfAny)
}

// In shows F or C of difference.
func (d Difference) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(d), "C", tenthsIfAny)
	}
	return shown(float64(d)/fahrenheitOne, "F", tenthsIfAny)
}

// In shows gallons or liters, to a tenth below ten and to whole above.
func (v Volume) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(v/Liter), "L", loaded)
	}
	return shown(float64(v/Gallon), "gal", loaded)
}

// In shows pounds, to 5 as they are loaded (to 1 below 20), or kilograms.
func (m Mass) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(m/Kilogram), "kg", loaded)
	}
	return shown(float64(m/Pound), "lb", bucket)
}

// In shows lb/gal or kg/m3.
func (d Density) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(d), "kg/m3", whole)
	}
	return shown(float64(d/PoundPerGallon), "lb/gal", hundredths)
}

// In shows gallons or liters a minute.
func (q Flow) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(q/LiterPerMinute), "L/min", flowing)
	}
	return shown(float64(q/GallonPerMinute), "gal/min", flowing)
}

// In shows minutes.
func (d Duration) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(d/Minute), "min", loaded)
	}
	return shown(float64(d/Minute), "min", loaded)
}

// In shows three decimals, the finest that a hydrometer is read to.
func (g SpecificGravity) In(System) Shown { return shown(float64(g), "", thousandths) }

// In shows tenths of a degree.
func (d SalometerDegrees) In(System) Shown { return shown(float64(d), "deg", tenths) }

// In shows tenths of a degree.
func (d BaumeDegrees) In(System) Shown { return shown(float64(d), "deg", tenths) }

// The range of temperatures in a yard, in C, with room.
const coldest, hottest = -100, 150

var (
	strengthDim = dimension{
		name: "a strength", example: "23.3%", low: 0, high: 1,
		units: []unit{{names: []string{"%", "pct"}, scale: 0.01}},
	}
	temperatureDim = dimension{
		name: "a temperature", example: "41F or 5C",
		low: coldest + zeroCelsius, high: hottest + zeroCelsius,
		units: []unit{
			{names: []string{"F", "°F", "degF", "deg F"}, scale: fahrenheitOne, shift: zeroCelsius - 32*fahrenheitOne},
			{names: []string{"C", "°C", "degC", "deg C"}, scale: 1, shift: zeroCelsius},
			{names: []string{"K"}, scale: 1},
		},
	}
	volumeDim = dimension{
		name: "a volume", example: "500gal or 1900L", low: 0, high: 1e5,
		units: []unit{
			{names: []string{"gal", "gals", "gallon", "gallons"}, scale: float64(Gallon)},
			{names: []string{"L", "liter", "liters", "litre", "litres"}, scale: 1e-3},
			{names: []string{"kL"}, scale: 1},
			{names: []string{"m3"}, scale: 1},
		},
	}
	massDim = dimension{
		name: "a weight", example: "1300lb or 600kg", low: 0, high: 1e8,
		units: []unit{
			{names: []string{"lb", "lbs"}, scale: float64(Pound)},
			{names: []string{"kg"}, scale: 1},
			{names: []string{"ton", "tons"}, scale: float64(shortTon)},
			{names: []string{"t", "tonne", "tonnes"}, scale: 1000},
			{names: []string{"g"}, scale: 1e-3},
			{names: []string{"oz"}, scale: float64(Pound) / 16},
		},
	}
	densityDim = dimension{
		name: "a density", example: "9.82lb/gal or 1177kg/m3", low: 1, high: 1e4,
		units: []unit{
			{names: []string{"lb/gal", "lbs/gal"}, scale: float64(PoundPerGallon)},
			{names: []string{"kg/m3", "g/L"}, scale: 1},
			{names: []string{"kg/L", "g/mL", "g/cm3"}, scale: 1000},
		},
	}
	flowDim = dimension{
		name: "a flow", example: "30gal/min or 110L/min", low: 0, high: 10,
		units: []unit{
			{names: []string{"gal/min", "gpm"}, scale: float64(GallonPerMinute)},
			{names: []string{"L/min"}, scale: float64(LiterPerMinute)},
			{names: []string{"L/s"}, scale: 1e-3},
			{names: []string{"m3/h"}, scale: 1.0 / 3600},
			{names: []string{"m3/s"}, scale: 1},
		},
	}
	gravityDim = dimension{
		name: "a specific gravity", example: "1.178", low: 0.5, high: 2,
		units: []unit{{scale: 1}},
	}
	salometerDim = dimension{
		name: "a salometer reading", example: "88", low: -10, high: 120,
		units: []unit{{names: []string{"deg", "degrees"}, scale: 1}},
	}
	baumeDim = dimension{
		name: "a Baume reading", example: "21.9", low: -10, high: 70,
		units: []unit{{names: []string{"deg", "degrees", "Be"}, scale: 1}},
	}
)

// parseAs reads text as a quantity of a dimension. bare is true when it had no unit
// and took the first one of the dimension.
func parseAs[Q ~float64](d *dimension, text string) (q Q, bare bool, err error) {
	si, bare, err := d.parse(text)
	return Q(si), bare, err
}

// ParseStrength reads a strength like 23.3%; a bare number is percent.
func ParseStrength(text string) (Strength, bool, error) { return parseAs[Strength](&strengthDim, text) }

// ParseTemperature reads a temperature like 41F or -5C; a bare number is F.
func ParseTemperature(text string) (Temperature, bool, error) {
	return parseAs[Temperature](&temperatureDim, text)
}

// ParseVolume reads a volume like 500gal or 12kL; a bare number is gallons.
func ParseVolume(text string) (Volume, bool, error) { return parseAs[Volume](&volumeDim, text) }

// ParseMass reads a weight like 1300lb or 2.5ton; a bare number is pounds.
func ParseMass(text string) (Mass, bool, error) { return parseAs[Mass](&massDim, text) }

// ParseDensity reads a density like 9.82lb/gal; a bare number is lb/gal.
func ParseDensity(text string) (Density, bool, error) { return parseAs[Density](&densityDim, text) }

// ParseFlow reads a flow like 30gal/min; a bare number is gal/min.
func ParseFlow(text string) (Flow, bool, error) { return parseAs[Flow](&flowDim, text) }

// ParseSpecificGravity reads a pure number like 1.178.
func ParseSpecificGravity(text string) (SpecificGravity, bool, error) {
	return parseAs[SpecificGravity](&gravityDim, text)
}

// ParseSalometer reads salometer degrees like 88.
func ParseSalometer(text string) (SalometerDegrees, bool, error) {
	return parseAs[SalometerDegrees](&salometerDim, text)
}

// ParseBaume reads Baume degrees like 21.9.
func ParseBaume(text string) (BaumeDegrees, bool, error) {
	return parseAs[BaumeDegrees](&baumeDim, text)
}

// finite reports whether x is a finite number.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
