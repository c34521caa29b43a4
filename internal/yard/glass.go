package yard

import (
	"time"

	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
)

// Glass is an instrument that tells strengths. As the file has it: a Calibration or a Division of 0 is
// not said there; Complete fills them in.
type Glass struct {
	Name string
	gauge.Instrument
	Checked time.Time // when its offset was last looked for; zero for never
	Usual   bool      // it is meant where none is named
}

// Thermometer is the yard's. A Division of 0 is not said in the file.
type Thermometer struct {
	gauge.Thermometer
	Checked time.Time
}

// GlassNamed finds a glass of the yard.
func (y *Yard) GlassNamed(name string) (Glass, bool) {
	for _, g := range y.Glasses {
		if g.Name == name {
			return g, true
		}
	}
	return Glass{}, false
}

// UsualGlass is the glass that is meant where only a scale is: the one marked as usual, else the first of
// that scale. It is false where the yard describes none.
func (y *Yard) UsualGlass(scale gauge.Scale) (found Glass, ok bool) {
	for _, g := range y.Glasses {
		if g.Scale == scale && (!ok || g.Usual && !found.Usual) {
			found, ok = g, true
		}
	}
	return found, ok
}

// Complete returns the instrument with what the file does not say of it: marked for the temperature of
// the yard's hydrometer, and as finely as the usual one of its scale.
func (y *Yard) Complete(g Glass) gauge.Instrument {
	i := g.Instrument
	switch {
	case !i.Floats():
		i.Calibration = gauge.DefaultCalibration
	case i.Calibration == 0:
		i.Calibration = float64(y.HydrometerCalibration())
	}
	if i.Division == 0 {
		i.Division = i.Scale.Division()
	}
	return i
}

// Instrument is the one that tells a strength on a scale where none is named.
func (y *Yard) Instrument(scale gauge.Scale) gauge.Instrument {
	g, _ := y.UsualGlass(scale)
	g.Scale = scale
	return y.Complete(g)
}

// ThermometerInUse is the yard's, marked like the usual one where the file does not say.
func (y *Yard) ThermometerInUse() gauge.Thermometer {
	return y.Thermometer.Reads(valueOr(y.Units, quantity.US))
}

// LastChecked is when the usual instruments were last checked: of several, the check that is the longest
// ago. It is zero where one was never checked.
func (y *Yard) LastChecked() time.Time {
	if len(y.Glasses) == 0 {
		return y.Checked
	}
	oldest := y.Glasses[0].Checked
	for _, g := range y.Glasses[1:] {
		if g.Checked.Before(oldest) {
			oldest = g.Checked
		}
	}
	return oldest
}

// Reads returns the yard's thermometer, marked like the usual one of a crew where the file does not say.
func (t Thermometer) Reads(sys quantity.System) gauge.Thermometer {
	if t.Division == 0 {
		t.Division = gauge.UsualThermometer(sys).Division
	}
	return t.Thermometer
}

// CheckedMonths is for how long the check of an instrument holds: a season. Common practice, no
// source.
const CheckedMonths = 6

// CheckDue reports whether a check of an instrument is over a season old at a time. It is false where no
// check is known of.
func CheckDue(checked, now time.Time) bool {
	return !checked.IsZero() && !now.Before(checked.AddDate(0, CheckedMonths, 0))
}
