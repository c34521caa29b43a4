package truck

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const (
	gallonPerMile = quantity.RatePerLength(float64(quantity.Gallon) / float64(quantity.Mile))
	gallonPerAcre = quantity.RatePerArea(float64(quantity.Gallon) / float64(quantity.Acre))
)

func sprayer() Request {
	return Request{
		Liquid: balance.SaltBrine(0.233), Temperature: quantity.Fahrenheit(60),
		Rate: 40 * gallonPerMile, Speed: 30 * quantity.MilePerHour, Lanes: 1,
	}
}

// Common practice, no source: flow = rate x speed / 60 for one lane.
func TestBoomFlow(t *testing.T) {
	r := sprayer()
	out, err := Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, 40.0*30/60, float64(out.Spray.Boom/quantity.GallonPerMinute), 1e-12)
	r.Lanes, r.Nozzles = 2, 16
	out, err = Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, 2*40.0*30/60/16, float64(out.Spray.Nozzle/quantity.GallonPerMinute), 1e-12)
}

// Source: UF/IFAS EDIS WG013: GPA = 5940 x GPM / (MPH x W), W the inches between
// nozzles; Mesa County stationary calibration: GPA = 495 x GPM / (MPH x swath in
// feet). Their constants are rounded to three digits.
func TestAreaRateByPublishedFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gpa := rapid.Float64Range(5, 200).Draw(t, "gal/acre")
		mph := rapid.Float64Range(3, 40).Draw(t, "mph")
		feet := rapid.Float64Range(4, 36).Draw(t, "ft")
		nozzles := rapid.IntRange(2, 30).Draw(t, "nozzles")
		r := sprayer()
		r.Rate, r.AreaRate = 0, quantity.RatePerArea(gpa)*gallonPerAcre
		r.Speed, r.Width, r.Nozzles = quantity.Speed(mph)*quantity.MilePerHour, quantity.Width(feet*float64(quantity.Foot)), nozzles
		out, err := Calculate(r)
		require.NoError(t, err)
		boom := float64(out.Spray.Boom / quantity.GallonPerMinute)
		require.InEpsilon(t, gpa, 495*boom/(mph*feet), 1e-3)
		nozzle := float64(out.Spray.Nozzle / quantity.GallonPerMinute)
		require.InEpsilon(t, gpa, 5940*nozzle/(mph*feet*12/float64(nozzles)), 1e-3)
	})
}

// Source: MPCA worked example: 20,000 square feet at 0.5 gal per 1,000 is 10 gal. A
// lane-mile of 12 feet is 63,360 square feet, so the two kinds of rate agree.
func TestAreaAndLaneAgree(t *testing.T) {
	perThousand := quantity.RatePerArea(0.5 * float64(quantity.Gallon) / (1000 * float64(quantity.Foot*quantity.Foot)))
	area := 20000 * float64(quantity.Foot*quantity.Foot)
	require.InEpsilon(t, 10, float64(perThousand)*area/float64(quantity.Gallon), 1e-12)
	r := sprayer()
	r.Rate, r.AreaRate, r.Width = 0, perThousand, quantity.Width(12*quantity.Foot)
	byArea, err := Calculate(r)
	require.NoError(t, err)
	r.AreaRate, r.Rate = 0, quantity.RatePerLength(31.68*float64(gallonPerMile))
	byLane, err := Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, float64(byArea.Spray.Boom), float64(byLane.Spray.Boom), 1e-12)
}

// A catch of the wanted flow is right; any other says by how much to change.
func TestCatch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := sprayer()
		off := rapid.Float64Range(0.3, 3).Draw(t, "off")
		r.Over = 60
		r.Caught = quantity.Volume(off * float64(r.wanted()) * 60)
		out, err := Calculate(r)
		require.NoError(t, err)
		require.InEpsilon(t, float64(r.Rate)*off, float64(out.Catch.Rate), 1e-12)
		require.InEpsilon(t, 1/off, out.Catch.Factor, 1e-12)
		require.InEpsilon(t, 1/off/off, out.Catch.Pressure, 1e-12)
		// At the speed that is named, this flow gives the rate.
		r.Speed = out.Catch.SpeedFor
		again, err := Calculate(r)
		require.NoError(t, err)
		require.InEpsilon(t, 1, again.Catch.Factor, 1e-9)
	})
}

// The load never exceeds tank or weight limit, and reaches one of them; loads carry
// all that is to be carried.
func TestLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := sprayer()
		r.Tank = quantity.Volume(rapid.Float64Range(0.5, 10).Draw(t, "m3"))
		r.Empty = quantity.Mass(rapid.Float64Range(1000, 9000).Draw(t, "empty"))
		r.Gross = r.Empty + quantity.Mass(rapid.Float64Range(100, 15000).Draw(t, "payload"))
		r.Haul = quantity.Volume(rapid.Float64Range(0.1, 100).Draw(t, "haul"))
		r.LoadFlow = 0.01
		out, err := Calculate(r)
		require.NoError(t, err)
		l := out.Load
		require.LessOrEqual(t, float64(l.Volume), float64(r.Tank)*(1+1e-12))
		require.LessOrEqual(t, float64(l.Total), float64(r.Gross)*(1+1e-12))
		if l.Weighed {
			require.InEpsilon(t, float64(r.Gross), float64(l.Total), 1e-12)
		} else {
			require.Equal(t, r.Tank, l.Volume)
		}
		require.InEpsilon(t, float64(r.Haul), float64(quantity.Volume(l.Loads-1)*l.Volume+l.LastOne), 1e-9)
		require.Positive(t, l.LastOne)
		require.InEpsilon(t, float64(l.Volume)/0.01, float64(l.Time), 1e-12)
		require.InEpsilon(t, float64(l.Volume)/float64(r.Rate), float64(out.Spray.Reach), 1e-12)
	})
}

// Common practice, no source: 1,000 gallons through 30 gal/min take 33 minutes.
func TestLoadingTime(t *testing.T) {
	r := sprayer()
	r.Tank, r.LoadFlow = 1000*quantity.Gallon, 30*quantity.GallonPerMinute
	out, err := Calculate(r)
	require.NoError(t, err)
	require.InDelta(t, 33.3, float64(out.Load.Time/quantity.Minute), 0.1)
}

func TestTruckRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		field  string
		change func(*Request)
	}{
		"over when empty": {fault.FieldGross, func(r *Request) { r.Empty, r.Gross = 9000, 8000 }},
		"no empty":        {fault.FieldEmpty, func(r *Request) { r.Gross = 8000 }},
		"no tank":         {fault.FieldVolume, func(r *Request) { r.Haul = 5 }},
		"two rates":       {fault.FieldRate, func(r *Request) { r.AreaRate = gallonPerAcre }},
		"no width":        {fault.FieldWidth, func(r *Request) { r.Rate, r.AreaRate = 0, gallonPerAcre }},
		"no speed":        {fault.FieldSpeed, func(r *Request) { r.Speed = 0 }},
		"no speed either": {fault.FieldSpeed, func(r *Request) { r.Rate, r.AreaRate, r.Speed = 0, gallonPerAcre, 0 }},
		"no time":         {fault.FieldOver, func(r *Request) { r.Caught = 1 }},
		"hot":             {fault.FieldTemperature, func(r *Request) { r.Temperature = quantity.Celsius(90) }},
		"no solution":     {fault.FieldLiquid, func(r *Request) { r.Liquid = balance.SaltBrine(0.4) }},
	} {
		r := sprayer()
		c.change(&r)
		_, err := Calculate(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// By hand: 1,000 gal at 50 gal an acre cover 20 acres; at 40 gal a mile of each of two
// lanes they reach 12.5 miles.
func TestLoadCovers(t *testing.T) {
	r := sprayer()
	r.Tank, r.Lanes = 1000*quantity.Gallon, 2
	out, err := Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, 12.5, float64(out.Spray.Reach/quantity.Mile), 1e-12)
	require.Zero(t, out.Spray.Covers)
	require.Zero(t, out.Spray.Nozzle)
	r.Rate, r.AreaRate, r.Width = 0, 50*gallonPerAcre, quantity.Width(12*quantity.Foot)
	out, err = Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, 20, float64(out.Spray.Covers/quantity.Acre), 1e-12)
	require.Zero(t, out.Spray.Reach)
}

// By hand: 20 gal in 60 s are 20 gal/min. At 30 mph, half a mile a minute, that is 40 gal
// a mile of one lane, 20 of each of two; over 12 ft a minute sprays 0.5 x 5,280 x 12
// square feet, 31,680 of 43,560 to the acre.
func TestCatchByHand(t *testing.T) {
	r := sprayer()
	r.Rate, r.Speed, r.Caught, r.Over = 0, 0, 20*quantity.Gallon, 60
	out, err := Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, 20, float64(out.Catch.Flow/quantity.GallonPerMinute), 1e-12)
	require.Equal(t, Catch{Known: true, Flow: out.Catch.Flow}, out.Catch)
	require.Zero(t, out.Spray)
	require.Zero(t, out.Load)

	r.Speed, r.Lanes, r.Width = 30*quantity.MilePerHour, 2, quantity.Width(12*quantity.Foot)
	out, err = Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, 20, float64(out.Catch.Rate/gallonPerMile), 1e-12)
	require.InEpsilon(t, 20*43560.0/31680, float64(out.Catch.AreaRate/gallonPerAcre), 1e-12)
	require.Zero(t, out.Catch.Factor) // there is no rate to compare with
}

// A truck that is to carry 3,000 gal by 1,000 takes three loads, the last one full.
func TestLoadsByHand(t *testing.T) {
	for haul, want := range map[float64]struct {
		loads int
		last  float64
	}{3000: {3, 1000}, 2500: {3, 500}, 1000: {1, 1000}, 10: {1, 10}} {
		r := sprayer()
		r.Tank, r.Haul = 1000*quantity.Gallon, quantity.Volume(haul)*quantity.Gallon
		out, err := Calculate(r)
		require.NoError(t, err)
		require.Equal(t, want.loads, out.Load.Loads, "%g", haul)
		require.InEpsilon(t, want.last, float64(out.Load.LastOne/quantity.Gallon), 1e-9, "%g", haul)
	}
}

// By hand: 500 kg of payload, or 100 m3 of tank that weigh more; what is left below the
// limit is none, and with a tank of 0.1 m3 of 1,177 kg/m3 500 less 117.7 kg.
func TestWeightLeft(t *testing.T) {
	r := sprayer()
	r.Empty, r.Gross, r.Tank = 4000, 4500, 100
	out, err := Calculate(r)
	require.NoError(t, err)
	require.True(t, out.Load.Weighed)
	require.InDelta(t, 0, float64(out.Load.Left), 1e-9)
	require.InEpsilon(t, 500, float64(out.Load.Weight), 1e-12)
	r.Tank = 0.1
	out, err = Calculate(r)
	require.NoError(t, err)
	require.False(t, out.Load.Weighed)
	require.InDelta(t, 500-117.7, float64(out.Load.Left), 0.1)
	r.Gross = r.Empty // nothing can be loaded
	_, err = Calculate(r)
	faulttest.RequireRefusal(t, err, fault.FieldGross, "over its limit when empty; allowed: above 8,820 lb")
}

// By hand: 500 kg of payload at 1,250 kg/m3 are 0.4 m3, less than a tank of 1 and more than
// one of 0.3; a truck that weighs its limit when empty, or more, carries nothing, and one
// without a limit its tank.
func TestFits(t *testing.T) {
	for _, c := range []struct {
		truck yard.Truck
		want  quantity.Volume
		by    Limit
	}{
		{yard.Truck{Tank: 1, Empty: 4000, Gross: 4500}, 0.4, ByGross},
		{yard.Truck{Tank: 0.3, Empty: 4000, Gross: 4500}, 0.3, ByTank},
		{yard.Truck{Tank: 0.4, Empty: 4000, Gross: 4500}, 0.4, ByTank},
		{yard.Truck{Tank: 1, Empty: 4500, Gross: 4500}, 0, ByGross},
		{yard.Truck{Tank: 1, Empty: 5000, Gross: 4500}, 0, ByGross},
		{yard.Truck{Tank: 1, Empty: 4000}, 1, ByTank},
		{yard.Truck{Tank: 1, Empty: 0.1, Gross: 0.6}, 0.0004, ByGross},
		{yard.Truck{}, 0, ByTank},
	} {
		v, by := Fits(c.truck, 1250, 0)
		require.InDelta(t, float64(c.want), float64(v), 1e-15, "%+v", c.truck)
		require.Equal(t, c.by, by, "%+v", c.truck)
	}
}

// A truck goes at its own speed, or at 30 mph where none is known (common practice, no
// source): 44 feet a second.
func TestSpeedOf(t *testing.T) {
	require.Equal(t, quantity.Speed(0.7), SpeedOf(yard.Truck{Speed: 0.7}))
	require.InEpsilon(t, 44*float64(quantity.Foot), float64(SpeedOf(yard.Truck{})), 1e-12)
}

// What a request does not tell enough for is not known, and nothing is said of it: a tank
// alone, a rate at a speed alone, a catch alone.
func TestUnknownStaysUnknown(t *testing.T) {
	r := sprayer()
	rate, speed := r.Rate, r.Speed
	r.Rate, r.Speed, r.Tank = 0, 0, 2
	out, err := Calculate(r)
	require.NoError(t, err)
	rho := out.Density
	require.Equal(t, Result{Density: rho, Load: Load{Known: true, By: ByTank, Volume: 2, Weight: 2 * quantity.Mass(rho)}}, out)
	r.Tank, r.Rate, r.Speed, r.Nozzles = 0, rate, speed, 1
	out, err = Calculate(r)
	require.NoError(t, err)
	require.Equal(t, Result{Density: rho, Spray: Spray{Known: true, Boom: r.wanted(), Nozzle: r.wanted()}}, out)
	r.Rate, r.Caught, r.Over = 0, 1, 60
	out, err = Calculate(r)
	require.NoError(t, err)
	require.Equal(t, Result{Density: rho, Catch: Catch{Known: true, Flow: 1.0 / 60, Rate: quantity.RatePerLength(1.0 / 60 / float64(speed))}}, out)
}

// What is kept below the gross limit for the scale and the driver is not loaded: 500 lb less 200 lb of brine of
// 10 lb/gal are 30 gal, by hand.
func TestMargin(t *testing.T) {
	r := Request{Liquid: balance.SaltBrine(0.233), Temperature: quantity.Fahrenheit(60), Tank: 1000 * quantity.Gallon, Empty: 9500 * quantity.Pound, Gross: 10000 * quantity.Pound}
	whole, err := Calculate(r)
	require.NoError(t, err)
	r.Margin = 200 * quantity.Pound
	kept, err := Calculate(r)
	require.NoError(t, err)
	require.InEpsilon(t, 300.0/500, float64(kept.Load.Volume/whole.Load.Volume), 1e-12)
	require.InEpsilon(t, float64(r.Margin), float64(kept.Load.Left), 1e-9)
	r.Margin = 501 * quantity.Pound
	_, err = Calculate(r)
	require.ErrorContains(t, err, "all that the truck may carry")
}

// A liquid in which something solid forms is not loaded; what the boom lays down can still be asked.
func TestNoSolidIsLoaded(t *testing.T) {
	r := Request{Liquid: balance.SaltBrine(0.20), Temperature: quantity.Fahrenheit(-5), Tank: 1000 * quantity.Gallon}
	_, err := Calculate(r)
	require.ErrorContains(t, err, "something solid forms")
	r.Tank = 0
	_, err = Calculate(r)
	require.NoError(t, err)
	r.Tank, r.Temperature = 1000*quantity.Gallon, quantity.Fahrenheit(10) // CRC: 20 % freezes at 2 F
	_, err = Calculate(r)
	require.NoError(t, err)
}

// A boom that gives nothing is an answer, and needs its time as any catch does.
func TestDryCatch(t *testing.T) {
	r := Request{Liquid: balance.SaltBrine(0.233), Temperature: quantity.Fahrenheit(60), Dry: true}
	_, err := Calculate(r)
	require.ErrorContains(t, err, "without its time")
	r.Over = 60
	out, err := Calculate(r)
	require.NoError(t, err)
	require.True(t, out.Catch.Known)
	require.Zero(t, out.Catch.Flow)
}
