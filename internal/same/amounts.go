package main

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// unit is a way to write a quantity: factor and shift make its number of that in the
// first unit of the dimension.
type unit struct {
	name          string
	factor, shift float64
}

// dimensions are the units that the program takes; a bare number is in the first.
var dimensions = map[string][]unit{
	"strength":    {{"%", 1, 0}, {"pct", 1, 0}},
	"temperature": {{"F", 1, 0}, {"C", 5.0 / 9, -160.0 / 9}, {"degC", 5.0 / 9, -160.0 / 9}, {"K", 5.0 / 9, 459.67 * 5 / 9}},
	"volume":      {{"gal", 1, 0}, {"L", 3.785411784, 0}, {"kL", 3.785411784e-3, 0}, {"m3", 3.785411784e-3, 0}, {"gallons", 1, 0}},
	"weight":      {{"lb", 1, 0}, {"kg", 0.45359237, 0}, {"ton", 1.0 / 2000, 0}, {"t", 0.45359237e-3, 0}},
	"density":     {{"lb/gal", 1, 0}, {"kg/m3", 119.826427, 0}, {"kg/L", 0.119826427, 0}, {"g/mL", 0.119826427, 0}},
	"flow":        {{"gal/min", 1, 0}, {"gpm", 1, 0}, {"L/min", 3.785411784, 0}, {"L/s", 0.0630902, 0}, {"m3/h", 0.2271247, 0}},
	"rate":        {{"gal/mi", 1, 0}, {"L/km", 2.352145, 0}},
	"area-rate":   {{"gal/acre", 1, 0}, {"gal/1000ft2", 1 / 43.56, 0}, {"L/ha", 9.353956, 0}, {"L/m2", 9.353956e-4, 0}},
	"speed":       {{"mph", 1, 0}, {"km/h", 1.609344, 0}, {"m/s", 0.44704, 0}},
	"width":       {{"ft", 1, 0}, {"m", 0.3048, 0}, {"in", 12, 0}},
	"depth":       {{"in", 1, 0}, {"cm", 2.54, 0}, {"mm", 25.4, 0}, {"ft", 1.0 / 12, 0}},
	"distance":    {{"mi", 1, 0}, {"km", 1.609344, 0}},
	"time":        {{"min", 1, 0}, {"s", 60, 0}, {"h", 1.0 / 60, 0}},
	"money":       {{"", 1, 0}},
	"number":      {{"", 1, 0}},
	"degrees":     {{"", 1, 0}, {"deg", 1, 0}},
}

// amount is a usual range of a quantity, in the first unit of its dimension.
type amount struct {
	dimension string
	low, high float64
}

// amounts are the kinds of value that are a number with a unit.
var amounts = map[string]amount{
	"temp": {"temperature", 30, 80}, "warm": {"temperature", 33, 85}, "cold": {"temperature", -8, 28}, "icy": {"temperature", -30, -8},
	"strength": {"strength", 14, 26.2}, "weak": {"strength", 12, 22.5}, "strong": {"strength", 24, 26.2},
	"to": {"strength", 23, 23.5}, "low": {"strength", 20, 22.9}, "high": {"strength", 24, 26},
	"stock-strength": {"strength", 24.2, 26.3}, "thin-stock": {"strength", 0, 21},
	"purity": {"strength", 86, 100}, "moisture": {"strength", 0, 6},
	"nacl": {"strength", 1, 25}, "some-salt": {"strength", 1, 9}, "cacl2": {"strength", 3, 36}, "mgcl2": {"strength", 3, 31}, "kcl": {"strength", 2, 20},
	"hydrometer": {"strength", 14, 26}, "edge": {"strength", 26, 27}, "sg": {"number", 1.07, 1.195}, "salometer": {"degrees", 40, 97}, "baume": {"degrees", 9, 23.8},
	"division": {"number", 0.001, 0.6}, "offset": {"number", -0.3, 0.3}, "ice-bath": {"temperature", 28, 36}, "grams-of-water": {"weight", 2, 2.4}, "grams": {"weight", 0.001, 0.01}, "degrees": {"number", 0.1, 4},
	"weigh": {"density", 8.9, 9.95}, "capacity": {"volume", 900, 6000},
	"bed": {"weight", 50, 3500}, "salt": {"weight", 50, 6000}, "charge": {"weight", 400, 700}, "charge-water": {"volume", 180, 320}, "pinch": {"weight", 10, 80}, "delivered": {"weight", 10000, 80000},
	"flow": {"flow", 10, 250}, "rate": {"rate", 12, 70}, "area-rate": {"area-rate", 8, 60}, "speed": {"speed", 6, 40}, "width": {"width", 6, 26},
	"catch": {"volume", 2, 60}, "over": {"time", 0.3, 3}, "truck-tank": {"volume", 150, 2500},
	"empty": {"weight", 5000, 21000}, "gross": {"weight", 16000, 42000}, "haul": {"volume", 300, 9000}, "reserve": {"volume", 50, 3000},
	"cost": {"money", 5, 4000}, "some-water": {"volume", 10, 900}, "some-volume": {"volume", 20, 450},
	"depth": {"depth", 2, 80}, "heap": {"depth", 60, 500},
	"hours": {"time", 30, 700}, "distance": {"distance", 1, 190},
}

// How often a value is written in which way.
const (
	bareShare   = 0.12 // no unit
	firstShare  = 0.55 // the first unit
	oddShare    = 0.08 // another spelling
	fineShare   = 0.15 // many digits
	wideShare   = 0.02 // outside the usual range
	mostDecimal = 6
)

// amount draws a number with its unit.
func (d *draft) amount(kind string, a amount) string {
	x := d.between(a.low, a.high)
	if d.chance(wideShare) {
		x = a.low + (d.Float64()*4-1.5)*(a.high-a.low)
	}
	if kind == "capacity" && d.volume > 0 {
		x = d.volume * d.between(0.97, 1.8)
	}
	return d.written(x, a.dimension)
}

// written writes a number of the dimension's first unit in one of its units.
func (d *draft) written(x float64, dimension string) string {
	all := dimensions[dimension]
	switch {
	case d.chance(bareShare):
		return d.digits(x)
	case len(all) == 1 || d.chance(firstShare):
		return d.spelled(d.digits(x), all[0].name)
	}
	u := pick(d.dice, all[1:])
	return d.spelled(d.digits(x*u.factor+u.shift), u.name)
}

// digits writes a number to two to five digits, or to many.
func (d *draft) digits(x float64) string {
	significant := 2 + d.IntN(4)
	if d.chance(fineShare) {
		significant = 8
	}
	if x == 0 {
		return "0"
	}
	decimals := significant - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	return strconv.FormatFloat(x, 'f', min(mostDecimal, max(0, decimals)), 64)
}

// spelled puts number and unit together, now and then in an odd way that is allowed.
func (d *draft) spelled(number, unit string) string {
	if unit == "" || !d.chance(oddShare) {
		return number + unit
	}
	return pick(d.dice, []string{number + " " + unit, number + strings.ToUpper(unit), number + strings.ToLower(unit), " " + number + unit + " ", "+" + number + unit})
}

// volumeValue draws what stands in a tank: within the one named last.
func volumeValue(d *draft) string {
	room := d.room
	if room == 0 {
		room = 1500
	}
	d.volume = room * d.between(0.15, 0.9)
	return d.written(d.volume, "volume")
}

// brimValue draws what almost fills the tank named last.
func brimValue(d *draft) string { return d.written(d.room*d.between(0.93, 0.9999), "volume") }

// heelValue draws a heel below the volume drawn last.
func heelValue(d *draft) string {
	if d.volume == 0 {
		d.volume = max(d.room, 400) / 2
	}
	return d.written(d.volume*d.between(0.02, 0.6), "volume")
}

// nearValue draws a strength that is almost the target, from a tenth of a percent off
// down to nothing.
func nearValue(d *draft) string {
	off := math.Pow(10, -d.between(1, 6.5))
	if d.chance(0.5) {
		off = -off
	}
	if d.chance(0.1) {
		off = 0
	}
	return strconv.FormatFloat(pick(d.dice, []float64{23.3, 23.3, 23, 24, 22.5})+off, 'f', -1, 64) + "%"
}

// calValue draws a calibration: mostly one that is printed on instruments.
func calValue(d *draft) string {
	if d.chance(0.3) {
		return d.written(d.between(50, 80), "temperature")
	}
	return pick(d.dice, []string{"60F", "68F", "20C", "15C", "15.6C", "60"})
}

// foreignUnit is a unit of another dimension.
func (d *draft) foreignUnit() string {
	var names []string
	for name := range dimensions {
		names = append(names, name)
	}
	slices.Sort(names)
	return pick(d.dice, dimensions[pick(d.dice, names)]).name
}
