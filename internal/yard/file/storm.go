package file

import (
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Storm is a storm file: the forecast, and the orders that differ from a usual day. A pointer
// is nil where the file does not say.
type Storm struct {
	Path string
	Name string
	// Now, Start and DownBy are times as PlanTime reads them.
	Now, Start, DownBy *quantity.Duration
	Passes             []StormPass // the windows of the first pass, the second and so on
	Low                *quantity.Temperature
	Pavement           []PavementHour // by hour; the coldest counts as the low
	Reserve            *quantity.Volume
	Routes             []StormRoute
}

// PavementHour is a forecast for a time of day.
type PavementHour struct {
	At          quantity.Duration
	Temperature quantity.Temperature
}

// StormPass is when a pass may leave, and when it must lie on the road; times as PlanTime reads them.
type StormPass struct{ Start, DownBy *quantity.Duration }

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
	root, s := &table{r: r, value: values}, &Storm{}
	if y != nil {
		r.system = orZero(y.Units)
	}
	root.read(
		text("name", &s.Name),
		optional("now", PlanTime, &s.Now),
		optional("start", PlanTime, &s.Start),
		optional("down_by", PlanTime, &s.DownBy),
		optional("low", quantity.ParseTemperature, &s.Low),
		optional("reserve", quantity.ParseVolume, &s.Reserve),
		pavement(&s.Pavement),
	)
	if s.Low != nil {
		root.checkPavement("low", "", *s.Low)
	}
	root.refuse(s.Low != nil && len(s.Pavement) > 0, "low", "low and pavement are two forecasts; allowed: one of them")
	for _, t := range root.list("pass", map[string]bool{}) {
		p := StormPass{}
		t.read(optional("start", PlanTime, &p.Start), optional("down_by", PlanTime, &p.DownBy))
		t.refuse(p.Start == nil, "start", "a pass needs the time from which trucks may leave for it, like start = \"20:00\"")
		s.Passes = append(s.Passes, p)
		t.done()
	}
	root.refuse(len(s.Passes) > 0 && (s.Start != nil || s.DownBy != nil), "start", "start and down_by stand in each [[pass]], or above them; allowed: one of the two")
	for _, t := range root.list("route", map[string]bool{}) {
		s.Routes = append(s.Routes, readStormRoute(t, y))
		t.done()
	}
	root.done()
	return s
}

// PlanTime reads a time of day, or one of tomorrow, which is a day later, or one of a date, which DateOf tells: it counts
// from the beginning of 1970.
func PlanTime(text string) (quantity.Duration, bool, error) {
	day, clock, ok := strings.Cut(strings.TrimSpace(strings.Replace(text, "T", " ", 1)), " ")
	if !ok {
		at, bare, err := TimeOfDay(day)
		if err != nil {
			err = fmt.Errorf("not a time; write it like 20:00, tomorrow 6:00 or 2026-01-12 14:00")
		}
		return at, bare, err
	}
	at, bare, err := TimeOfDay(strings.TrimSpace(clock))
	if err != nil || day == "tomorrow" {
		return at + 24*60*quantity.Minute, bare, err
	}
	date, err := time.Parse(time.DateOnly, day)
	if err != nil || date.Year() < 1971 {
		return 0, false, fmt.Errorf("not a time; write it like 20:00, tomorrow 6:00 or 2026-01-12 14:00")
	}
	return at + quantity.Duration(date.Unix()), bare, nil
}

// DateOf is the date of a time that PlanTime has read with one.
func DateOf(at quantity.Duration) (time.Time, bool) {
	if at < 2*24*60*quantity.Minute {
		return time.Time{}, false
	}
	return time.Unix(int64(at), 0).UTC(), true
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

// pavement is a list of pairs of time and temperature.
func pavement(to *[]PavementHour) key {
	const name = "pavement"
	time := column[quantity.Duration]{"time", TimeOfDay}
	temperature := column[quantity.Temperature]{"temperature", quantity.ParseTemperature}
	return key{name: name, read: func(t *table, value any) bool {
		list, _ := value.([]any)
		t.refuse(len(list) == 0, name, "pavement takes a list of pairs, like [[\"22:00\", \"24F\"], [\"2:00\", \"19F\"]]")
		pairs(t, name, list, time, temperature, func(row int, at quantity.Duration, degrees quantity.Temperature) {
			t.checkPavement(name, fmt.Sprintf("row %d of ", row), degrees)
			*to = append(*to, PavementHour{at, degrees})
		})
		return len(*to) > 0
	}}
}

// checkPavement refuses a temperature that no storm is planned for.
func (t *table) checkPavement(key, row string, at quantity.Temperature) {
	coldest, warmest := yard.PavementLimits()
	t.refuse(at < coldest || at > warmest, key, "%s%s: outside what is planned for; allowed: %v to %v (%v to %v)", row, key,
		coldest.In(quantity.US), warmest.In(quantity.US), coldest.In(quantity.Metric), warmest.In(quantity.Metric))
}

func readStormRoute(t *table, y *yard.Yard) StormRoute {
	r := StormRoute{}
	t.readName(&r.Name)
	t.read(count("passes", &r.Passes), count("priority", &r.Priority), text("liquid", &r.Liquid), flag("skip", &r.Skip))
	route, known := y.Route(r.Name)
	switch {
	case known && t.has("rate") && route.Prewet > 0:
		t.fault("rate", "a pre-wetted route has no rate of its own; allowed: passes, or another salt_rate in the yard file")
	case known && route.Area > 0:
		t.read(optional("rate", quantity.ParseRatePerArea, &r.AreaRate))
	case known:
		t.read(optional("rate", quantity.ParseRatePerLength, &r.Rate))
	case r.Name != "":
		t.nameFault("the yard file has no route %s%s", words.Quoted(r.Name), hint(r.Name, y.RouteNames()))
	}
	t.take("rate")
	t.checkSprayed(r.Liquid, y)
	return r
}
