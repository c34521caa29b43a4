package bind

import (
	"cmp"

	"github.com/spf13/pflag"
)

// Again binds the same question once more, to flags of its own, with the words typed for
// this set, so that changes to it leave the first question alone.
func (b *Set) Again(question func(*Set)) (*Set, error) {
	again := New(pflag.NewFlagSet("", pflag.ContinueOnError))
	question(again)
	var err error
	again.flags.VisitAll(func(f *pflag.Flag) {
		if typed := b.flags.Lookup(f.Name); typed != nil && typed.Changed {
			err = cmp.Or(err, f.Value.Set(typed.Value.String()))
		}
	})
	return again, err
}

// Type gives a flag its text as if it had been typed.
func (b *Set) Type(flag, text string) error {
	v := b.flags.Lookup(flag).Value
	if typed, resets := v.(Resettable); resets {
		typed.Reset() // in place of what was typed before
	}
	return v.Set(text)
}
