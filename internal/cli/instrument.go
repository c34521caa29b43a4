package cli

import (
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/words"

	"github.com/spf13/pflag"
)

// readingFlags are the flags of the instruments, of which a command takes one.
type readingFlags struct {
	percent   *input[quantity.Strength]
	gravity   *input[quantity.SpecificGravity]
	salometer *input[quantity.SalometerDegrees]
	baume     *input[quantity.BaumeDegrees]
	weigh     *input[quantity.Density]
	cal       *input[quantity.Temperature]
}

func addReadingFlags(f *pflag.FlagSet) *readingFlags {
	return &readingFlags{
		percent:   strengthFlag(f, "hydrometer", "reading of a percent-salt hydrometer"),
		gravity:   flag(f, "number", quantity.ParseSpecificGravity, "sg", "reading of a specific-gravity hydrometer, against water at --cal"),
		salometer: flag(f, "degrees", quantity.ParseSalometer, "salometer", "reading of a salometer, 100 at saturation"),
		baume:     flag(f, "degrees", quantity.ParseBaume, "baume", "reading of a Baume hydrometer for heavy liquids"),
		weigh:     flag(f, "density", quantity.ParseDensity, "weigh", "weight of a measured volume (lb/gal if no unit)"),
		cal:       temperatureFlag(f, "cal", "temperature for which the hydrometer is marked; 60F unless given"),
	}
}

// scaleNames are the flags, in the order of gauge's scales.
var scaleNames = []string{"hydrometer", "sg", "salometer", "baume", "weigh"}

// options lists the instruments' flags for messages.
func instrumentOptions() string {
	return "--" + strings.Join(scaleNames[:4], ", --") + " or --" + scaleNames[4]
}

// scaleWords name the instrument in a sentence.
var scaleWords = [...]string{
	gauge.PercentSalt:     "the hydrometer",
	gauge.SpecificGravity: "the hydrometer",
	gauge.Salometer:       "the salometer",
	gauge.Baume:           "the Baume hydrometer",
	gauge.Weighed:         "the weighed sample",
}

// given lists the instruments that were used, with their readings.
func (r *readingFlags) given() (scales []gauge.Scale, readings []float64) {
	note := func(given bool, scale gauge.Scale, reading float64) {
		if given {
			scales = append(scales, scale)
			readings = append(readings, reading)
		}
	}
	note(r.percent.given, gauge.PercentSalt, float64(r.percent.value))
	note(r.gravity.given, gauge.SpecificGravity, float64(r.gravity.value))
	note(r.salometer.given, gauge.Salometer, float64(r.salometer.value))
	note(r.baume.given, gauge.Baume, float64(r.baume.value))
	note(r.weigh.given, gauge.Weighed, float64(r.weigh.value))
	return scales, readings
}

// text returns the words given for a scale, and whether the unit was left out.
func (r *readingFlags) text(scale gauge.Scale) (string, bool) {
	switch scale {
	case gauge.SpecificGravity:
		return r.gravity.text, false
	case gauge.Salometer:
		return r.salometer.text, false
	case gauge.Baume:
		return r.baume.text, false
	case gauge.Weighed:
		return r.weigh.text, r.weigh.bare
	default:
		return r.percent.text, false
	}
}

// sample makes a sample of exactly one reading and its temperature.
func (r *readingFlags) sample(s *setting, temp *input[quantity.Temperature]) (brine.Sample, error) {
	scales, readings := r.given()
	switch {
	case len(scales) == 0:
		return brine.Sample{}, usagef("no reading; allowed: one of %s", instrumentOptions())
	case len(scales) > 1:
		return brine.Sample{}, usagef("--%s and --%s: two readings; allowed: one of %s",
			scaleNames[scales[0]], scaleNames[scales[1]], instrumentOptions())
	}
	text, bare := r.text(scales[0])
	if !temp.given {
		return brine.Sample{}, usagef("--temp is missing: --%s %s means nothing without the sample's temperature; allowed: like --temp 41F",
			scaleNames[scales[0]], words.Quoted(text))
	}
	instrument, err := r.instrument(s, scales[0])
	if err != nil {
		return brine.Sample{}, err
	}
	sample := brine.Sample{
		Instrument:  instrument,
		Reading:     readings[0],
		Temperature: take(s, fault.FieldTemperature, "temp", temp, nil, "", 0),
	}
	s.given(fault.FieldReading, scaleNames[scales[0]], text, bare, sample.Shown())
	return sample, nil
}

// instrument is the one with which a scale is read: calibrated as the flag says,
// else as the yard file says, else at 60 F.
func (r *readingFlags) instrument(s *setting, scale gauge.Scale) (gauge.Instrument, error) {
	i := gauge.Instrument{Scale: scale, Calibration: gauge.DefaultCalibration}
	if scale == gauge.Weighed {
		if r.cal.given {
			return i, usagef("--cal goes with a hydrometer, not with --weigh; allowed: one of them")
		}
		return i, nil
	}
	var file *quantity.Temperature
	if s.yard != nil {
		file = ifKnown(s.yard.Calibration)
	}
	i.Calibration = float64(take(s, fault.FieldCalibration, "cal", r.cal, file, "hydrometer.calibration",
		quantity.Temperature(gauge.DefaultCalibration)))
	return i, nil
}
