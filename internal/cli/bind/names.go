package bind

import (
	"brineyard/internal/balance"
	"brineyard/internal/yard"
)

// TankNames lists the yard's tanks.
func TankNames(y *yard.Yard) []string {
	return namesOf(y.Tanks, func(t yard.Tank) string { return t.Name })
}

// TruckNames lists the yard's trucks.
func TruckNames(y *yard.Yard) []string {
	return namesOf(y.Trucks, func(t yard.Truck) string { return t.Name })
}

// RouteNames lists the yard's routes.
func RouteNames(y *yard.Yard) []string { return y.RouteNames() }

// LiquidNames lists brine, the liquids that the yard buys, and its blends.
func LiquidNames(y *yard.Yard) []string {
	names := append([]string{balance.BrineName}, namesOf(y.Liquids, func(l yard.Liquid) string { return l.Name })...)
	return append(names, namesOf(y.Blends, func(b yard.Blend) string { return b.Name })...)
}

// Places lists tanks, outlets, the supply, and the fresh-water tank.
func Places(y *yard.Yard) []string {
	places := append(append(TankNames(y), y.Plumbing.Outlets...), yard.FreshWater)
	if y.Plumbing.HasWaterTank() {
		places = append(places, yard.WaterTank)
	}
	return places
}

func namesOf[T any](all []T, name func(T) string) []string {
	var names []string
	for _, x := range all {
		names = append(names, name(x))
	}
	return names
}

// PumpNames lists the pumps that have names: all but the first.
func PumpNames(y *yard.Yard) []string {
	return namesOf(y.Plumbing.AllPumps()[1:], func(p yard.Pump) string { return p.Name })
}
