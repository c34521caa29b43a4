// Package root finds where a function crosses zero, and where it is least.
package root

import "math"

// Between finds x between a and b where f crosses zero, given fa = f(a) and
// fb = f(b), to within tolerance in x. It is false when the ends have the same sign,
// so that no crossing is known to lie between them, and when f is not a number at an
// end or on the way.
// Method: Chandrupatla, Advances in Engineering Software 28 (1997) 145-149:
// inverse quadratic interpolation where it is safe, else bisection; it cannot
// leave the bracket.
func Between(f func(float64) float64, a, b, fa, fb, tolerance float64) (x float64, ok bool) {
	if !(fa <= 0 && fb >= 0 || fa >= 0 && fb <= 0) {
		return 0, false
	}
	if fa == 0 {
		return a, true
	}
	if fb == 0 {
		return b, true
	}
	c, fc := a, fa
	t := 0.5
	for {
		x = a + t*(b-a)
		fx := f(x)
		if math.IsNaN(fx) {
			return 0, false
		}
		if (fx > 0) == (fa > 0) {
			c, fc = a, fa
		} else {
			c, b, fc, fb = b, a, fb, fa
		}
		a, fa = x, fx

		best, fbest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, fbest = b, fb
		}
		limit := tolerance / math.Abs(b-a)
		if fbest == 0 || !(limit < 0.5) {
			return best, true
		}

		t = 0.5
		xi := (a - b) / (c - b)
		phi := (fa - fb) / (fc - fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = math.Min(1-limit, math.Max(limit, t))
	}
}
