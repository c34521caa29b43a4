package yard

import (
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
)

// Question is a value that hardly any yard has: likelier a unit that was left out, or a point.
type Question struct {
	Where     string // the table, and its name in quotes where it has one
	Key       string
	Value     quantity.Quantity
	Low, High quantity.Quantity // between which it usually lies
}

// Questions lists them. The usual ranges are common practice, no source.
func (y *Yard) Questions() []Question {
	var all []Question
	y.ask(&all)
	for _, t := range y.Tanks {
		ask(&all, "tank", t.Name, "capacity", t.Capacity, 20*quantity.Gallon, 60000*quantity.Gallon)
		ask(&all, "tank", t.Name, "mix_time", t.MixTime, 5*quantity.Minute, 24*60*quantity.Minute)
		ask(&all, "tank", t.Name, "diameter", t.Shape.Diameter, 12*quantity.Inch, 600*quantity.Inch)
		ask(&all, "tank", t.Name, "length", t.Shape.Length, 12*quantity.Inch, 1200*quantity.Inch)
		ask(&all, "tank", t.Name, "stick", t.Shape.Division, 0.03*quantity.Inch, 6*quantity.Inch)
	}
	for _, k := range y.Trucks {
		ask(&all, "truck", k.Name, "tank", k.Tank, 10*quantity.Gallon, 8000*quantity.Gallon)
	}
	for _, g := range y.Glasses {
		askCalibration(&all, "glass", g.Name, quantity.Temperature(g.Calibration))
	}
	return all
}

// ask asks about what there is one of.
func (y *Yard) ask(all *[]Question) {
	askCalibration(all, "hydrometer", "", y.Calibration)
	band := y.Band()
	ask(all, "target", "", "strength", band.Target, 0.15, 0.265)
	ask(all, "target", "", "low", band.Low, 0.1, 0.265)
	ask(all, "salt", "", "bucket", y.Pile.Bucket, 20*quantity.Pound, 20000*quantity.Pound)
	ask(all, "supply", "", "flow", y.Supply.Flow, quantity.GallonPerMinute, 1500*quantity.GallonPerMinute)
	ask(all, "supply", "", "temperature", y.Supply.Temperature, quantity.Celsius(0), quantity.Celsius(35))
	ask(all, "pump", "", "flow", y.Pump.Flow, 5*quantity.GallonPerMinute, 2000*quantity.GallonPerMinute)
}

// ask adds a question about a value outside its usual range; 0 is not said.
func ask[Q interface {
	~float64
	quantity.Quantity
}](all *[]Question, table, name, key string, value, low, high Q) {
	if value == 0 || value >= low && value <= high {
		return
	}
	*all = append(*all, Question{Where: where(table, name), Key: key, Value: value, Low: low, High: high})
}

func askCalibration(all *[]Question, table, name string, t quantity.Temperature) {
	if t != 0 && !gauge.MarkedFor(t) {
		*all = append(*all, Question{Where: where(table, name), Key: "calibration", Value: t, Low: quantity.Fahrenheit(50), High: quantity.Fahrenheit(100)})
	}
}

func where(table, name string) string {
	if name == "" {
		return table
	}
	return table + " " + name
}
