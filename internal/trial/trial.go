// Package trial asks whether a test would fail, without failing. The tests of gauge and
// solution change a coefficient and ask that of the checks that should notice.
package trial

import (
	"fmt"
	"testing"
)

// recorder stands in for a test and keeps the first failure.
type recorder struct {
	testing.TB
	failure error
}

func (r *recorder) Errorf(format string, args ...any) {
	if r.failure == nil {
		r.failure = fmt.Errorf(format, args...)
	}
}

// FailNow leaves the check; Failure catches it.
func (r *recorder) FailNow() { panic(r) }

// Logf keeps what a check has to say about deviations to itself.
func (r *recorder) Logf(string, ...any) {}

// Failure runs a check and returns its first failure; nil: it passed.
func Failure(t testing.TB, check func(testing.TB)) (failure error) {
	r := &recorder{TB: t}
	defer func() {
		if left := recover(); left != nil && left != any(r) {
			panic(left)
		}
		failure = r.failure
	}()
	check(r)
	return nil
}
