package quantity

// Length is in m: of a route's lanes, of a spray boom.
type Length float64

// Area is in m2.
type Area float64

// Speed is in m/s.
type Speed float64

// RatePerLength is the volume of liquid sprayed on a length of one lane, in m3/m.
type RatePerLength float64

// RatePerArea is the volume of liquid sprayed on an area, in m3/m2.
type RatePerArea float64

// Power is in W.
type Power float64

// Units in SI.
const (
	Foot Length = 0.3048 // exact
	Mile Length = 5280 * Foot
	inch Length = Foot / 12

	Acre       Area = Area(43560 * Foot * Foot)
	squareFoot Area = Area(Foot * Foot)

	MilePerHour Speed = Speed(Mile / 3600)

	hour       Duration = 60 * Minute
	horsepower          = 745.6998715822702 // mechanical, W
)

var (
	lengthDim = dimension{
		name: "a length", example: "12.4mi or 20km", low: 0, high: 1e8,
		units: []unit{
			{names: []string{"mi", "mile", "miles"}, scale: float64(Mile)},
			{names: []string{"km"}, scale: 1000},
			{names: []string{"ft"}, scale: float64(Foot)},
			{names: []string{"in"}, scale: float64(inch)},
			{names: []string{"m"}, scale: 1},
		},
	}
	widthDim = dimension{
		name: "a width", example: "12ft or 3.6m", low: 0, high: 1000,
		units: []unit{
			{names: []string{"ft"}, scale: float64(Foot)},
			{names: []string{"in"}, scale: float64(inch)},
			{names: []string{"m"}, scale: 1},
		},
	}
	areaDim = dimension{
		name: "an area", example: "1.8acre or 7300m2", low: 0, high: 1e10,
		units: []unit{
			{names: []string{"acre", "acres", "ac"}, scale: float64(Acre)},
			{names: []string{"ft2", "sqft"}, scale: float64(squareFoot)},
			{names: []string{"m2"}, scale: 1},
			{names: []string{"ha"}, scale: 1e4},
		},
	}
	speedDim = dimension{
		name: "a speed", example: "30mph or 45km/h", low: 0, high: 100,
		units: []unit{
			{names: []string{"mph"}, scale: float64(MilePerHour)},
			{names: []string{"km/h"}, scale: 1 / 3.6},
			{names: []string{"m/s"}, scale: 1},
		},
	}
	ratePerLengthDim = dimension{
		name: "a rate per lane", example: "40gal/mi or 95L/km", low: 0, high: 1,
		units: []unit{
			{names: []string{"gal/mi"}, scale: float64(Gallon) / float64(Mile)},
			{names: []string{"L/km"}, scale: 1e-6},
		},
	}
	ratePerAreaDim = dimension{
		name: "a rate per area", example: "0.5gal/1000ft2 or 25gal/acre", low: 0, high: 1,
		units: []unit{
			{names: []string{"gal/acre"}, scale: float64(Gallon) / float64(Acre)},
			{names: []string{"gal/1000ft2", "gal/1000sqft"}, scale: float64(Gallon) / (1000 * float64(squareFoot))},
			{names: []string{"L/m2"}, scale: 1e-3},
			{names: []string{"L/ha"}, scale: 1e-7},
		},
	}
	powerDim = dimension{
		name: "a power", example: "5hp or 3.7kW", low: 0, high: 1e7,
		units: []unit{
			{names: []string{"hp"}, scale: horsepower},
			{names: []string{"kW"}, scale: 1000},
			{names: []string{"W"}, scale: 1},
		},
	}
	durationDim = dimension{
		name: "a time", example: "45min or 1.5h", low: 0, high: 3.2e7,
		units: []unit{
			{names: []string{"min", "mins"}, scale: float64(Minute)},
			{names: []string{"h", "hr", "hours"}, scale: float64(hour)},
			{names: []string{"s", "sec"}, scale: 1},
		},
	}
)

// ParseLength reads a length like 12.4mi; a bare number is miles.
func ParseLength(text string) (Length, bool, error) { return parseAs[Length](&lengthDim, text) }

// ParseWidth reads the width of a spray like 12ft; a bare number is feet.
func ParseWidth(text string) (Length, bool, error) { return parseAs[Length](&widthDim, text) }

// ParseArea reads an area like 1.8acre; a bare number is acres.
func ParseArea(text string) (Area, bool, error) { return parseAs[Area](&areaDim, text) }

// ParseSpeed reads a speed like 30mph; a bare number is mph.
func ParseSpeed(text string) (Speed, bool, error) { return parseAs[Speed](&speedDim, text) }

// ParseRatePerLength reads a rate like 40gal/mi; a bare number is gal/mi.
func ParseRatePerLength(text string) (RatePerLength, bool, error) {
	return parseAs[RatePerLength](&ratePerLengthDim, text)
}

// ParseRatePerArea reads a rate like 25gal/acre; a bare number is gal/acre.
func ParseRatePerArea(text string) (RatePerArea, bool, error) {
	return parseAs[RatePerArea](&ratePerAreaDim, text)
}

// ParsePower reads a power like 5hp; a bare number is hp.
func ParsePower(text string) (Power, bool, error) { return parseAs[Power](&powerDim, text) }

// ParseDuration reads a time like 45min; a bare number is minutes.
func ParseDuration(text string) (Duration, bool, error) { return parseAs[Duration](&durationDim, text) }

// In shows miles or kilometers.
func (l Length) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(l)/1000, "km", driven)
	}
	return shown(float64(l/Mile), "mi", driven)
}

// Width is a length that is shown in feet or meters.
type Width Length

// In shows feet or meters.
func (w Width) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(w), "m", hundredthsIfAny)
	}
	return shown(float64(w)/float64(Foot), "ft", tenthsIfAny)
}

// In shows horsepower or kilowatts.
func (p Power) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(p)/1000, "kW", tenthsIfAny)
	}
	return shown(float64(p)/horsepower, "hp", tenthsIfAny)
}

// In shows acres or m2.
func (a Area) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(a), "m2", whole)
	}
	return shown(float64(a/Acre), "acre", hundredthsIfAny)
}

// In shows mph or km/h.
func (v Speed) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(v)*3.6, "km/h", tenthsIfAny)
	}
	return shown(float64(v/MilePerHour), "mph", tenthsIfAny)
}

// In shows gal/mi or L/km.
func (r RatePerLength) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(r)*1e6, "L/km", tenthsIfAny)
	}
	return shown(float64(r)/float64(Gallon)*float64(Mile), "gal/mi", tenthsIfAny)
}

// In shows gal/acre or L/ha.
func (r RatePerArea) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(r)*1e7, "L/ha", tenthsIfAny)
	}
	return shown(float64(r)/float64(Gallon)*float64(Acre), "gal/acre", tenthsIfAny)
}

// VolumePerMass is liquid sprayed on salt, in m3/kg.
type VolumePerMass float64

// MassPerLength is salt spread on a lane, in kg/m.
type MassPerLength float64

// PricePerTime is money per s, of labour.
type PricePerTime float64

// PricePerLength is money per m driven.
type PricePerLength float64

var (
	volumePerMassDim = dimension{
		name: "a pre-wetting rate", example: "10gal/ton or 40L/t", low: 0, high: 1,
		units: []unit{
			{names: []string{"gal/ton"}, scale: float64(Gallon) / float64(shortTon)},
			{names: []string{"L/t"}, scale: 1e-6},
		},
	}
	massPerLengthDim = dimension{
		name: "a salt rate", example: "250lb/mi or 70kg/km", low: 0, high: 100,
		units: []unit{
			{names: []string{"lb/mi"}, scale: float64(Pound) / float64(Mile)},
			{names: []string{"kg/km"}, scale: 1e-3},
		},
	}
	pricePerTimeDim = dimension{
		name: "a wage", example: "36/h", low: 0, high: 1e6,
		units: []unit{{names: []string{"/h"}, scale: 1 / float64(hour)}},
	}
	pricePerLengthDim = dimension{
		name: "a price of driving", example: "1.30/mi or 0.80/km", low: 0, high: 1e6,
		units: []unit{
			{names: []string{"/mi"}, scale: 1 / float64(Mile)},
			{names: []string{"/km"}, scale: 1e-3},
		},
	}
)

// ParseVolumePerMass reads a pre-wetting rate like 10gal/ton; a bare number is
// gal/ton.
func ParseVolumePerMass(text string) (VolumePerMass, bool, error) {
	return parseAs[VolumePerMass](&volumePerMassDim, text)
}

// ParseMassPerLength reads a salt rate like 250lb/mi; a bare number is lb/mi.
func ParseMassPerLength(text string) (MassPerLength, bool, error) {
	return parseAs[MassPerLength](&massPerLengthDim, text)
}

// ParsePricePerTime reads a wage like 36/h; a bare number is per hour.
func ParsePricePerTime(text string) (PricePerTime, bool, error) {
	return parsePrice[PricePerTime](&pricePerTimeDim, text)
}

// ParsePricePerLength reads a price like 1.30/mi; a bare number is per mile.
func ParsePricePerLength(text string) (PricePerLength, bool, error) {
	return parsePrice[PricePerLength](&pricePerLengthDim, text)
}

// In shows gal/ton or L/t.
func (v VolumePerMass) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(v)*1e6, "L/t", tenthsIfAny)
	}
	return shown(float64(v)/float64(Gallon)*float64(shortTon), "gal/ton", tenthsIfAny)
}

// In shows lb/mi or kg/km.
func (m MassPerLength) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(m)*1000, "kg/km", tenthsIfAny)
	}
	return shown(float64(m)/float64(Pound)*float64(Mile), "lb/mi", tenthsIfAny)
}

// In shows money per mile or kilometer.
func (p PricePerLength) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(p)*1000, "/km", hundredths)
	}
	return shown(float64(p)*float64(Mile), "/mi", hundredths)
}

// Money is an amount in the yard's own currency.
type Money float64

var moneyDim = dimension{
	name: "an amount of money", example: "1790", low: 0, high: 1e9,
	units: []unit{{scale: 1}},
}

// ParseMoney reads an amount like 1790 or $1790.
func ParseMoney(text string) (Money, bool, error) { return parsePrice[Money](&moneyDim, text) }

// In shows whole units.
func (m Money) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(m), "", whole)
	}
	return shown(float64(m), "", whole)
}
