package solution

import "math"

// square is the matrix of a small linear system, of which the leading rows and columns
// are used.
type square [solidCount][solidCount]float64

// column is a vector for it.
type column [solidCount]float64

// solve overwrites b with the solution x of the leading n equations of a x = b, by
// Gaussian elimination with row pivoting, and reduces a to triangular form. It is false
// when the matrix is singular.
func solve(a *square, b *column, n int) bool {
	for k := range n {
		pivot := k
		for i := k + 1; i < n; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[pivot][k]) {
				pivot = i
			}
		}
		if !(math.Abs(a[pivot][k]) > 1e-300) {
			return false
		}
		a[k], a[pivot] = a[pivot], a[k]
		b[k], b[pivot] = b[pivot], b[k]
		for i := k + 1; i < n; i++ {
			f := a[i][k] / a[k][k]
			for j := k; j < n; j++ {
				a[i][j] -= f * a[k][j]
			}
			b[i] -= f * b[k]
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := k + 1; j < n; j++ {
			b[k] -= a[k][j] * b[j]
		}
		b[k] /= a[k][k]
	}
	return true
}
