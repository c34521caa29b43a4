package root

// Least returns where f, which has one minimum between low and high, is least. The
// error is at most 0.618^steps of the interval; each step costs one evaluation.
// Method: golden-section search, Kiefer, Proceedings of the American Mathematical
// Society 4 (1953) 502-506.
func Least(f func(float64) float64, low, high float64, steps int) float64 {
	const ratio = 0.6180339887498949
	c, d := high-ratio*(high-low), low+ratio*(high-low)
	fc, fd := f(c), f(d)
	for range steps {
		if fc < fd {
			high, d, fd = d, c, fc
			c = high - ratio*(high-low)
			fc = f(c)
		} else {
			low, c, fc = c, d, fd
			d = low + ratio*(high-low)
			fd = f(d)
		}
	}
	return (low + high) / 2
}
