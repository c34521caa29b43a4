// Package trial runs a check of a test and reports whether it fails, without failing the
// test. The tests of gauge and solution do so with a changed coefficient.
package trial

import (
	"fmt"
	"testing"
)

// recorder takes the place of a test and keeps the first failure.
type recorder struct {
	testing.TB
	failure error
}

func (r *recorder) Errorf(format string, args ...any) {
	if r.failure == nil {
		r.failure = fmt.Errorf(format, args...)
	}
}

// FailNow ends the check; Failure recovers from the panic.
func (r *recorder) FailNow() { panic(r) }

// Logf drops what a check logs.
func (r *recorder) Logf(string, ...any) {}

// Failure runs a check and returns its first failure, or nil when it passes.
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
