package sure

import "math"

// Scatter is what one sample of a tank that is pumped round differs from the mean of the tank, as a
// standard deviation; more comes from a slip or a tank that is not mixed. Common practice, no source.
const Scatter = 0.002

// ranges are the 99 % points of the range of n samples of a normal error, in standard deviations: from
// two to eight samples (studentized range for an unbounded number of degrees of freedom; worked out
// anew in the test).
var ranges = [...]float64{2: 3.643, 3: 4.120, 4: 4.403, 5: 4.603, 6: 4.757, 7: 4.882, 8: 4.987}

// students are the two-sided 95 % points of Student's t with n - 1 degrees of freedom (the tables in
// every handbook of statistics; from memory, and worked out anew in the test).
var students = [...]float64{2: 12.706, 3: 4.303, 4: 3.182, 5: 2.776, 6: 2.571, 7: 2.447, 8: 2.365}

// MostSamples is how many samples of one tank are taken together.
const MostSamples = len(ranges) - 1

// Samples are several values of one thing, each off by an error of its own that is spread evenly
// within Half beside the scatter.
type Samples struct {
	Values []float64
	Half   float64
}

// Mean returns the mean.
func (s Samples) Mean() float64 {
	sum := 0.0
	for _, x := range s.Values {
		sum += x
	}
	return sum / float64(len(s.Values))
}

// Apart returns the difference between the highest and the lowest.
func (s Samples) Apart() float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, x := range s.Values {
		low, high = min(low, x), max(high, x)
	}
	return high - low
}

// Allowed returns how far apart the values lie 99 times in 100 where nothing but the reading and the
// most that a mixed tank scatters is at work.
func (s Samples) Allowed() float64 {
	if len(s.Values) < 2 {
		return math.Inf(1)
	}
	return ranges[len(s.Values)] * math.Sqrt(s.Half*s.Half/3+Scatter*Scatter)
}

// Mixing returns the half-width of the 95 % range that the scatter leaves to the mean: Student's t
// times the standard error of what the scatter is beyond that of reading to a mark, and no more than
// 99 times in 100 in a tank that scatters the most. It is 0 for one sample, which cannot tell.
func (s Samples) Mixing() float64 {
	n := len(s.Values)
	if n < 2 {
		return 0
	}
	mean, squares := s.Mean(), 0.0
	for _, x := range s.Values {
		squares += (x - mean) * (x - mean)
	}
	variance := max(0, squares/float64(n-1)-s.Half*s.Half/3)
	const surely = 2.576 // standard deviations that hold a normal error 99 times in 100
	return min(students[n]*math.Sqrt(variance/float64(n)), surely*Scatter/math.Sqrt(float64(n)))
}
