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
	Routes      []Route
	Reserve     quantity.Volume // of salt brine, kept back
	Band        yard.Band
	Blends      []Blend
	Tanks       []Tank
	Others      []Stock // liquids outside the tanks
	Mixers      []Mixer
	Plant       Plant
	Trucks      []Truck
	Prices      Prices
}

// Route is what is to be served. Either lanes or an area; a route that is
// pre-wetted takes Prewet of liquid on SaltRate of salt instead of a rate.
type Route struct {
	Name     string
	Liquid   string // BrineName, the name of a liquid, or of a blend
	Lanes    quantity.Length
	Area     quantity.Area
	Rate     quantity.RatePerLength
	AreaRate quantity.RatePerArea
	Prewet   quantity.VolumePerMass
	SaltRate quantity.MassPerLength
	Passes   int
	Priority int    // 1 comes first
	Truck    string // the only truck for it; empty for any
}

// Blend is brine with an additive metered into it as it is loaded.
type Blend struct {
	Name     string
	Additive string
	Share    quantity.Fraction // of the additive by volume
}

// Tank is a storage tank.
type Tank struct {
	Name           string
	Capacity, Dead quantity.Volume
	Contents       quantity.Volume
	LiquidName     string // BrineName for plain salt brine
	Liquid         balance.Liquid
}

// Stock is a liquid on hand outside the tanks, and what it costs.
type Stock struct {
	Name   string
	Liquid balance.Liquid
	OnHand quantity.Volume
	Price  *quantity.PricePerVolume
}

// Mixer is a mixing tank.
type Mixer struct {
	Name          string
	WorkingVolume quantity.Volume
	PumpOff       quantity.Volume
	MixTime       quantity.Duration
}

// Plant is what the mixers share.
type Plant struct {
	Supply, Pump quantity.Flow
	WaterTemp    quantity.Temperature
	RockSalt     yard.RockSalt
	Pile         quantity.Mass // as delivered; infinite where nobody says
	Bucket       quantity.Mass // of the loader; 0 where nobody says
}

// Truck is a truck.
type Truck struct {
	Name         string
	Tank         quantity.Volume
	Empty, Gross quantity.Mass
	Speed        quantity.Speed
}

// Prices are the prices; nil where not known.
type Prices struct {
	Salt    *quantity.PricePerMass
	Water   *quantity.PricePerVolume
	Labour  *quantity.PricePerTime
	Driving *quantity.PricePerLength
	DrySalt quantity.MassPerLength // rate of dry salt to compare with; 0 for none
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
	Route    Route
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

// laneWidth turns areas into lanes, as the trade does.
const laneWidth = 12 * quantity.Foot

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

// Length returns the length of lanes that a route has in one pass.
func (r Route) Length() quantity.Length {
	if r.Area > 0 {
		return quantity.Length(float64(r.Area) / float64(laneWidth))
	}
	return r.Lanes
}

// Volume returns what all passes of a route take.
func (r Route) Volume() quantity.Volume {
	passes := float64(max(1, r.Passes))
	switch {
	case r.Area > 0:
		return quantity.Volume(float64(r.AreaRate) * float64(r.Area) * passes)
	case r.Prewet > 0:
		return quantity.Volume(float64(r.Prewet) * float64(r.SaltRate) * float64(r.Lanes) * passes)
	}
	return quantity.Volume(float64(r.Rate) * float64(r.Lanes) * passes)
}

// Salt returns the dry salt that a pre-wetted route takes.
func (r Route) Salt() quantity.Mass {
	if r.Prewet == 0 {
		return 0
	}
	return quantity.Mass(float64(r.SaltRate) * float64(r.Lanes) * float64(max(1, r.Passes)))
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
	if err := balance.CheckTarget(r.Band.Target, r.Plant.WaterTemp); err != nil {
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
