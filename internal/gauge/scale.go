package gauge

import (
	"math"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Scale is what an instrument's marks, or a weighing, express.
type Scale int

// The scales, with the unit of a reading.
const (
	PercentSalt     Scale = iota // mass fraction of NaCl
	SpecificGravity              // density over that of water, both at calibration
	Salometer                    // degrees, 100 at saturation at 60 F
	Baume                        // degrees, 145 - 145/SG
	Weighed                      // kg/m3 of a weighed volume, no glass afloat
	scaleCount
)

// facts describe a scale.
type facts struct {
	name   string  // of its flag, and in the journal
	words  string  // for the instrument, in a sentence
	kind   string  // of value that its flag takes
	help   string  // of its flag
	floats bool    // so that it has a calibration, and its glass expands
	top    float64 // the last mark; 0 where the marks end with nothing
	// division lies between the marks of the usual one: common practice, no source.
	division float64

	parse    func(text string) (reading float64, bare bool, err error)
	step     func(text string) (step float64, bare bool, err error)
	quantity func(reading float64) quantity.Quantity
	// A row of the journal holds readings as people write them down.
	toRow, fromRow func(float64) float64
	// The density in kg/m3 for which a mark was made, and back, by the glass's
	// calibration in K.
	mark, reading func(k *constants, x, calibration float64) (float64, bool)
}

// scales is the one table of them: whoever adds an instrument adds a row.
var scales = [scaleCount]facts{
	PercentSalt: {
		name: "hydrometer", words: "the hydrometer", kind: "strength",
		help:   "reading of a percent-salt hydrometer (% if no unit)",
		floats: true, top: solution.BrineTop,
		parse: parser(quantity.ParseTypedStrength), quantity: shown[quantity.Strength],
		division: 0.005, step: parser(quantity.ParseStrengthStep),
		toRow: toPercent, fromRow: fromPercent,
		mark: percentMark, reading: percentReading,
	},
	SpecificGravity: {
		name: "sg", words: "the hydrometer", kind: "number",
		help:   "reading of a specific-gravity hydrometer, against water at --cal",
		floats: true,
		parse:  parser(quantity.ParseTypedGravity), quantity: shown[quantity.SpecificGravity],
		division: 0.005, step: parser(quantity.ParseGravityStep),
		toRow: same, fromRow: same,
		mark: gravityMark, reading: gravityReading,
	},
	Salometer: {
		name: "salometer", words: "the salometer", kind: "degrees",
		help:   "reading of a salometer, 100 at saturation",
		floats: true, top: 100 * solution.BrineTop / salometerFull,
		parse: parser(quantity.ParseTypedSalometer), quantity: shown[quantity.SalometerDegrees],
		division: 1, step: parser(quantity.ParseSalometerStep),
		toRow: same, fromRow: same,
		mark: salometerMark, reading: salometerReading,
	},
	Baume: {
		name: "baume", words: "the Baume hydrometer", kind: "degrees",
		help:   "reading of a Baume hydrometer for heavy liquids",
		floats: true,
		parse:  parser(quantity.ParseTypedBaume), quantity: shown[quantity.BaumeDegrees],
		division: 0.5, step: parser(quantity.ParseBaumeStep),
		toRow: same, fromRow: same,
		mark: baumeMark, reading: baumeReading,
	},
	Weighed: {
		name: "weigh", words: "the weighed sample", kind: "density",
		help:  "weight of a measured volume (lb/gal, or kg/L and kg/m3 by its size, if no unit)",
		parse: parser(quantity.ParseDensity), quantity: shown[quantity.Density],
		division: 0.02 * float64(quantity.PoundPerGallon), step: parser(quantity.ParseDensityStep),
		toRow: toPoundPerGallon, fromRow: fromPoundPerGallon,
		mark: weighed, reading: weighed,
	},
}

func (s Scale) facts() *facts { return &scales[s] }

// Scales returns all scales in order.
func Scales() []Scale {
	all := make([]Scale, scaleCount)
	for i := range all {
		all[i] = Scale(i)
	}
	return all
}

// ScaleNamed returns the scale of a name; false when there is none.
func ScaleNamed(name string) (Scale, bool) {
	for s := range scaleCount {
		if s.Name() == name {
			return s, true
		}
	}
	return 0, false
}

// Name returns the word for the scale in flags and in the journal.
func (s Scale) Name() string { return s.facts().name }

// Words names the instrument in a sentence: "the salometer".
func (s Scale) Words() string { return s.facts().words }

// Kind returns the kind of value that the scale's flag takes: "degrees".
func (s Scale) Kind() string { return s.facts().kind }

// Help returns the help text of the scale's flag.
func (s Scale) Help() string { return s.facts().help }

// Floats reports whether the instrument floats, and so has a calibration.
func (s Scale) Floats() bool { return s.facts().floats }

// Parse reads a text as a reading. bare tells that it came without a unit. The
// errors are those of package quantity.
func (s Scale) Parse(text string) (reading float64, bare bool, err error) {
	return s.facts().parse(text)
}

// Division is what lies between the marks of the usual instrument of the scale, in the unit of a
// reading: half a percent, 0.005 of gravity, a salometer degree, half a degree Baume,
// 0.02 lb/gal of a weighed gallon. Common practice, no source.
func (s Scale) Division() float64 { return s.facts().division }

// ParseStep reads a text as the difference of two readings. bare tells that it came without a unit, and
// took that of the crew: of a metric one, kg/L below a half, and kg/m3 above. The errors are those of package
// quantity.
func (s Scale) ParseStep(sys quantity.System, text string) (step float64, bare bool, err error) {
	const fine = 0.5
	text = quantity.Plain(text)
	step, bare, err = s.facts().step(text)
	if err != nil || !bare || s.Floats() || sys == quantity.US {
		return step, bare, err
	}
	unit := "kg/m3"
	if math.Abs(step/float64(quantity.PoundPerGallon)) < fine {
		unit = "kg/L"
	}
	step, _, err = s.facts().step(text + unit)
	return step, true, err
}

// Quantity returns a reading as a quantity of its scale.
func (s Scale) Quantity(reading float64) quantity.Quantity { return s.facts().quantity(reading) }

// ToRow returns a reading as a row of the journal holds it: strengths in percent,
// weights in lb/gal, others as they are.
func (s Scale) ToRow(reading float64) float64 { return s.facts().toRow(reading) }

// FromRow is the inverse of ToRow.
func (s Scale) FromRow(x float64) float64 { return s.facts().fromRow(x) }

func parser[Q ~float64](parse func(string) (Q, bool, error)) func(string) (float64, bool, error) {
	return func(text string) (float64, bool, error) {
		q, bare, err := parse(text)
		return float64(q), bare, err
	}
}

func shown[Q interface {
	~float64
	quantity.Quantity
}](reading float64) quantity.Quantity {
	return Q(reading)
}

func same(x float64) float64 { return x }

func toPercent(x float64) float64   { return 100 * x }
func fromPercent(x float64) float64 { return x / 100 }

func toPoundPerGallon(x float64) float64   { return x / float64(quantity.PoundPerGallon) }
func fromPoundPerGallon(x float64) float64 { return x * float64(quantity.PoundPerGallon) }
