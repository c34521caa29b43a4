// Package truck tells what a truck carries within its weight, and what its boom lays down.
package truck

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// Request asks what a truck carries and what its boom lays down. What is 0 is
// not known, and what hangs on it is not answered.
type Request struct {
	Liquid      balance.Liquid
	Temperature quantity.Temperature
	Tank        quantity.Volume
	Empty       quantity.Mass
	Gross       quantity.Mass
	LoadFlow    quantity.Flow
	Haul        quantity.Volume // to be carried in all
	Nozzles     int
	Lanes       int // sprayed at once; 0 counts as 1
	Width       quantity.Width
	Speed       quantity.Speed
	Rate        quantity.RatePerLength // of one lane
	AreaRate    quantity.RatePerArea
	Caught      quantity.Volume // in a catch test, from the whole boom
	Over        quantity.Duration
}

// Result is the answer; what could not be answered is nil.
type Result struct {
	Density quantity.Density
	Load    *Load
	Spray   *Spray
	Catch   *Catch
}

// Load is what fits the truck.
type Load struct {
	Volume  quantity.Volume
	Weight  quantity.Mass // of the liquid
	Total   quantity.Mass // with the truck; 0 when the weights are not known
	Weighed bool          // the weight limit, not the tank, is what limits it
	Left    quantity.Mass // below the gross limit
	Time    quantity.Duration
	Loads   int // for Haul
	LastOne quantity.Volume
}

// Spray is what the boom and each nozzle give for a rate at a speed.
type Spray struct {
	Boom, Nozzle quantity.Flow   // Nozzle is 0 when their number is not known
	Reach        quantity.Length // lane length that a load covers; 0 when not known
	Covers       quantity.Area   // likewise for an area rate
}

// Catch is what a catch test says.
type Catch struct {
	Flow     quantity.Flow
	Rate     quantity.RatePerLength // really laid down on a lane; 0 when not asked by lane
	AreaRate quantity.RatePerArea   // likewise by area
	// Factor is what the flow has to be multiplied by; 0 when there is no rate to
	// compare with. Pressure is the same for the pressure at the nozzles, since
	// flow goes as its square root.
	Factor, Pressure float64
	SpeedFor         quantity.Speed // at which this flow gives the rate
}

// Calculate answers what it can. Errors: InputError.
func Calculate(r Request) (Result, error) {
	if err := r.check(); err != nil {
		return Result{}, err
	}
	rho, err := r.Liquid.Density(r.Temperature)
	if err != nil {
		return Result{}, err
	}
	out := Result{Density: rho}
	if r.Tank > 0 {
		out.Load = r.load(rho)
	}
	if r.Speed > 0 && (r.Rate > 0 || r.AreaRate > 0) {
		out.Spray = r.spray(out.Load)
	}
	if r.Caught > 0 {
		out.Catch = r.caught()
	}
	return out, nil
}

// load fills the tank as far as the weight allows.
func (r Request) load(rho quantity.Density) *Load {
	l := &Load{Volume: r.Tank}
	if r.Gross > 0 {
		if byWeight := (r.Gross - r.Empty).Volume(rho); byWeight < r.Tank {
			l.Volume, l.Weighed = byWeight, true
		}
	}
	l.Weight = l.Volume.Mass(rho)
	if r.Gross > 0 {
		l.Total = r.Empty + l.Weight
		l.Left = r.Gross - l.Total
	}
	if r.LoadFlow > 0 {
		l.Time = l.Volume.Over(r.LoadFlow)
	}
	if r.Haul > 0 {
		// A remainder of rounding is no load of its own.
		l.Loads = int(math.Ceil(float64(r.Haul/l.Volume) - 1e-9))
		l.LastOne = r.Haul - quantity.Volume(l.Loads-1)*l.Volume
	}
	return l
}

func (r Request) lanes() float64 { return float64(max(1, r.Lanes)) }

// spray is rate x speed x lanes, or rate x speed x width.
func (r Request) spray(l *Load) *Spray {
	s := &Spray{Boom: r.wanted()}
	if r.Nozzles > 0 {
		s.Nozzle = s.Boom / quantity.Flow(r.Nozzles)
	}
	if l != nil && r.Rate > 0 {
		s.Reach = quantity.Length(float64(l.Volume) / float64(r.Rate) / r.lanes())
	}
	if l != nil && r.AreaRate > 0 {
		s.Covers = quantity.Area(float64(l.Volume) / float64(r.AreaRate))
	}
	return s
}

// wanted is the flow of the whole boom.
func (r Request) wanted() quantity.Flow {
	if r.Rate > 0 {
		return quantity.Flow(float64(r.Rate) * float64(r.Speed) * r.lanes())
	}
	return quantity.Flow(float64(r.AreaRate) * float64(r.Speed) * float64(r.Width))
}

// caught compares a catch test with the rate.
func (r Request) caught() *Catch {
	c := &Catch{Flow: quantity.Flow(float64(r.Caught) / float64(r.Over))}
	if r.Speed == 0 {
		return c
	}
	if r.Width > 0 {
		c.AreaRate = quantity.RatePerArea(float64(c.Flow) / float64(r.Speed) / float64(r.Width))
	}
	c.Rate = quantity.RatePerLength(float64(c.Flow) / float64(r.Speed) / r.lanes())
	if wanted := r.wanted(); wanted > 0 {
		c.Factor = float64(wanted / c.Flow)
		c.Pressure = c.Factor * c.Factor
		c.SpeedFor = quantity.Speed(float64(r.Speed) / c.Factor)
	}
	return c
}

func (r Request) check() error {
	if err := fault.CheckTemperature(fault.FieldTemperature, r.Temperature); err != nil {
		return err
	}
	if _, err := r.Liquid.Dissolves(); err != nil {
		return fault.Relabel(err, fault.FieldLiquid)
	}
	switch {
	case r.Gross > 0 && r.Gross <= r.Empty:
		return fault.Input(fault.FieldGross, "the truck is over its limit when empty; allowed: above %v", r.Empty)
	case r.Gross > 0 && r.Empty == 0:
		return fault.Input(fault.FieldEmpty, "a gross limit says nothing without the empty weight; allowed: both")
	case r.Haul > 0 && r.Tank == 0:
		return fault.Input(fault.FieldVolume, "loads cannot be counted without the truck's tank; allowed: with a truck or a tank")
	case r.Rate > 0 && r.AreaRate > 0:
		return fault.Input(fault.FieldRate, "two rates; allowed: per lane or per area")
	case r.AreaRate > 0 && r.Speed > 0 && r.Width == 0:
		return fault.Input(fault.FieldWidth, "a rate per area needs the width of the spray; allowed: like 12ft")
	case (r.Rate > 0 || r.AreaRate > 0) && r.Speed == 0:
		return fault.Input(fault.FieldSpeed, "a rate says nothing of flow without a speed; allowed: like 30mph")
	case r.Caught > 0 && r.Over == 0:
		return fault.Input(fault.FieldOver, "a catch says nothing without its time; allowed: like 60s")
	}
	return nil
}
