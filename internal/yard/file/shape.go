package file

import (
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"maps"
	"slices"
)

var forms = map[string]yard.Form{"vertical": yard.Upright, "horizontal": yard.Lying, "box": yard.Box}

var heads = map[string]yard.Head{
	"flat": yard.Flat, "conical": yard.Conical, "ellipsoidal": yard.Ellipsoidal, "spherical": yard.Spherical, "torispherical": yard.Torispherical,
}

// readShape reads the keys of a tank's shape.
func readShape(t *table, s *yard.Shape) {
	t.read(
		oneOf("shape", forms, &s.Form),
		number("diameter", quantity.ParseDepth, &s.Diameter).aboveZero(),
		number("length", quantity.ParseDepth, &s.Length).aboveZero(),
		number("width", quantity.ParseDepth, &s.Width).aboveZero(),
		oneOf("heads", heads, &s.Heads),
		number("head_depth", quantity.ParseDepth, &s.HeadDepth),
		number("zero", quantity.ParseDepth, &s.Zero),
		number("stick", quantity.ParseDepth, &s.Division).aboveZero(),
		depths(s),
	)
	if s.Form != yard.Unshaped {
		err := s.Check()
		t.refuse(err != nil, "shape", "%v", err)
	}
}

// oneOf is one of some words.
func oneOf[E any](name string, among map[string]E, to *E) key {
	return key{name: name, read: func(t *table, value any) bool {
		typed, _ := value.(string)
		e, known := among[typed]
		t.refuse(!known, name, "%s = %s: not known; %s", name, words.Quoted(typed), words.Allowed(typed, slices.Sorted(maps.Keys(among))))
		*to = e
		return known
	}}
}

// depths is a list of pairs of depth and volume, of a measured tank.
func depths(s *yard.Shape) key {
	const name = "depths"
	depth := column[quantity.Depth]{"depth", quantity.ParseDepth}
	volume := column[quantity.Volume]{"volume", quantity.ParseVolume}
	return key{name: name, read: func(t *table, value any) bool {
		list, ok := value.([]any)
		t.refuse(!ok, name, "depths takes a list of pairs, like [[\"12in\", \"410gal\"], [\"24in\", \"830gal\"]]")
		t.refuse(s.Form != yard.Unshaped, name, "a shape and measured depths are two descriptions; allowed: one of them")
		pairs(t, name, list, depth, volume, func(_ int, d quantity.Depth, v quantity.Volume) {
			s.Marks = append(s.Marks, yard.Mark{Depth: d, Volume: v})
		})
		s.Form = yard.MarkedTank
		return ok
	}}
}
