package bind

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/level"
	"brineyard/internal/quantity"
	"brineyard/internal/sure"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Depth is a depth on a stick, or a size of a pile.
var Depth = Kind[quantity.Depth]{"depth", "in or cm", quantity.ParseDepth}

// Stick is the depth of what stands in a tank of the yard file, whose shape makes a volume of it.
type Stick struct {
	Result level.Result // zero unless the depth was typed
	depth  quantity.Depth
	typed  *Value[quantity.Depth]
}

// Bind binds --depth for the tank that is found before it. Refused are a depth without a tank, and
// one of a tank whose shape the yard file does not say.
func (k *Stick) Bind(b *Set, usage string, tank func() yard.Tank) {
	k.typed = Of(b, Depth, &k.depth, "depth", usage)
	b.Then(func(*Scope) (err error) {
		k.Result = level.Result{}
		if !k.typed.Given() {
			return nil
		}
		t := tank()
		switch {
		case t.Name == "":
			return fault.Refuse("--depth %s: of which tank? allowed: with --tank and a name from the yard file", words.Quoted(k.typed.text))
		case t.Shape.Form == yard.Unshaped:
			return fault.Refuse("--depth %s: the yard file does not say what shape tank %s has; allowed: with shape and sizes, or depths, in the file, or --volume",
				words.Quoted(k.typed.text), words.Quoted(t.Name))
		}
		k.Result, err = level.Calculate(StickRequest(t, k.depth))
		return err
	})
}

// StickRequest is what the yard knows of a tank beside the depth in it.
func StickRequest(t yard.Tank, depth quantity.Depth) level.Request {
	r := level.Request{Shape: t.Shape, Depth: depth, Division: t.Shape.Division, Bed: t.Bed, Capacity: t.Capacity}
	if t.OnFloor != nil {
		r.Bed = *t.OnFloor
	}
	if r.Division == 0 {
		r.Division = level.UsualDivision
	}
	return r
}

// Depth is what was typed; 0 for nothing.
func (k *Stick) Depth() quantity.Depth { return k.depth }

// Given reports whether the depth was typed.
func (k *Stick) Given() bool { return k.typed != nil && k.typed.Given() }

// Source takes the volume that the stick tells.
func (k *Stick) Source() Source[quantity.Volume] {
	return func(_ string, s *Scope) (quantity.Volume, Place, bool) {
		return k.Result.Volume, Place{flag: "depth", text: k.text()}, k.Given()
	}
}

func (k *Stick) text() string {
	if k.typed == nil {
		return ""
	}
	return k.typed.text
}

// Half is how far the volume may be off either way, spread evenly; 0 where no stick told it.
func (k *Stick) Half() quantity.Volume {
	if !k.Given() {
		return 0
	}
	return (k.Result.High - k.Result.Low) / 2 / sure.Inside
}

// Said says behind the volume, in brackets, that the stick told it.
func (k *Stick) Said(v show.View) string { return v.Say(" (stick, %v)", k.depth) }

// Note says how well the stick tells the volume.
func (k *Stick) Note(v show.View) string {
	if !k.Given() {
		return ""
	}
	return v.Say("At %v there are %v to %v, as finely as the stick is marked.", k.depth, k.Result.Low, k.Result.High)
}
