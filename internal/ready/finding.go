package ready

import (
	"math"

	"brineyard/internal/yard"
)

// Finding is what the readings say of the tank.
type Finding int

// The findings. The command line words them.
const (
	WillBeReady  Finding = iota
	OnTarget             // it has reached the target
	PassedBand           // by the fit it is too strong
	ReadAbove            // the last reading is too strong
	StandsInBand         // it does not gain, and may be pumped
	StandsOnEdge         // it does not gain, and the reading leaves open whether it may be pumped
	NoGain               // it does not gain
	TooScattered         // no time can be told
	GetsWeaker
	LevelsOff     // at a strength below target
	MayNever      // get there
	TooEarly      // to tell whether it does
	NeverOnTarget // and no fault says why
	EndsBelow     // the target, as a measured charge
	AllDissolved  // as a measured charge
)

// enoughReadings are those from which on a tank that stops is told from one that goes on.
const enoughReadings = 5

// find returns the first of the findings that holds. Whether the tank is too strong is
// decided as check decides it, on the last reading and on the fit; a reading on the end of
// the band decides alone.
func (out *Result) find(r Request) Finding {
	last := len(r.Samples) - 1
	newest := out.Strengths[last]
	read, fitted := r.Band.Judge(newest), r.Band.Judge(out.Now)
	span := out.Newest.Range
	edge := r.Band.JudgeRange(newest, span.Low, span.High) == yard.OnTheEdge
	onEnd := math.Abs(float64(newest-r.Band.High)) <= yard.OnTarget
	for _, rule := range []struct {
		holds   bool
		finding Finding
	}{
		{read == yard.TooStrong, ReadAbove},
		{out.Charge && out.HasDone && out.Done.Value <= float64(r.Samples[last].At), AllDissolved},
		{out.Fault == Stalled && read == yard.MayPump, StandsInBand},
		{out.Fault == Stalled && edge, StandsOnEdge},
		{out.Fault == Stalled, NoGain},
		{out.Fault == Falling, GetsWeaker},
		{out.Never > mostNever && len(r.Samples) < enoughReadings, TooEarly},
		{out.Fault == Starved && out.Never > 0.5, LevelsOff},
		{out.Never > mostNever, MayNever},
		{out.Fault == Scattered, TooScattered},
		{out.short(r), EndsBelow},
		{!out.Reaches, NeverOnTarget},
		{fitted == yard.TooStrong && !onEnd, PassedBand},
		{out.Target.Value <= float64(r.Samples[last].At), OnTarget},
	} {
		if rule.holds {
			return rule.finding
		}
	}
	return WillBeReady
}
