package cli

import (
	"errors"
	"fmt"
	"strings"

	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
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

func usagef(format string, args ...any) error { return fault.Refuse(format, args...) }

type faultList = run.FaultList

// allowed says what may be given instead.
func allowed(problem string, these []string) error {
	return fmt.Errorf("%s; allowed: %s", problem, words.Joined(these, "none"))
}

// flagError gives pflag's errors our words.
func flagError(cmd *cobra.Command, err error) error {
	var value *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	var unknown *pflag.NotExistError
	switch {
	case errors.As(err, &value) && value.GetFlag().Value.Type() == "bool":
		return usagef("--%s %s: takes no value; allowed: --%s alone", value.GetFlag().Name, words.Quoted(value.GetValue()), value.GetFlag().Name)
	case errors.As(err, &value):
		return usagef("--%s %s: %v", value.GetFlag().Name, words.Quoted(value.GetValue()), value.Unwrap())
	case errors.As(err, &missing):
		name := missing.GetSpecifiedName()
		return usagef("--%s: needs a value", name)
	case errors.As(err, &unknown):
		name := unknown.GetSpecifiedName()
		if strings.Trim(name, "0123456789.") == "" {
			return usagef("-%s: nothing here is below zero; allowed: 0 and above", name)
		}
		if near, ok := words.Nearest(name, namesOfFlags(cmd)); ok {
			return usagef("no such flag: %s; did you mean --%s?", words.Quoted(name), near)
		}
		return usagef("no such flag: %s; --help lists the flags", words.Quoted(name))
	}
	return usagef("%s", words.OneLine(err.Error()))
}

// namesOfFlags are the flags of a command.
func namesOfFlags(cmd *cobra.Command) []string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return names
}

// status tells the exit status that an error stands for.
func status(err error) int {
	var usage *fault.Refusal
	var file *file.Error
	var list faultList
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

// inputError names the flag, or the place in the yard file, of a calculator's
// InputError, and shows its quantities in the user's units.
func (s *setting) inputError(err error) error {
	var input *fault.InputError
	if !errors.As(err, &input) {
		return err
	}
	place := "--" + input.Field
	if o, ok := s.origin[input.Field]; ok {
		place = s.place(o)
	}
	return usagef("%s: %s", place, fault.Sentence(input.Reason, input.Args, s.system))
}

// show puts quantities into a sentence in the user's units.
func (s *setting) show(format string, args ...any) string {
	if s.bare {
		return format // nobody reads it
	}
	shown := make([]any, len(args))
	for i, a := range args {
		if q, ok := a.(quantity.Quantity); ok {
			a = q.In(s.system)
		}
		shown[i] = a
	}
	return fmt.Sprintf(format, shown...)
}
