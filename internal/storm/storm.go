// Package storm plans a storm: what the routes take, what is made and when, who gets it,
// how the trucks load, and what it costs.
package storm

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// Request is a storm on a yard. Times are on one scale, Start not before Now.
type Request struct {
	Now, Start quantity.Duration // when the plan begins, and when trucks may leave
	DownBy     quantity.Duration // when it must lie on the road; 0 for as soon as it can be
	// Passes are the windows of time of the first pass, the second and so on, where they have their own; the last is that of
	// all later ones. None: all passes are at once, from Start to DownBy.
	Passes      []Window
	Pavement    []Hour               // the forecast by the hour, in the order of time; none where only the low is known
	Low         quantity.Temperature // of the pavement, and of the tanks overnight
	Temperature quantity.Temperature // at which volumes are measured
	Routes      []yard.Route
	Reserve     quantity.Volume // of salt brine, kept back
	Band        yard.Band
	Blends      []yard.Blend
	Tanks       []yard.Tank
	Others      []yard.Liquid // bought, with what stands outside the tanks
	Mixers      []yard.Tank
	Supply      yard.Supply
	Pump        yard.Pump
	LoadFlow    quantity.Flow // where trucks are loaded; 0 for the pump's
	// OffFlow is that from a mixing tank into storage, by its name; a tank that is missing has the pump's.
	OffFlow map[string]quantity.Flow
	Pile    yard.Pile // with its quality known
	Trucks  []yard.Truck
	Prices  yard.Prices
}

// Window is the time of a pass: its trucks may leave from Start, and it must lie on the road by DownBy; 0 for as soon as it
// can be.
type Window struct{ Start, DownBy quantity.Duration }

// LoadingFlow is the flow at which trucks are loaded.
func (r Request) LoadingFlow() quantity.Flow { return cmp.Or(r.LoadFlow, r.Pump.Flow) }

// coldestLoad is as cold as liquids are taken to be when they are loaded: a tank cools slower than the pavement. Common
// practice, no source.
var coldestLoad = quantity.Celsius(-10)

// LoadTemperature is that at which loads are weighed: the night's low, since cold brine is heavier, but not below
// what a tank comes to.
func (r Request) LoadTemperature() quantity.Temperature {
	return min(r.Temperature, max(r.Low, coldestLoad))
}

// PumpOffFlow is the flow from a mixing tank into storage.
func (r Request) PumpOffFlow(mixer string) quantity.Flow {
	return cmp.Or(r.OffFlow[mixer], r.Pump.Flow)
}

// pile is the rock salt on hand; infinite where the yard does not say.
func (r Request) pile() quantity.Mass {
	if r.Pile.OnHand == nil {
		return quantity.Mass(math.Inf(1))
	}
	return *r.Pile.OnHand
}

// Plan is the answer.
type Plan struct {
	Routes     []RoutePlan // in the order in which they are served
	Supply     []SupplyLine
	Liquids    []LiquidNeed
	DrySalt    quantity.Mass // for pre-wetting the routes that are served, as delivered
	Production Production
	Loading    Loading
	Cold       []ColdLine
	Practice   bool         // liquids are in use at the low
	Better     *BetterBlend // nil where there is none
	Cost       Cost
	Demanded   quantity.Volume // of all liquids, reserve left out
	Loaded     quantity.Volume
	InTime     quantity.Volume // of it, down by its time
	Bound      quantity.Volume // more than that no plan brings down in time
	Proven     bool            // every order of batches and loads was tried, or cannot be better
	Short      quantity.Volume
	ReserveGap quantity.Volume // what the reserve lacks
	Balance    Balance
	After      After
}

// Make makes the plan. Errors: InputError.
func Make(r Request) (Plan, error) {
	if err := r.check(); err != nil {
		return Plan{}, err
	}
	y, err := takeStock(r)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Supply: y.lines}
	if err := y.schedule(&p); err != nil {
		return Plan{}, err
	}
	if err := y.cold(&p); err != nil {
		return Plan{}, err
	}
	if err := y.cost(&p); err != nil {
		return Plan{}, err
	}
	p.Balance = y.balance()
	return p, nil
}

// schedule works out what the routes take, gives them what there is, and looks for the course that brings most of it down
// in time.
func (y *stormYard) schedule(p *Plan) error {
	if err := y.demand(p); err != nil {
		return err
	}
	runs, err := y.runs()
	if err != nil {
		return err
	}
	corrected := Plan{Routes: slices.Clone(p.Routes)}
	found := y.planned(p, runs)
	if fixes := y.fixes(); len(fixes) > 0 {
		if better := y.planned(&corrected, append(runs, fixes...)); better.worth.inTimeThan(found.worth) > 0 {
			p.Routes, found = corrected.Routes, better
		}
	}
	pl := found.plant
	p.Proven = found.proven
	p.Production.Latest = found.latest()
	p.Production.Earlier = p.Production.Latest < y.r.Now
	p.Bound = max(pl.bound(), 0)
	y.lay(p, pl, found.best)
	p.After = y.after(p, runs)
	if p.Proven {
		p.Bound = p.InTime
	}
	return nil
}

// planned gives the routes what there is and looks for the best course.
func (y *stormYard) planned(p *Plan, runs []MixerRun) *searching {
	y.allot(p, runs)
	found := y.plant(p.Routes, runs).search()
	found.proven = found.exact()
	return found
}

// windows are those of the passes.
func (r Request) windows() []Window {
	if len(r.Passes) == 0 {
		return []Window{{r.Start, r.DownBy}}
	}
	return r.Passes
}

// check applies the rules in order.
func (r Request) check() error {
	return cmp.Or(
		fault.CheckTemperature(fault.FieldTemperature, r.Temperature),
		fault.CheckTemperature(fault.FieldWaterTemp, r.Supply.Temperature),
		fault.If(!fault.Within(r.Low, solution.Floor, fault.Hottest), fault.FieldLow,
			"outside the model; allowed: %v to %v", quantity.Temperature(solution.Floor), fault.Hottest),
		checkTarget(r.Band.Target, r.Supply.Temperature),
		r.Band.Check(),
		fault.If(r.Start < r.Now, fault.FieldStart, "it lies before the plan begins; allowed: from then on"),
		fault.If(r.DownBy != 0 && r.DownBy <= r.Start, fault.FieldDownBy, "it is not after trucks may leave; allowed: later than that"),
		fault.If(len(r.Routes) == 0, fault.FieldRoutes, "there is nothing to serve; allowed: one route or more"),
		fault.If(r.Pump.Flow == 0, fault.FieldPump, "without the pump's flow nothing can be timed; allowed: above 0"),
		fault.If(r.Reserve < 0, fault.FieldReserve, "less than zero; allowed: 0 and above"),
	)
}

// checkTarget refuses a target that does not dissolve in the yard's water.
func checkTarget(target quantity.Strength, t quantity.Temperature) error {
	_, err := balance.KnowTarget(target, t)
	return err
}
