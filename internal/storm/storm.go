// Package storm plans a storm: what the routes take, what is made and when, who gets it,
// how the trucks load, and what it costs.
package storm

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// Request is a storm on a yard. Times are on one scale, Start not before Now.
type Request struct {
	Now, Start  quantity.Duration    // when the plan begins, and when all is to be ready
	Low         quantity.Temperature // of the pavement, and of the tanks overnight
	Temperature quantity.Temperature // at which volumes are measured
	Routes      []yard.Route
	Reserve     quantity.Volume // of salt brine, kept back
	Band        yard.Band
	Blends      []yard.Blend
	Tanks       []yard.Tank
	Others      []yard.Liquid // liquids outside the tanks
	Mixers      []yard.Tank
	Plant       Plant
	Trucks      []yard.Truck
	Prices      yard.Prices
}

// Plant is what the mixers share.
type Plant struct {
	Supply, Pump quantity.Flow
	WaterTemp    quantity.Temperature
	RockSalt     yard.RockSalt
	Pile         quantity.Mass // as delivered; infinite where nobody says
	Bucket       quantity.Mass // of the loader; 0 where nobody says
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
	Better     *BetterBlend
	Cost       Cost
	Demanded   quantity.Volume // of all liquids, reserve left out
	Loaded     quantity.Volume
	Short      quantity.Volume
	ReserveGap quantity.Volume // what the reserve lacks
	Balance    Balance
}

// RoutePlan is what a route gets.
type RoutePlan struct {
	Route    yard.Route
	Demanded quantity.Volume
	Served   quantity.Volume
	// LaneLength is that of all passes, an area counted as lanes of 12 feet.
	LaneLength quantity.Length
	Cause      string // what is short: the name of a liquid, DrySaltName or TruckName; empty when served in full

	brine, other quantity.Volume // that Demanded takes
	which        string          // the other liquid
	density      quantity.Density
}

// What a route can lack besides a liquid: salt to pre-wet, and a truck that carries it.
const (
	DrySaltName = "salt"
	TruckName   = "truck"
)

// LiquidNeed is what the routes take of a liquid that is not made in the yard.
type LiquidNeed struct {
	Name           string
	Wanted, OnHand quantity.Volume
}

// Make makes the plan. Errors: InputError.
func Make(r Request) (Plan, error) {
	if err := r.check(); err != nil {
		return Plan{}, err
	}
	y, err := newStormYard(r)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Supply: y.lines}
	if err := y.demand(&p); err != nil {
		return Plan{}, err
	}
	runs, err := y.runs()
	if err != nil {
		return Plan{}, err
	}
	y.order(&p, runs)
	need, drySalt := y.claims(&p, runs)
	p.Production = y.produce(runs, need, drySalt)
	for _, j := range p.Production.Jobs {
		if j.Kind == JobPumpOff {
			y.store(j.Volume)
		}
	}
	for _, run := range p.Production.Runs {
		y.hold(run)
	}
	y.allocate(&p)
	y.load(&p)
	if err := y.cold(&p); err != nil {
		return Plan{}, err
	}
	y.cost(&p)
	p.Balance = y.balance()
	return p, nil
}

func (r Request) check() error {
	if err := fault.CheckTemperature(fault.FieldTemperature, r.Temperature); err != nil {
		return err
	}
	if err := fault.CheckTemperature(fault.FieldWaterTemp, r.Plant.WaterTemp); err != nil {
		return err
	}
	if !fault.Within(r.Low, solution.Floor, fault.Hottest) {
		return fault.Input(fault.FieldLow, "outside the model; allowed: %v to %v", quantity.Temperature(solution.Floor), fault.Hottest)
	}
	if _, err := balance.KnowTarget(r.Band.Target, r.Plant.WaterTemp); err != nil {
		return err
	}
	if err := r.Band.Check(); err != nil {
		return err
	}
	if r.Start < r.Now {
		return fault.Input(fault.FieldStart, "it lies before the plan begins; allowed: from then on")
	}
	if len(r.Routes) == 0 {
		return fault.Input(fault.FieldRoutes, "there is nothing to serve; allowed: one route or more")
	}
	if r.Plant.Pump == 0 {
		return fault.Input(fault.FieldPump, "without the pump's flow nothing can be timed; allowed: above 0")
	}
	if r.Reserve < 0 {
		return fault.Input(fault.FieldReserve, "below nothing; allowed: 0 and above")
	}
	return nil
}
