package quantity

// BulkDensity is the mass of a volume of loose salt, pores included, in kg/m3: shown in lb/ft3 or
// kg/m3.
type BulkDensity float64

// PoundPerCubicFoot is a unit of bulk density.
const PoundPerCubicFoot = BulkDensity(float64(Pound) / (float64(Foot) * float64(Foot) * float64(Foot)))

var bulkDim = dimension{
	name: "a bulk density", example: "80lb/ft3 or 1280kg/m3", low: 100, high: 5000,
	units: []unit{
		{names: []string{"lb/ft3"}, scale: float64(PoundPerCubicFoot)},
		{names: []string{"kg/m3"}, scale: 1},
		{names: []string{"ton/yd3"}, scale: float64(PoundPerCubicFoot) * 2000 / 27},
	},
}

// ParseBulkDensity reads a bulk density like 80lb/ft3; a bare number is lb/ft3.
func ParseBulkDensity(text string) (BulkDensity, bool, error) {
	return parseAs[BulkDensity](&bulkDim, text)
}

// In shows lb/ft3 or kg/m3.
func (d BulkDensity) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(d), "kg/m3", whole)
	}
	return shown(float64(d/PoundPerCubicFoot), "lb/ft3", tenthsIfAny)
}

// Angle is a slope against the level, in degrees.
type Angle float64

var angleDim = dimension{
	name: "an angle", example: "32deg", low: 0, high: 90,
	units: []unit{{names: []string{"deg", "degrees"}, scale: 1}},
}

// ParseAngle reads an angle like 32deg; a bare number is degrees.
func ParseAngle(text string) (Angle, bool, error) { return parseAs[Angle](&angleDim, text) }

// In shows degrees.
func (a Angle) In(System) Shown { return shown(float64(a), "deg", tenthsIfAny) }
