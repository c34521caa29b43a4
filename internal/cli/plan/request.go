package plan

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/storm"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"brineyard/internal/yard/file"
)

// asked is a storm as the flags, the storm file and the yard file have it, in this order of
// precedence.
type asked struct {
	request storm.Request
	yard    *yard.Yard // as it stands
	clock   func() time.Time
	orders  *file.Storm // of the storm file; empty where none is named
	passes  int         // over every route; 0 for the routes' own
	// midnight is that of the day from which times count, and clocked tells that work begins at the clock's time.
	midnight time.Time
	clocked  bool
}

const oneDay = 24 * 60 * quantity.Minute

var timeOfDay = bind.Kind[quantity.Duration]{Name: "time", Parse: file.PlanTime}

// bind binds the request. The low of the band is bound before that of the pavement: a refusal
// that names the low means the storm's.
func (a *asked) bind(b *bind.Set) {
	r := &a.request
	b.Then(a.takeYard)
	a.bindTimes(b)
	bind.Of(b, bind.Temperature, &r.Temperature, "temp", "temperature at which volumes are measured; 60F unless given", bind.Default(quantity.Fahrenheit(60)))
	bind.Of(b, bind.Volume, &r.Reserve, "reserve", "salt brine to keep back",
		inOrders(a, func(o *file.Storm) *quantity.Volume { return o.Reserve }))
	bind.YardBand(b, &r.Band)
	bind.YardRockSalt(b, &r.Pile.Quality)
	bind.YardWaterTemperature(b, &r.Supply.Temperature)
	a.bindStock(b)
	b.Then(a.flows)
	a.bindLow(b)
	a.bindRoutes(b)
	for _, key := range []struct{ field, name string }{{fault.FieldRoutes, "routes"}, {fault.FieldPump, "pump.flow"}, {fault.FieldSupply, "supply.flow"}} {
		b.SaysOf(key.field, func() string { return a.yard.Path + ": " + key.name })
	}
}

// inOrders takes a value from the storm file.
func inOrders[Q quantity.Quantity](a *asked, get func(*file.Storm) *Q) bind.Source[Q] {
	return bind.InFile(func() string { return a.orders.Path }, func() *Q { return get(a.orders) })
}

// takeYard takes over what the yard has.
func (a *asked) takeYard(s *bind.Scope) error {
	y := s.Standing()
	a.yard, a.clock = y, s.Now
	a.request = storm.Request{
		Prices: y.Prices, Blends: y.Blends, Tanks: y.StorageTanks(), Others: y.Liquids, Trucks: y.Trucks,
		Supply: y.Supply, Pump: y.Pump, Pile: y.Pile,
	}
	for _, m := range y.MixingTanks() {
		m.PumpOff = cmp.Or(m.PumpOff, m.WorkingVolume)
		a.request.Mixers = append(a.request.Mixers, m)
	}
	return nil
}

// bindStock binds what may be otherwise than the yard has it: the pile, the supply and the trucks.
func (a *asked) bindStock(b *bind.Set) {
	pile := bind.Typed(b, bind.Mass, "pile", "rock salt on hand, instead of what the stock has")
	supply := bind.Typed(b, bind.Flow, "supply", "fresh water, instead of the yard file's flow")
	var out string
	trucks := bind.Name(b, &out, "out", "`trucks` that do not run, with commas between", nil)
	b.Then(func(*bind.Scope) error {
		r := &a.request
		if pile.Given() {
			r.Pile.OnHand = new(pile.Typed())
		}
		if supply.Given() {
			if r.Supply.Flow = supply.Typed(); r.Supply.Flow == 0 {
				return fault.Refuse("--supply %s: no flow; allowed: above 0gal/min", supply.Quoted())
			}
		}
		names, err := a.named("out", "truck", trucks, out, bind.TruckNames(a.yard))
		r.Trucks = slices.DeleteFunc(slices.Clone(r.Trucks), func(t yard.Truck) bool { return slices.Contains(names, t.Name) })
		return err
	})
}

// flows takes what the pump moves to where trucks are loaded and into storage.
func (a *asked) flows(*bind.Scope) error {
	r, brine := &a.request, balance.SaltBrine(a.request.Band.Target)
	r.LoadFlow, r.OffFlow = lineup.LoadingFlow(a.yard, brine, r.Temperature), lineup.OffFlows(a.yard, brine, r.Temperature)
	return nil
}

// bindLow binds the low that is given, or the coldest hour of the forecast.
func (a *asked) bindLow(b *bind.Set) {
	r := &a.request
	var low *bind.Value[quantity.Temperature]
	b.Then(func(s *bind.Scope) error {
		if !low.Given() && coldest(a.orders) == nil {
			return b.Lack(fault.Refuse("--low is missing: without the coldest pavement nothing is said of the cold; allowed: like --low 19F, or low or pavement in a storm file"),
				"How cold will the pavement be? "+bind.Like(s.System, "19F", "-7C"), "", "low")
		}
		return nil
	})
	low = bind.Of(b, bind.Temperature, &r.Low, "low", "coldest pavement, and night in the yard", inOrders(a, coldest))
	b.Then(func(*bind.Scope) error {
		least, most := yard.PavementLimits()
		return fault.If(r.Low < least || r.Low > most, fault.FieldLow, "outside what is planned for; allowed: %v to %v", least, most)
	})
}

// coldest is the low of a storm file; nil where it has no forecast.
func coldest(o *file.Storm) *quantity.Temperature {
	low := o.Low
	for _, h := range o.Pavement {
		if low == nil || h.Temperature < *low {
			low = &h.Temperature
		}
	}
	return low
}

// bindRoutes binds the yard's routes, as the storm file and the flags change them.
func (a *asked) bindRoutes(b *bind.Set) {
	rate := bind.Typed(b, bind.RatePerLane, "rate", "on every lane, instead of the routes' own")
	bind.Count(b, &a.passes, "passes", "over every route, instead of the routes' own", "whole number of them")
	var skip, first, liquid string
	sprayed := bind.Name(b, &liquid, "liquid", "brine, `liquid` or blend for every route, instead of the routes' own", nil)
	skipped := bind.Name(b, &skip, "skip", "`routes` that are left out, with commas between", nil)
	before := bind.Name(b, &first, "first", "`routes` that are served before all others, in this order, with commas between", nil)
	b.Then(func(s *bind.Scope) error {
		out, err := a.named("skip", "route", skipped, skip, a.yard.RouteNames())
		if err != nil {
			return err
		}
		ahead, err := a.named("first", "route", before, first, a.yard.RouteNames())
		if err != nil {
			return err
		}
		if sprayed.Given() && !a.yard.Sprays(liquid) {
			return fault.Refuse("--liquid %s: no liquid and no blend of %s; allowed: brine, or a name of the yard file", words.Quoted(liquid), a.yard.Path)
		}
		for _, yardRoute := range a.yard.Routes {
			order := a.order(yardRoute.Name)
			if order.Skip || slices.Contains(out, yardRoute.Name) {
				continue
			}
			r := ordered(yardRoute, order)
			if at := slices.Index(ahead, r.Name); at >= 0 {
				r.Priority = at - len(ahead) // before all that the file has
			}
			r.Passes = cmp.Or(a.passes, r.Passes)
			if sprayed.Given() {
				r.Liquid = liquid
			}
			if rate.Given() && hasLaneRate(r) {
				r.Rate = rate.Typed()
			}
			a.request.Routes = append(a.request.Routes, r)
		}
		if rate.Given() {
			noteRate(s, a.request.Routes)
		}
		return nil
	})
}

// named takes a list of names apart.
func (a *asked) named(flag, kind string, typed *bind.Text, text string, known []string) ([]string, error) {
	if !typed.Given() {
		return nil, nil
	}
	var names []string
	for _, word := range strings.Split(text, ",") {
		word = strings.TrimSpace(word)
		name, ok := words.Match(word, known)
		if !ok {
			return nil, fault.Refuse("--%s %s: no such %s in %s; %s", flag, words.Quoted(word), kind, a.yard.Path, words.Allowed(word, known))
		}
		names = append(names, name)
	}
	return names, nil
}

// order is what the storm file orders for a route.
func (a *asked) order(route string) file.StormRoute {
	for _, o := range a.orders.Routes {
		if o.Name == route {
			return o
		}
	}
	return file.StormRoute{}
}

// ordered is a route as a storm file changes it.
func ordered(r yard.Route, o file.StormRoute) yard.Route {
	r.Liquid = cmp.Or(o.Liquid, r.Liquid, balance.BrineName)
	r.Passes = cmp.Or(o.Passes, r.Passes, 1)
	r.Priority = cmp.Or(o.Priority, r.Priority)
	if o.Rate != nil {
		r.Rate = *o.Rate
	}
	if o.AreaRate != nil {
		r.AreaRate = *o.AreaRate
	}
	return r
}

// hasLaneRate reports whether a route is sprayed by the lane.
func hasLaneRate(r yard.Route) bool { return r.Area == 0 && r.Prewet == 0 }

// noteRate tells which routes a rate on lanes leaves as they are.
func noteRate(s *bind.Scope, routes []yard.Route) {
	var names []string
	for _, r := range routes {
		if !hasLaneRate(r) {
			names = append(names, r.Name)
		}
	}
	if len(names) > 0 {
		s.Notes = append(s.Notes, "--rate leaves areas and pre-wetted routes as they are: "+strings.Join(names, ", ")+".")
	}
}
