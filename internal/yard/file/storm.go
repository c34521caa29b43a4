package file

import (
	"fmt"
	"io/fs"
	"strconv"
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Storm is a storm file: what a forecast and its orders change of a usual day. A
// pointer is nil where the file does not say.
type Storm struct {
	Path       string
	Name       string
	Now, Start *quantity.Duration // times of day
	Low        *quantity.Temperature
	Pavement   []PavementHour // by hour; the coldest counts as the low
	Reserve    *quantity.Volume
	Routes     []StormRoute
}

// PavementHour is a forecast for a time of day.
type PavementHour struct {
	At          quantity.Duration
	Temperature quantity.Temperature
}

// StormRoute changes a route of the yard file for one storm.
type StormRoute struct {
	Name     string
	Passes   int
	Liquid   string
	Priority int
	Skip     bool
	Rate     *quantity.RatePerLength
	AreaRate *quantity.RatePerArea
}

// LoadStorm reads and checks a storm file for a yard. Errors: Faults.
func LoadStorm(open func(string) (fs.File, error), path string, y *yard.Yard) (*Storm, error) {
	text, err := readFile(open, path, "a storm file")
	if err != nil {
		return nil, err
	}
	return ParseStorm(path, text, y)
}

// ParseStorm reads and checks the text of a storm file. Errors: Faults.
func ParseStorm(path string, text []byte, y *yard.Yard) (*Storm, error) {
	r, values, err := decode(path, text)
	if err != nil {
		return nil, err
	}
	s := r.readStorm(values, y)
	s.Path = path
	if err := r.verdict(); err != nil {
		return nil, err
	}
	return s, nil
}

func (r *reader) readStorm(values map[string]any, y *yard.Yard) *Storm {
	root := &table{r: r, value: values}
	s := &Storm{
		Name:    root.text("name"),
		Now:     quantityOf(root, "now", TimeOfDay),
		Start:   quantityOf(root, "start", TimeOfDay),
		Low:     quantityOf(root, "low", quantity.ParseTemperature),
		Reserve: quantityOf(root, "reserve", quantity.ParseVolume),
	}
	if s.Low != nil {
		root.checkPavement("low", "", *s.Low)
	}
	s.Pavement = root.pavement()
	if s.Low != nil && len(s.Pavement) > 0 {
		root.fault("low", "low and pavement are two forecasts; allowed: one of them")
	}
	taken := names{}
	for _, t := range root.list("route") {
		s.Routes = append(s.Routes, readStormRoute(t, taken, y))
	}
	root.done()
	return s
}

// TimeOfDay reads a time like 20:00, as the time since midnight.
func TimeOfDay(text string) (quantity.Duration, bool, error) {
	hours, minutes, ok := strings.Cut(text, ":")
	h, err1 := strconv.ParseUint(hours, 10, 8)
	m, err2 := strconv.ParseUint(minutes, 10, 8)
	if !ok || err1 != nil || err2 != nil || h > 23 || m > 59 || len(minutes) != 2 {
		return 0, false, fmt.Errorf("not a time of day; write it like 20:00, from 0:00 to 23:59")
	}
	return quantity.Duration(h*60+m) * quantity.Minute, false, nil
}

// pavement reads a list of pairs of time and temperature.
func (t *table) pavement() []PavementHour {
	v, ok := t.take("pavement")
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok || len(list) == 0 {
		t.fault("pavement", "pavement takes a list of pairs, like [[\"22:00\", \"24F\"], [\"2:00\", \"19F\"]]")
		return nil
	}
	var hours []PavementHour
	for i, e := range list {
		pair, _ := e.([]any)
		if len(pair) != 2 {
			t.fault("pavement", "row %d of pavement is no pair of time and temperature", i+1)
			continue
		}
		first, _ := scalar(pair[0])
		second, _ := scalar(pair[1])
		at, _, err1 := TimeOfDay(first)
		degrees, _, err2 := quantity.ParseTemperature(second)
		switch {
		case err1 != nil:
			t.fault("pavement", "row %d of pavement: time %s: %v", i+1, words.Quoted(first), err1)
		case err2 != nil:
			t.fault("pavement", "row %d of pavement: temperature %s: %v", i+1, words.Quoted(second), err2)
		default:
			t.checkPavement("pavement", fmt.Sprintf("row %d of ", i+1), degrees)
			hours = append(hours, PavementHour{at, degrees})
		}
	}
	return hours
}

// The pavement temperatures that a storm is planned for.
var coldestPavement, warmestPavement = quantity.Celsius(-45), quantity.Celsius(40)

// checkPavement refuses what no storm has.
func (t *table) checkPavement(key, row string, at quantity.Temperature) {
	if at < coldestPavement || at > warmestPavement {
		t.fault(key, "%s%s: outside what is planned for; allowed: %v to %v (%v to %v)", row, key, coldestPavement.In(quantity.US), warmestPavement.In(quantity.US),
			coldestPavement.In(quantity.Metric), warmestPavement.In(quantity.Metric))
	}
}

func readStormRoute(t *table, taken names, y *yard.Yard) StormRoute {
	r := StormRoute{
		Name:     t.uniqueName(taken),
		Passes:   t.count("passes"),
		Priority: t.count("priority"),
		Liquid:   t.text("liquid"),
		Skip:     t.flag("skip"),
	}
	known := false
	for _, route := range y.Routes {
		if route.Name != r.Name {
			continue
		}
		known = true
		_, rated := t.value["rate"]
		switch {
		case rated && route.Prewet > 0:
			t.fault("rate", "%sa pre-wetted route has no rate of its own; allowed: passes, or another salt_rate in the yard file", t.label())
		case route.Area > 0:
			r.AreaRate = quantityOf(t, "rate", quantity.ParseRatePerArea)
		default:
			r.Rate = quantityOf(t, "rate", quantity.ParseRatePerLength)
		}
	}
	t.take("rate")
	if !known && r.Name != "" {
		t.fault("name", "route: the yard file has no route %s%s", words.Quoted(r.Name), hint(r.Name, y.RouteNames()))
	}
	if r.Liquid != "" && !y.Sprays(r.Liquid) {
		t.fault("liquid", "%sno liquid and no blend is named %s", t.label(), words.Quoted(r.Liquid))
	}
	t.done()
	return r
}

// flag reads true or false; false when it is not there.
func (t *table) flag(key string) bool {
	v, ok := t.take(key)
	if !ok {
		return false
	}
	b, ok := v.(bool)
	if !ok {
		t.fault(key, "%s%s takes true or false, not %s", t.label(), key, kind(v))
	}
	return b
}
