package cli

import (
	"errors"
	"strings"

	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/words"
	"brineyard/internal/yard/file"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// The exit statuses.
const (
	statusAnswered = 0
	statusFailed   = 1
	statusInput    = 2
	statusHold     = 3 // check --gate: not to be pumped
)

// flagError gives pflag's errors our words.
func flagError(cmd *cobra.Command, err error) error {
	var value *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	var unknown *pflag.NotExistError
	switch {
	case errors.As(err, &value) && value.GetFlag().Value.Type() == "bool":
		return fault.Refuse("--%s %s: takes no value; allowed: --%s alone", value.GetFlag().Name, words.Quoted(value.GetValue()), value.GetFlag().Name)
	case errors.As(err, &value):
		return fault.Refuse("--%s %s: %v", value.GetFlag().Name, words.Quoted(value.GetValue()), value.Unwrap())
	case errors.As(err, &missing):
		name := missing.GetSpecifiedName()
		return fault.Refuse("--%s: needs a value", name)
	case errors.As(err, &unknown):
		name := unknown.GetSpecifiedName()
		if strings.Trim(name, "0123456789.") == "" {
			return fault.Refuse("-%s: nothing here is below zero but a temperature behind its flag; allowed: 0 and above, or like --temp -3C", name)
		}
		return fault.Refuse("no such flag: %s; %s", words.Quoted(name), flagHint(cmd.Flags(), name))
	}
	return fault.Refuse("%s", words.OneLine(err.Error()))
}

// status tells the exit status that an error stands for.
func status(err error) int {
	var usage *fault.Refusal
	var file *file.Error
	var list run.FaultList
	switch {
	case err == nil:
		return statusAnswered
	case errors.Is(err, run.ErrHold):
		return statusHold
	case errors.As(err, &usage), errors.As(err, &file), errors.As(err, &list):
		return statusInput
	}
	return statusFailed
}
