package yard

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
)

// Said is who said what stands somewhere, and when. The zero value is the yard file, which does
// not tell when it was written.
type Said struct {
	Entry int       // of the journal: the last that changed it
	Time  time.Time // of that entry
	// MayReach is the strength to which salt may bring the brine that was put in and need not have
	// dissolved yet, by the entries; 0 where none is on its way. A reading up to that contradicts
	// nothing.
	MayReach quantity.Strength
	// Doubt is what an instrument showed against the entries; nil where nothing contradicts
	// them, or a count or a batch has settled it since.
	Doubt *Doubt
}

// ByJournal reports whether an entry of the journal said it.
func (s Said) ByJournal() bool { return s.Entry > 0 }

// Doubt is a reading that the entries before it did not lead to: something was not recorded, so
// that the volume is in doubt, even where the reading sets the strength.
type Doubt struct {
	Entry          int // the reading
	Read, Expected quantity.Strength
}

// driftAllowed is what a reading may be off from what the entries lead to: two marks of a
// hydrometer that is read to a tenth of a percent. Common practice, no source.
const driftAllowed = 0.002

// Contradicts reports whether a reading departs from the strength that was expected by more
// than instruments do. Like the ends of the band, what rounding adds does not count.
func Contradicts(read, expected quantity.Strength) bool {
	d := read - expected
	return d > driftAllowed+OnTarget || d < -driftAllowed-OnTarget
}

// Contradicted reports whether a reading contradicts the strength that stands there by what was
// said: one up to what it may reach while salt dissolves does not.
func (s Said) Contradicted(read, stands quantity.Strength) bool {
	return Contradicts(read, stands) && (s.MayReach == 0 || Contradicts(read, s.MayReach) && read > s.MayReach)
}

// Held is what stands in a vessel.
type Held struct {
	Volume quantity.Volume
	Liquid balance.Liquid
	Said   Said
}

// WeakLine is a line that was rinsed and holds water or weak brine since.
type WeakLine struct {
	Name string
	Said Said
}
