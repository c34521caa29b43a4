// Package faulttest checks what a calculator refuses.
package faulttest

import (
	"brineyard/internal/fault"

	"github.com/stretchr/testify/require"
)

// RequireField wants an InputError about a field.
func RequireField(t require.TestingT, err error, field, name string) {
	var input *fault.InputError
	require.ErrorAs(t, err, &input, name)
	require.Equal(t, field, input.Field, name)
}

// RequireOfTheInput wants nil or an InputError that names a field and what is allowed, and
// reports whether it was an error.
func RequireOfTheInput(t require.TestingT, err error, what string, seed uint64) bool {
	if err == nil {
		return false
	}
	var input *fault.InputError
	require.ErrorAs(t, err, &input, "%s, seed %d", what, seed)
	require.NotEmpty(t, input.Field)
	require.Contains(t, input.Reason, "allowed", "%s, seed %d", what, seed)
	return true
}

// RequireRefusal is RequireField with the words that tell what is wrong or allowed.
func RequireRefusal(t require.TestingT, err error, field, words string) {
	RequireField(t, err, field, words)
	require.ErrorContains(t, err, words)
}
