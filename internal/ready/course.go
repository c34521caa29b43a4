package ready

import (
	"math"
	"sort"
)

// course is how a gap closes: left is what is left of it, from 1 to 0, after a time in units of 1/rate, and
// until is the other way round.
type course interface {
	left(tau float64) float64
	until(left float64) float64
}

// bed is salt in excess: ds/dt = k (level - s). It never ends.
type bed struct{}

func (bed) left(tau float64) float64   { return math.Exp(-tau) }
func (bed) until(left float64) float64 { return -math.Log(left) }

// grains are a measured charge whose grains shrink: salt dissolves by its surface, which goes as the two
// thirds power of what is left (Hixson and Crowell, Ind. Eng. Chem. 23 (1931) 923), and by what the liquid is below
// saturation:
//
//	ds/dt = k (saturation - s) (left)^(2/3), left = (end - s) / gap
//
// With x = left^(1/3) and a = (saturation - end) / gap that is dx/dt = -k (a + x^3) / 3, which integrates in closed
// form. It ends: all is dissolved at until(0).
type grains struct {
	c     float64 // cube root of a
	full  float64 // the integral at x = 1
	times [grainSteps + 1]float64
}

const (
	grainSteps = 64
	// leastExcess keeps c above 0: a charge that ends at saturation takes for ever.
	leastExcess = 1e-3
)

func newGrains(saturation, end, gap float64) *grains {
	g := &grains{c: math.Cbrt(math.Max(leastExcess, (saturation-end)/math.Max(gap, 1e-4)))}
	g.full = g.integral(1)
	for i := range g.times {
		g.times[i] = g.untilRoot(1 - float64(i)/grainSteps)
	}
	return g
}

// integral is that of 1 / (c^3 + x^3).
func (g *grains) integral(x float64) float64 {
	c := g.c
	return (math.Log((x+c)/math.Sqrt(x*x-c*x+c*c)) + math.Sqrt(3)*math.Atan((2*x-c)/(c*math.Sqrt(3)))) / (3 * c * c)
}

func (g *grains) untilRoot(x float64) float64 { return 3 * (g.full - g.integral(x)) }

func (g *grains) until(left float64) float64 { return g.untilRoot(math.Cbrt(left)) }

func (g *grains) left(tau float64) float64 {
	i := sort.SearchFloat64s(g.times[:], tau)
	switch i {
	case 0:
		return 1
	case len(g.times):
		return 0
	}
	part := (tau - g.times[i-1]) / (g.times[i] - g.times[i-1])
	x := 1 - (float64(i-1)+part)/grainSteps
	return x * x * x
}

// ended is another course until its salt is gone, or a plug or a bypass ends it, after a time in s.
type ended struct {
	course
	at float64
}
