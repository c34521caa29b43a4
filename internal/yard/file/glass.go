package file

import (
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// scaleWords are the scales by the names that the journal has for them.
func scaleWords() map[string]gauge.Scale {
	all := map[string]gauge.Scale{}
	for _, s := range gauge.Scales() {
		all[s.Name()] = s
	}
	return all
}

func readGlass(t *table, y *yard.Yard) {
	g := yard.Glass{}
	t.readName(&g.Name)
	cal := quantity.Temperature(0)
	t.read(
		oneOf("scale", scaleWords(), &g.Scale).needed(),
		calibration(&cal),
		step("division", &g.Scale, &g.Division).aboveZero(),
		step("offset", &g.Scale, &g.Offset),
		step("offset_sure", &g.Scale, &g.OffsetSure),
		day("checked", &g.Checked),
		flag("usual", &g.Usual),
	)
	g.Calibration = float64(cal)
	t.refuse(t.knows("calibration") && !g.Floats(), "calibration", "nothing floats in a weighed sample; allowed: no calibration")
	checkSteps(t, g.Division, g.OffsetSure)
	other, taken := y.UsualGlass(g.Scale)
	t.refuse(g.Usual && taken && other.Usual, "usual", "%s is the usual one of its scale already; allowed: one", words.Quoted(other.Name))
	y.Glasses = append(y.Glasses, g)
}

func readThermometer(t *table, y *yard.Yard) {
	m := &y.Thermometer
	var division, offset, sure quantity.Difference
	t.read(
		number("division", quantity.ParseDifference, &division).aboveZero(),
		number("offset", quantity.ParseDifference, &offset),
		number("offset_sure", quantity.ParseDifference, &sure),
		day("checked", &m.Checked),
	)
	m.Division, m.Offset, m.OffsetSure = float64(division), float64(offset), float64(sure)
	checkSteps(t, m.Division, m.OffsetSure)
}

// checkSteps refuses steps below 0, which only an offset may be.
func checkSteps(t *table, division, sure float64) {
	t.refuse(division < 0, "division", "marks cannot lie less than nothing apart; allowed: above 0")
	t.refuse(sure < 0, "offset_sure", "an offset is known within something above 0; allowed: 0 and above")
}

// step is a difference of two readings on a scale, which is read before it.
func step(name string, scale *gauge.Scale, to *float64) key {
	return key{
		name: name,
		read: func(t *table, value any) bool {
			x, ok := parsed(t, name, value, func(text string) (float64, bool, error) {
				return scale.ParseStep(t.r.system, text)
			})
			if ok {
				*to = x
			}
			return ok
		},
		isZero: func() bool { return *to == 0 },
	}
}

// calibration is the temperature for which a glass is marked. A bare number that no glass is marked for
// is asked about.
func calibration(to *quantity.Temperature) key {
	return key{name: "calibration", read: func(t *table, value any) bool {
		q, ok := parsed(t, "calibration", value, func(text string) (quantity.Temperature, bool, error) {
			return gauge.ParseCalibration(t.r.system, text)
		})
		if ok {
			*to = q
		}
		return ok
	}}
}
