package bind

import "brineyard/internal/quantity"

// Typed binds a quantity that only a command's rules take, where it was typed: it goes
// nowhere by itself, and nothing stands in for it.
func Typed[Q quantity.Quantity](b *Set, kind Kind[Q], name, usage string) *Value[Q] {
	v := &Value[Q]{name: name, kind: kind}
	b.flags.Var(v, name, usage+kind.ifBare())
	return v
}

// Said is the flag with the words that were typed, like --nacl 23.3%.
func (v *Value[Q]) Said() string { return "--" + v.name + " " + v.Quoted() }

// ASCII binds how charts are drawn.
func ASCII(b *Set, to *bool) {
	Switch(b, to, "ascii", "draw charts with plain characters alone")
}
