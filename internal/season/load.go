package season

import (
	"slices"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
)

// addLoad adds what was laid down: to the line of its liquid, to the operator and to the
// route.
func (s *summary) addLoad(e *journal.Entry, f state.Effect) {
	chlorides := quantity.Mass(-f.Into.Chloride())
	l := s.line(e, f.Liquid)
	l.Laid += f.Volume
	l.NaCl -= quantity.Mass(f.Into.NaCl)
	l.Chlorides += chlorides
	loads := 1
	if s.truckload.continues(e) {
		loads = 0
	}
	s.operator(e.Operator).Loads += loads
	if e.Route == "" {
		return
	}
	r := s.routes[e.Route]
	if r == nil {
		r = &Route{Name: e.Route}
		s.routes[e.Route] = r
	}
	r.Loads += loads
	r.Volume += f.Volume
	r.Chlorides += chlorides
}

// loadedWithin is the time within which the rows of one blended truckload, a row for each
// tank, follow one another. Common practice, no source.
const loadedWithin = time.Hour

// truckload is the one that was recorded last.
type truckload struct {
	last  *journal.Entry // its last row
	tanks []string       // that it came from
}

// continues reports whether a row is a further part of the truckload: the same truck, route
// and blend out of another tank. If it is not, a new truckload begins with it.
func (l *truckload) continues(e *journal.Entry) bool {
	last := l.last
	l.last = e
	same := last != nil && e.Truck != "" && e.Liquid != "" &&
		last.Truck == e.Truck && last.Route == e.Route && last.Liquid == e.Liquid &&
		!slices.Contains(l.tanks, e.From) && e.Time.Sub(last.Time) <= loadedWithin
	if !same {
		l.tanks = l.tanks[:0]
	}
	l.tanks = append(l.tanks, e.From)
	return same
}
