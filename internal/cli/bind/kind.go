package bind

import "brineyard/internal/quantity"

// Kind is how a quantity is typed.
type Kind[Q any] struct {
	Name  string // in help
	Bare  string // units of a bare number, US and metric; empty where there is but one
	Parse func(string) (q Q, bare bool, err error)
}

// ifBare tells in help which unit a bare number has.
func (k Kind[Q]) ifBare() string {
	if k.Bare == "" {
		return ""
	}
	return " (" + k.Bare + " if no unit)"
}

// The kinds of quantities.
var (
	Strength    = Kind[quantity.Strength]{"strength", "%", quantity.ParseTypedStrength}
	purities    = Kind[quantity.Strength]{"strength", "%", quantity.ParseStrength}
	moistures   = Kind[quantity.Strength]{"strength", "%", quantity.ParseTypedMoisture}
	Temperature = Kind[quantity.Temperature]{"temperature", "F or C", quantity.ParseTemperature}
	Volume      = Kind[quantity.Volume]{"volume", "gal or L", quantity.ParseVolume}
	Mass        = Kind[quantity.Mass]{"weight", "lb or kg", quantity.ParseMass}
	Flow        = Kind[quantity.Flow]{"flow", "gal/min or L/min", quantity.ParseFlow}
	RatePerLane = Kind[quantity.RatePerLength]{"rate", "gal/mi or L/km", quantity.ParseRatePerLength}
	RatePerArea = Kind[quantity.RatePerArea]{"rate", "gal/acre or L/ha", quantity.ParseRatePerArea}
	Speed       = Kind[quantity.Speed]{"speed", "mph or km/h", quantity.ParseSpeed}
	Width       = Kind[quantity.Width]{"width", "ft or m", parseWidth}
	Duration    = Kind[quantity.Duration]{"time", "min", quantity.ParseDuration}
	Money       = Kind[quantity.Money]{"money", "", quantity.ParseMoney}
)

func parseWidth(text string) (quantity.Width, bool, error) {
	l, bare, err := quantity.ParseWidth(text)
	return quantity.Width(l), bare, err
}
