package brine

import (
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// StormRequest is a storm on a yard. Times are on one scale, Start not before Now.
type StormRequest struct {
	Now, Start  quantity.Duration    // when the plan begins, and when all is to be ready
	Low         quantity.Temperature // of the pavement, and of the tanks overnight
	Temperature quantity.Temperature // at which volumes are measured
	Routes      []StormRoute
	Reserve     quantity.Volume // of salt brine, kept back
	Band        Band
	Blends      []StormBlend
	Tanks       []StormTank
	Others      []StormStock // liquids outside the tanks
	Mixers      []StormMixer
	Plant       StormPlant
	Trucks      []StormTruck
	Prices      StormPrices
}

// StormRoute is what is to be served. Either lanes or an area; a route that is
// pre-wetted takes Prewet of liquid on SaltRate of salt instead of a rate.
type StormRoute struct {
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

// BrineName is the liquid that a yard makes: salt brine on target.
const BrineName = "brine"

// StormBlend is brine with an additive metered into it as it is loaded.
type StormBlend struct {
	Name     string
	Additive string
	Share    quantity.Fraction // of the additive by volume
}

// StormTank is a storage tank.
type StormTank struct {
	Name           string
	Capacity, Dead quantity.Volume
	Contents       quantity.Volume
	LiquidName     string // BrineName for plain salt brine
	Liquid         Liquid
}

// StormStock is a liquid on hand outside the tanks, and what it costs.
type StormStock struct {
	Name   string
	Liquid Liquid
	OnHand quantity.Volume
	Price  *quantity.PricePerVolume
}

// StormMixer is a mixing tank.
type StormMixer struct {
	Name          string
	WorkingVolume quantity.Volume
	PumpOff       quantity.Volume
	MixTime       quantity.Duration
}

// StormPlant is what the mixers share.
type StormPlant struct {
	Supply, Pump quantity.Flow
	WaterTemp    quantity.Temperature
	RockSalt     RockSalt
	Pile         quantity.Mass // as delivered; infinite where nobody says
	Bucket       quantity.Mass // of the loader; 0 where nobody says
}

// StormTruck is a truck.
type StormTruck struct {
	Name         string
	Tank         quantity.Volume
	Empty, Gross quantity.Mass
	Speed        quantity.Speed
}

// StormPrices are the prices; nil where not known.
type StormPrices struct {
	Salt    *quantity.PricePerMass
	Water   *quantity.PricePerVolume
	Labour  *quantity.PricePerTime
	Driving *quantity.PricePerLength
	DrySalt quantity.MassPerLength // rate of dry salt to compare with; 0 for none
}

// StormPlan is the answer.
type StormPlan struct {
	Routes     []RoutePlan // in the order in which they are served
	Supply     []SupplyLine
	Liquids    []LiquidNeed
	DrySalt    quantity.Mass // for pre-wetting the routes that are served, as delivered
	Production Production
	Loading    Loading
	Cold       []ColdLine
	Better     *BetterBlend
	Cost       StormCost
	Demanded   quantity.Volume // of all liquids, reserve left out
	Loaded     quantity.Volume
	Short      quantity.Volume
	ReserveGap quantity.Volume // what the reserve lacks
	Balance    StormBalance
}

// RoutePlan is what a route gets.
type RoutePlan struct {
	Route    StormRoute
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

// PlanStorm makes the plan. Errors: InputError.
func PlanStorm(r StormRequest) (StormPlan, error) {
	if err := r.check(); err != nil {
		return StormPlan{}, err
	}
	y, err := newStormYard(r)
	if err != nil {
		return StormPlan{}, err
	}
	p := StormPlan{Supply: y.lines}
	if err := y.demand(&p); err != nil {
		return StormPlan{}, err
	}
	runs, err := y.runs()
	if err != nil {
		return StormPlan{}, err
	}
	y.order(&p, runs)
	need, drySalt := y.claims(&p, runs)
	p.Production = y.produce(runs, need, drySalt)
	for _, j := range p.Production.Jobs {
		if j.Kind == PumpOff {
			y.store(j.Volume)
		}
	}
	for _, run := range p.Production.Runs {
		y.hold(run)
	}
	y.allocate(&p)
	y.load(&p)
	if err := y.cold(&p); err != nil {
		return StormPlan{}, err
	}
	y.cost(&p)
	p.Balance = y.balance()
	return p, nil
}

// Length returns the length of lanes that a route has in one pass.
func (r StormRoute) Length() quantity.Length {
	if r.Area > 0 {
		return quantity.Length(float64(r.Area) / float64(laneWidth))
	}
	return r.Lanes
}

// Volume returns what all passes of a route take.
func (r StormRoute) Volume() quantity.Volume {
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
func (r StormRoute) Salt() quantity.Mass {
	if r.Prewet == 0 {
		return 0
	}
	return quantity.Mass(float64(r.SaltRate) * float64(r.Lanes) * float64(max(1, r.Passes)))
}

func (r StormRequest) check() error {
	if err := checkLiquid(FieldTemperature, r.Temperature); err != nil {
		return err
	}
	if err := checkLiquid(FieldWaterTemp, r.Plant.WaterTemp); err != nil {
		return err
	}
	if !within(r.Low, solution.Floor, hottest) {
		return bad(FieldLow, "outside the model; allowed: %v to %v", quantity.Temperature(solution.Floor), hottest)
	}
	if err := checkTarget(r.Band.Target, r.Plant.WaterTemp); err != nil {
		return err
	}
	if err := r.Band.check(); err != nil {
		return err
	}
	if r.Start < r.Now {
		return bad(FieldStart, "it lies before the plan begins; allowed: from then on")
	}
	if len(r.Routes) == 0 {
		return bad(FieldRoutes, "there is nothing to serve; allowed: one route or more")
	}
	if r.Plant.Pump == 0 {
		return bad(FieldPump, "without the pump's flow nothing can be timed; allowed: above 0")
	}
	if r.Reserve < 0 {
		return bad(FieldReserve, "below nothing; allowed: 0 and above")
	}
	return nil
}
