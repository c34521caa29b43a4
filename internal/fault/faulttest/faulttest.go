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

// RequireRefusal is requireField with the words that tell what is wrong or allowed.
func RequireRefusal(t require.TestingT, err error, field, words string) {
	RequireField(t, err, field, words)
	require.ErrorContains(t, err, words)
}
