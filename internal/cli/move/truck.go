package move

import (
	"cmp"
	"strings"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/truck"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

var truckCommand = run.Command{
	Screen: true,
	Use:    "truck [TRUCK]",
	Short:  "What fits a truck, how it loads, and what its boom lays down",
	Long: "truck tells how much of a liquid fits a truck's tank and weight limit. It\n" +
		"tells how long that loads, and how many loads a volume takes. --rate gives the\n" +
		"flow at the boom and at each nozzle. --catch checks the rate by a catch test.",
	Example: "  brineyard truck --tank 1750gal --empty 19300lb --gross 33000lb\n" +
		"  brineyard truck --rate 40gal/mi --speed 30mph --catch 18gal --over 60s",
	New:  func() run.Question { return &loading{} },
	Rows: true,
}

// loading asks what a truck carries and lays down.
type loading struct {
	request truck.Request
	truck   yard.Truck // as it stands; zero unless named
	clock   func() time.Time
}

// Bind binds the request.
func (q *loading) Bind(b *bind.Set) {
	r, t := &q.request, &q.truck
	bind.Spoken(b, "big-sprayer", "truck")
	bindTruck(b, t)
	b.Then(func(s *bind.Scope) error { q.clock = s.Now; return nil })
	bindCarried(b, &r.Liquid)
	key := func() string { return "truck " + words.Quoted(t.Name) }
	bind.Of(b, bind.Temperature, &r.Temperature, "temp", "temperature of the liquid; 60F unless given", bind.Default(quantity.Fahrenheit(60)))
	tank := bind.Of(b, bind.Volume, &r.Tank, "tank", "the truck's tank", bind.KeyNamed(key, func() quantity.Volume { return t.Tank }))
	bind.Of(b, bind.Mass, &r.Empty, "empty", "weight of the truck when empty", bind.KeyNamed(key, func() quantity.Mass { return t.Empty }))
	bind.Of(b, bind.Mass, &r.Gross, "gross", "what the truck may weigh in all", bind.KeyNamed(key, func() quantity.Mass { return t.Gross }))
	bind.Of(b, bind.Mass, &r.Margin, "margin", "kept below the gross limit, for the scale and the driver; 200lb unless given", bind.Default(truck.UsualMargin))
	bind.Of(b, bind.Flow, &r.LoadFlow, "flow", "flow of the loading pump; the yard file's unless given",
		bind.Key("destination flow", func(y *yard.Yard) quantity.Flow { return lineup.LoadingFlow(y, r.Liquid, r.Temperature) }),
		bind.Key("pump.flow", func(y *yard.Yard) quantity.Flow { return y.Pump.Flow }))
	bind.Of(b, bind.Volume, &r.Haul, "volume", "to be carried in all, for the number of loads")
	bind.Of(b, bind.RatePerLane, &r.Rate, "rate", "wanted on each lane")
	bind.Of(b, bind.RatePerArea, &r.AreaRate, "area-rate", "wanted on an area, like 0.5gal/1000ft2")
	bind.Of(b, bind.Speed, &r.Speed, "speed", "of the truck")
	bind.Of(b, bind.Width, &r.Width, "width", "that the boom sprays, for --area-rate", bind.KeyNamed(key, func() quantity.Width { return t.Width }))
	caught := bind.Of(b, bind.Volume, &r.Caught, "catch", "caught from the whole boom in a test")
	b.Then(func(*bind.Scope) error { r.Dry = caught.Given() && r.Caught == 0; return nil })
	bind.Of(b, bind.Duration, &r.Over, "over", "how long the catch took, like 60s")
	bind.Count(b, &r.Lanes, "lanes", "lanes sprayed at once; 1 unless given", "whole number of them")
	bind.Of(b, bind.Flow, &r.BoomMost, "boom-flow", "most that the boom's pump gives", bind.KeyNamed(key, func() quantity.Flow { return t.Boom }))
	b.Then(func(*bind.Scope) error { r.Axles = t.Axles; return nil })
	var nozzles int
	bind.Count(b, &nozzles, "nozzles", "nozzles on the boom", "whole number of them")
	b.Then(func(*bind.Scope) error { r.Nozzles = cmp.Or(nozzles, t.Nozzles); return nil })
	tank.NotZero(b, "no tank", "above 0")
	b.Then(func(s *bind.Scope) error {
		if r.Tank > 0 || r.Rate > 0 || r.AreaRate > 0 || caught.Given() || s.Yard == nil || len(s.Yard.Trucks) == 0 {
			return nil
		}
		return b.Lack(errNothing, "Which truck? "+strings.Join(bind.TruckNames(s.Yard), ", "), s.Yard.Trucks[0].Name, "truck")
	})
}

// errNothing refuses a line from which nothing can be worked out.
var errNothing = fault.Refuse("nothing asked; allowed: --truck or --tank for a load, --rate or --area-rate with --speed, --catch with --over")

// bindTruck binds a truck of the yard by name.
func bindTruck(b *bind.Set, to *yard.Truck) {
	var name string
	flag := bind.Name(b, &name, "truck", "`name` of a truck in the yard file", bind.TruckNames)
	b.Then(func(s *bind.Scope) error {
		*to = yard.Truck{}
		if !flag.Given() {
			return nil
		}
		if s.Yard == nil {
			return fault.Refuse("--truck %s: there is no yard file; allowed: --yard with a file, or --tank", flag.Quoted())
		}
		var found bool
		if *to, found = s.Standing().Truck(name); !found {
			return fault.Refuse("--truck %s: no such truck in %s; %s", flag.Quoted(), s.Yard.Path, words.Allowed(name, bind.TruckNames(s.Yard)))
		}
		return nil
	})
}

// bindCarried binds what the truck carries: brine on target unless another is named.
func bindCarried(b *bind.Set, to *balance.Liquid) {
	var target quantity.Strength
	bind.YardTarget(b, &target)
	b.Then(func(*bind.Scope) error { *to = balance.SaltBrine(target); return nil })
	bind.Liquid(b, to, "liquid", "what it carries, like brine@23.3%; brine on target unless given")
}

// Answer works out what can be known.
func (q *loading) Answer(s *run.Session) (run.Reply, error) {
	r := q.request
	out, err := truck.Calculate(r)
	if err != nil {
		return run.Reply{}, err
	}
	if !out.Load.Known && !out.Spray.Known && !out.Catch.Known {
		return run.Reply{}, errNothing
	}
	return run.Reply{
		Figures: append(truckFigures(s.View, r, out), q.aboardFigures(s.View, out.Load)...),
		Words: func(d *report.Document) {
			truckWords(s.View, d, r, out)
			d.Verdict += q.aboard(s.View, out.Load)
		},
		Working: func() []report.Step { return derive.Truck(s.View, r, out) },
	}, nil
}
