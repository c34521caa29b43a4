// Package truck tells what a truck carries within its weight, and what its boom lays down.
package truck

import (
	"cmp"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Request asks what a truck carries and what its boom lays down. Zero means unknown;
// results that need it stay unknown.
type Request struct {
	Liquid      balance.Liquid
	Temperature quantity.Temperature
	Tank        quantity.Volume
	Empty       quantity.Mass
	Gross       quantity.Mass
	Margin      quantity.Mass // kept below the gross limit, for the scale's error and the driver
	LoadFlow    quantity.Flow
	Haul        quantity.Volume // to be carried in all
	Nozzles     int
	Lanes       int // sprayed at once; 0 counts as 1
	Width       quantity.Width
	Speed       quantity.Speed
	Rate        quantity.RatePerLength // of one lane
	AreaRate    quantity.RatePerArea
	Caught      quantity.Volume // in a catch test, from the whole boom
	Dry         bool            // nothing was caught in one
	Over        quantity.Duration
	Axles       *yard.Axles   // nil for not known
	BoomMost    quantity.Flow // that the boom's pump gives; 0 for not known
}

// FieldMargin names Request.Margin.
const FieldMargin = "margin"

// UsualMargin is kept below a truck's gross limit, for the scale's error and the driver. Common practice, no
// source.
const UsualMargin = 200 * quantity.Pound

// Result is the answer; each part says whether it is known.
type Result struct {
	Density quantity.Density
	Load    Load
	Spray   Spray
	Catch   Catch
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
	load := r.load(rho)
	return Result{Density: rho, Load: load, Spray: r.spray(load), Catch: r.caught()}, nil
}

// check applies the rules in order.
func (r Request) check() error {
	cold, dissolves := r.Liquid.Dissolves()
	first := cold.First()
	return cmp.Or(
		fault.CheckTemperature(fault.FieldTemperature, r.Temperature),
		fault.Relabel(dissolves, fault.FieldLiquid),
		fault.If(dissolves == nil && r.Tank > 0 && first.Found && float64(r.Temperature) <= first.Temperature, fault.FieldTemperature,
			"something solid forms in this liquid from %v down, and that is not loaded; allowed: warmer", quantity.Temperature(first.Temperature)),
		fault.If(!(r.Margin >= 0), FieldMargin, "less than nothing; allowed: 0 and above"),
		fault.If(r.Gross > 0 && r.Empty > 0 && r.Gross > r.Empty && r.Gross-r.Empty <= r.Margin, FieldMargin, "all that the truck may carry, %v; allowed: below that", r.Gross-r.Empty),
		fault.If(r.Gross > 0 && r.Gross <= r.Empty, fault.FieldGross, "the truck is over its limit when empty; allowed: above %v", r.Empty),
		fault.If(r.Gross > 0 && r.Empty == 0, fault.FieldEmpty, "a gross limit says nothing without the empty weight; allowed: both"),
		fault.If(r.Haul > 0 && r.Tank == 0, fault.FieldVolume, "loads cannot be counted without the truck's tank; allowed: with a truck or a tank"),
		fault.If(r.Rate > 0 && r.AreaRate > 0, fault.FieldRate, "two rates; allowed: per lane or per area"),
		fault.If(r.AreaRate > 0 && r.Speed > 0 && r.Width == 0, fault.FieldWidth, "a rate per area needs the width of the spray; allowed: like 12ft"),
		fault.If((r.Rate > 0 || r.AreaRate > 0) && r.Speed == 0, fault.FieldSpeed, "a rate says nothing of flow without a speed; allowed: like 30mph"),
		fault.If((r.Caught > 0 || r.Dry) && r.Over == 0, fault.FieldOver, "a catch says nothing without its time; allowed: like 60s"),
	)
}
