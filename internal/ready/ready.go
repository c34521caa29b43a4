// Package ready tells from timed readings when a mixing tank reaches its target.
package ready

import (
	"cmp"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// TimedSample is a reading while mixing, at a time from any one moment on.
type TimedSample struct {
	At     quantity.Duration
	Sample brine.Sample
}

// Request asks when a mixing tank will be ready.
type Request struct {
	Samples []TimedSample
	Band    yard.Band
	// End is the strength at which a measured charge ends, all dissolved; 0 where it is not known.
	End  quantity.Strength
	Past Past
}

// Fault says why readings do not fit the law of mixing.
type Fault int

// The faults. The command line words them.
const (
	NoFault   Fault = iota
	Starved         // it levels off below saturation
	Falling         // it gets weaker
	OneWrong        // one reading lies far off the others
	Scattered       // more scatter than a hydrometer's
	Stalled         // it does not gain
)

// Span is a value with its 95 % error band.
type Span struct{ Value, Low, High float64 }

// Result is what the readings tell. Times are on the scale of the request.
//
// A bed of salt drives the tank toward saturation,
//
//	strength = saturation - (saturation - start) exp(-k t)
//
// with t from the first reading; start and k are fitted by least squares.
type Result struct {
	Strengths  []quantity.Strength // true, by reading
	Newest     brine.ReadingResult // the last reading
	Saturation quantity.Strength   // at the last reading's temperature
	Start      quantity.Strength   // fitted, at the first reading
	Rate       Span                // k, 1/s
	Fault      Fault
	// Odd is the reading that is far off, for OneWrong.
	Odd int
	// Plateau is where it levels off, for Starved.
	Plateau quantity.Strength
	// Target is when it reaches the target, and TooStrong when it passes the band;
	// Reaches and Passes tell whether it ever does.
	// High is infinite where it may level off below. Value is the median of all that fits.
	Target, TooStrong Span
	Reaches, Passes   bool
	// Charge tells that a measured charge ends at the End of the request; Done is then when it is dissolved.
	Charge  bool
	Done    Span
	HasDone bool
	// Never is the chance that it never reaches the target.
	Never   float64
	Finding Finding
	// Look is when to read next.
	Look quantity.Duration
	// Now is the fitted strength at the last reading.
	Now quantity.Strength
	// Scatter is the standard deviation of the readings about the fit, or what a
	// hydrometer can be read to where there are too few to tell.
	Scatter quantity.Strength
}

const (
	// readingError is the least standard deviation of a reading: half a mark of 0.2 %. Common practice,
	// no source.
	readingError = 0.001
	// soonest is the shortest time until the next look.
	soonest = 2 * quantity.Minute
)

// Estimate fits the law of mixing to the readings. Errors: InputError for fewer than
// two readings, times that do not rise, or readings of no brine.
func Estimate(r Request) (Result, error) {
	out, points, err := r.points()
	if err != nil {
		return Result{}, err
	}
	out.Charge = r.charge(out.Saturation)
	f := fitMixing(points, float64(out.Saturation))
	out.Fault, out.Odd = f.fault(points)
	switch out.Fault {
	case Starved:
		out.Plateau = quantity.Strength(f.plateau)
	case OneWrong:
		rest := append(append([]mixPoint(nil), points[:out.Odd]...), points[out.Odd+1:]...)
		f = fitMixing(rest, float64(out.Saturation))
	}
	out.describe(f, points)
	if out.Fault == Falling || out.Fault == Stalled {
		out.Rate, out.Look = Span{}, r.Samples[0].At+soon(points)
		out.stands(r, points)
	} else {
		out.foresee(r, look(points, r.question(out.Saturation)), points)
	}
	out.Finding = out.find(r)
	return out, nil
}

// soon is as long after the last reading as those before lie apart.
func soon(points []mixPoint) quantity.Duration {
	last := points[len(points)-1].t
	return quantity.Duration(last) + max(soonest, quantity.Duration(last/float64(len(points)-1)))
}

// stands finds a charge that was dissolved from the first reading on.
func (out *Result) stands(r Request, points []mixPoint) {
	off := points[len(points)-1].s - float64(r.End)
	if out.Charge && out.Fault == Stalled && math.Abs(off) <= 3*errorOf(points) {
		begin := float64(r.Samples[0].At)
		out.Done, out.HasDone = Span{begin, begin, begin}, true
	}
}

// mostNever is the chance that a tank never reaches its target above which no time is given.
const mostNever = 0.05

// mostScatter is how many times a careful reading's error they may scatter.
const mostScatter = 3

// foresee takes the times, and the chance that they never come, from every way that fits the readings.
func (out *Result) foresee(r Request, o outlook, points []mixPoint) {
	begin, last := float64(r.Samples[0].At), points[len(points)-1]
	shift := func(s Span) (Span, bool) {
		return Span{s.Value + begin, s.Low + begin, s.High + begin}, !math.IsInf(s.Value, 1)
	}
	out.Never = o.never
	if o.now > 0 {
		out.Now = quantity.Strength(o.now)
	}
	if last.s >= float64(r.Band.Target) { // it is there
		out.Never = 0
	}
	out.Look = quantity.Duration(begin) + soon(points)
	if limit := map[Fault]float64{Scattered: mostScatter, OneWrong: 2}[out.Fault]; o.scatter <= limit*errorOf(points) {
		out.Fault = NoFault // they follow another course than a bed's
	}
	short := out.short(r)
	if out.Never > mostNever || out.Fault == Scattered && !short {
		return
	}
	if out.Charge {
		out.Done, out.HasDone = shift(o.done)
	}
	if short {
		out.Fault, out.Look = NoFault, max(quantity.Duration(begin+last.t)+soonest, quantity.Duration(out.Done.Low))
		return
	}
	if out.Fault == Starved {
		out.Fault = NoFault // a time is given after all
	}
	out.Target, out.Reaches = shift(o.target)
	out.TooStrong, out.Passes = shift(o.high)
	out.Look = max(quantity.Duration(begin+last.t)+soonest, quantity.Duration(out.Target.Low))
}

// short reports whether a measured charge ends below the target.
func (out *Result) short(r Request) bool { return out.Charge && r.End < r.Band.Target-yard.OnTarget }

// mixPoint is a time in s from the first reading, and a strength with the standard deviation to which
// its instruments are read.
type mixPoint struct{ t, s, error float64 }

// errorOf is the standard deviation of a reading: that of the worst, and no better than a careful one.
func errorOf(points []mixPoint) float64 {
	worst := readingError
	for _, p := range points {
		worst = max(worst, p.error)
	}
	return worst
}

// points turns readings into true strengths.
func (r Request) points() (Result, []mixPoint, error) {
	out := Result{}
	if err := cmp.Or(
		fault.If(len(r.Samples) < 2, fault.FieldReadings, "fewer than two tell no rate; allowed: two or more, like 10:05=12%% 10:20=18.5%%"),
		r.Band.Check(),
	); err != nil {
		return out, nil, err
	}
	var points []mixPoint
	for i, s := range r.Samples {
		if i > 0 && s.At <= r.Samples[i-1].At {
			return out, nil, fault.Input(fault.FieldReadings, "reading %v is not later than the one before; allowed: in order of time", quantity.Count(i+1))
		}
		reading, err := brine.Reading(s.Sample)
		if err != nil {
			return out, nil, err
		}
		out.Strengths = append(out.Strengths, reading.True)
		points = append(points, mixPoint{float64(s.At - r.Samples[0].At), float64(reading.True), reading.Sure.Deviation()})
		out.Newest = reading
	}
	last := r.Samples[len(r.Samples)-1].Sample
	full, err := balance.Saturation(last.Temperature)
	if err != nil {
		return out, nil, err
	}
	out.Saturation = full
	_, err = balance.KnowTarget(r.Band.Target, last.Temperature)
	return out, points, err
}

// describe takes from a fit what it tells of the readings.
func (out *Result) describe(f mixFit, points []mixPoint) {
	out.Start = quantity.Strength(f.plateau - f.gap)
	out.Rate = f.rate()
	out.Scatter = quantity.Strength(f.sigma)
	out.Now = quantity.Strength(f.at(points[len(points)-1].t))
}
