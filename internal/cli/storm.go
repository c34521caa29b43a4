package cli

import (
	"errors"
	"slices"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/storm"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"brineyard/internal/yard/file"

	"github.com/spf13/cobra"
)

type stormOptions struct {
	now, start *input[quantity.Duration]
	low, temp  *input[quantity.Temperature]
	reserve    *input[quantity.Volume]
	rate       *input[quantity.RatePerLength]
	passes     whole
	whatIf     []string
}

func newStorm(env *Env, g *globals) *cobra.Command {
	o := &stormOptions{}
	cmd := &cobra.Command{
		Use:   "storm [FILE]",
		Short: "Gallons, batches, salt, loads, hours and cost for a storm",
		Long: "storm plans a storm from the yard file: what the routes take, what stands in\n" +
			"store, which batches to make and when to begin, what falls short and who gets\n" +
			"it, how the trucks load, what the cold does to the liquids, and what it costs.\n" +
			"A storm file changes routes for one storm; flags stand above it.",
		Example: "  brineyard storm --now 12:00 --start 20:00 --low 19F\n" +
			"  brineyard storm --start 20:00 --low 19F --what-if start=22:00,rate=30",
		Args: oneFile,
		RunE: func(_ *cobra.Command, args []string) error { return runStorm(env, g, o, args) },
	}
	f := cmd.Flags()
	o.now = flag(f, "time", file.TimeOfDay, "now", "when work can begin, like 12:00; noon unless given")
	o.start = flag(f, "time", file.TimeOfDay, "start", "when all is to be ready, like 20:00")
	o.low = temperatureFlag(f, "low", "coldest pavement, and night in the yard")
	o.temp = temperatureFlag(f, "temp", "temperature at which volumes are measured; 60F unless given")
	o.reserve = volumeFlag(f, "reserve", "salt brine to keep back")
	o.rate = flag(f, "rate", quantity.ParseRatePerLength, "rate", "on every lane, instead of the routes' own (gal/mi if no unit)")
	f.Var(&o.passes, "passes", "over every route, instead of the routes' own")
	f.StringArrayVar(&o.whatIf, "what-if", nil, "compare with `changes`: now, start, low, reserve, rate or passes, like rate=30,start=22:00; may be given again")
	return cmd
}

func runStorm(env *Env, g *globals, o *stormOptions, args []string) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	if s.yard == nil {
		return usagef("no yard file, so nothing to plan with; allowed: --yard with a file; yard init writes one")
	}
	orders := &file.Storm{}
	if len(args) == 1 {
		if orders, err = file.LoadStorm(s.env.Open, args[0], s.yard); err != nil {
			return asList(err)
		}
	}
	r, err := o.request(s, orders)
	if err != nil {
		return err
	}
	p, err := storm.Make(r)
	if err != nil {
		return s.inputError(err)
	}
	d := stormDocument(s, r, p)
	if len(o.whatIf) > 0 {
		t, err := o.compare(s, orders, p)
		if err != nil {
			return err
		}
		d.Tables = append([]report.Table{t}, d.Tables...)
	}
	return s.write(d)
}

// asList shows all faults of a file.
func asList(err error) error {
	var faults file.Faults
	if errors.As(err, &faults) {
		return listOf(faults)
	}
	return err
}

// defaults of a plan that nothing else settles.
const (
	noon     = 12 * 60 * quantity.Minute
	oneDay   = 24 * 60 * quantity.Minute
	oneLater = 8 * 60 * quantity.Minute
)

// request gathers yard, storm file and flags.
func (o *stormOptions) request(s *setting, orders *file.Storm) (storm.Request, error) {
	y := s.yard
	none := &input[quantity.Strength]{}
	from := orders.Path
	if from == "" {
		from = y.Path
	}
	r := storm.Request{
		Now:         takeFrom(s, "now", o.now, orders.Now, from, noon),
		Temperature: take(s, fault.FieldTemperature, "temp", o.temp, nil, "", quantity.Fahrenheit(60)),
		Reserve:     takeFrom(s, fault.FieldReserve, o.reserve, orders.Reserve, from, 0),
		Band:        s.band(none, none, none),
		Prices:      y.Prices,
		Blends:      y.Blends,
		Tanks:       y.StorageTanks(),
		Others:      y.Liquids,
		Trucks:      y.Trucks,
		Supply:      y.Supply,
		Pump:        y.Pump,
		Pile:        y.Pile,
	}
	r.Pile.Quality = rockSalt(s, none, none)
	r.Supply.Temperature = take(s, fault.FieldWaterTemp, "water-temp", &input[quantity.Temperature]{}, ifKnown(y.Supply.Temperature), "supply.temperature", yard.DefaultWater)
	r.Start = takeFrom(s, fault.FieldStart, o.start, orders.Start, from, r.Now+oneLater)
	if r.Start < r.Now {
		r.Start += oneDay // of the next morning
	}
	low, err := o.coldest(s, orders, from)
	if err != nil {
		return r, err
	}
	r.Low = low
	s.origin[fault.FieldRoutes] = said(y.Path + ": routes")
	s.origin[fault.FieldPump] = said(y.Path + ": pump.flow")
	s.origin[fault.FieldSupply] = said(y.Path + ": supply.flow")
	for _, m := range y.MixingTanks() {
		if m.PumpOff == 0 {
			m.PumpOff = m.WorkingVolume
		}
		r.Mixers = append(r.Mixers, m)
	}
	r.Routes = o.routes(s, orders)
	if o.rate.given {
		s.noteRate(r.Routes)
	}
	return r, nil
}

// takeFrom is take for a value that the storm file may hold.
func takeFrom[Q quantity.Quantity](s *setting, name string, in *input[Q], held *Q, path string, otherwise Q) Q {
	q := take(s, name, name, in, nil, "", otherwise)
	if !in.given && held != nil {
		s.origin[name] = said(path + ": " + name)
		return *held
	}
	return q
}

// coldest is the low that is given, or the coldest hour of the forecast.
func (o *stormOptions) coldest(s *setting, orders *file.Storm, from string) (quantity.Temperature, error) {
	low := orders.Low
	for _, h := range orders.Pavement {
		if low == nil || h.Temperature < *low {
			low = &h.Temperature
		}
	}
	if !o.low.given && low == nil {
		return 0, usagef("--low is missing: without the coldest pavement nothing is said of the cold; allowed: like --low 19F, or low or pavement in a storm file")
	}
	t := takeFrom(s, "low", o.low, low, from, 0)
	if least, most := quantity.Celsius(-45), quantity.Celsius(40); t < least || t > most {
		return 0, usagef("%s: outside what is planned for; allowed: %v to %v", s.place(s.origin["low"]), least.In(s.system), most.In(s.system))
	}
	return t, nil
}

// routes takes over the yard's routes, as the storm file and the flags change them.
func (o *stormOptions) routes(s *setting, orders *file.Storm) []yard.Route {
	changes := map[string]file.StormRoute{}
	for _, c := range orders.Routes {
		changes[c.Name] = c
	}
	var routes []yard.Route
	for _, r := range s.yard.Routes {
		c := changes[r.Name]
		if c.Skip {
			continue
		}
		r.Liquid, r.Passes = firstOf(c.Liquid, r.Liquid, balance.BrineName), max(1, r.Passes)
		if c.Rate != nil {
			r.Rate = *c.Rate
		}
		if c.AreaRate != nil {
			r.AreaRate = *c.AreaRate
		}
		if c.Passes > 0 {
			r.Passes = c.Passes
		}
		if c.Priority > 0 {
			r.Priority = c.Priority
		}
		if o.passes.value > 0 {
			r.Passes = o.passes.value
		}
		if o.rate.given && r.Area == 0 && r.Prewet == 0 {
			r.Rate = o.rate.value
		}
		routes = append(routes, r)
	}
	return routes
}

// noteRate tells which routes a rate on lanes leaves as they are.
func (s *setting) noteRate(routes []yard.Route) {
	var names []string
	for _, r := range routes {
		if r.Area > 0 || r.Prewet > 0 {
			names = append(names, r.Name)
		}
	}
	if len(names) > 0 {
		s.notes = append(s.notes, "--rate leaves areas and pre-wetted routes as they are: "+strings.Join(names, ", ")+".")
	}
}

func firstOf(words ...string) string {
	for _, w := range words {
		if w != "" {
			return w
		}
	}
	return ""
}

// compare plans the storm again for each set of changes.
func (o *stormOptions) compare(s *setting, orders *file.Storm, base storm.Plan) (report.Table, error) {
	names, plans := []string{"as planned"}, []storm.Plan{base}
	for _, text := range o.whatIf {
		changed, err := o.changed(text)
		if err != nil {
			return report.Table{}, err
		}
		r, err := changed.request(s, orders)
		if err != nil {
			return report.Table{}, err
		}
		p, err := storm.Make(r)
		if err != nil {
			return report.Table{}, usagef("--what-if %s: %v", words.Quoted(text), s.inputError(err))
		}
		names, plans = append(names, text), append(plans, p)
	}
	return s.compareTable(names, plans), nil
}

// compareTable sets plans side by side; the reserve has a column where one lacks it.
func (s *setting) compareTable(names []string, plans []storm.Plan) report.Table {
	t := report.Table{Key: "what_if", Title: "What if", Columns: []report.Column{
		{Key: "demanded", Label: "Wanted"}, {Key: "short", Label: "Short"}, {Key: "batches", Label: "Batches"}, {Key: "latest", Label: "Begin by"},
		{Key: "done", Label: "Done"}, {Key: "cost", Label: "Cost"}, {Key: "chloride", Label: "Chloride"}, {Key: "plan", Label: "Plan"},
	}}
	lacking := slices.ContainsFunc(plans, func(p storm.Plan) bool { return p.ReserveGap > 0 })
	const done, chloride = 4, 6
	if lacking {
		// One more column needs the room of others.
		t.Columns = slices.Delete(slices.Delete(t.Columns, chloride, chloride+1), done, done+1)
		t.Columns = slices.Insert(t.Columns, 2, report.Column{Key: "reserve_short", Label: "Reserve lacks"})
	}
	for i, p := range plans {
		row := []report.Value{
			s.value(p.Demanded), s.value(p.Short), s.value(quantity.Count(p.Production.Batches)), timeValue(p.Production.Latest, true),
			timeValue(p.Production.DoneAt, true), s.value(p.Cost.Total), s.value(p.Cost.Chloride), report.Word(strings.ReplaceAll(names[i], ",", ", ")),
		}
		if lacking {
			row = slices.Delete(slices.Delete(row, chloride, chloride+1), done, done+1)
			row = slices.Insert(row, 2, s.value(p.ReserveGap))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// changed is the same question with changes like rate=30,start=20:00.
func (o *stormOptions) changed(text string) (*stormOptions, error) {
	c := &stormOptions{
		now: copyOf(o.now), start: copyOf(o.start), low: copyOf(o.low), temp: o.temp, reserve: copyOf(o.reserve), rate: copyOf(o.rate), passes: o.passes,
	}
	flags := map[string]interface{ Set(string) error }{
		"now": c.now, "start": c.start, "low": c.low, "reserve": c.reserve, "rate": c.rate, "passes": &c.passes,
	}
	given := map[string]bool{}
	for _, change := range strings.Split(text, ",") {
		name, value, ok := strings.Cut(change, "=")
		f, known := flags[strings.TrimSpace(name)]
		if !ok || !known {
			return nil, usagef("--what-if %s: %s is no change; allowed: now, start, low, reserve, rate or passes, like rate=30,start=20:00", words.Quoted(text), words.Quoted(change))
		}
		if given[strings.TrimSpace(name)] {
			return nil, usagef("--what-if %s: %s comes twice; allowed: once, and --what-if again for another plan", words.Quoted(text), words.Quoted(strings.TrimSpace(name)))
		}
		given[strings.TrimSpace(name)] = true
		if err := f.Set(strings.TrimSpace(value)); err != nil {
			return nil, usagef("--what-if %s: %s: %v", words.Quoted(text), words.Quoted(change), err)
		}
	}
	return c, nil
}

// copyOf lets a flag be changed without the first plan seeing it.
func copyOf[Q quantity.Quantity](in *input[Q]) *input[Q] {
	c := *in
	return &c
}
