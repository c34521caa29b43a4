package season

import (
	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
)

// DrySalt is the liquid of the lines with salt that was spread dry.
const DrySalt = "dry salt"

// addLoad adds what was laid down to the operator and to the route.
func (s *summary) addLoad(e *journal.Entry, f *state.Effect) {
	loads := 1
	if f.Continues {
		loads = 0
	}
	s.operator(e.Operator).Loads += loads
	s.addRoute(f, loads)
}

// addUnload takes what came back off the route that the truck was loaded for.
func (s *summary) addUnload(_ *journal.Entry, f *state.Effect) { s.addRoute(f, 0) }

func (s *summary) addRoute(f *state.Effect, loads int) {
	if f.Route == "" {
		return
	}
	r := s.routes[f.Route]
	if r == nil {
		r = &Route{Name: f.Route}
		s.routes[f.Route] = r
	}
	r.Loads += loads
	for _, part := range f.Parts {
		if part.Class == state.Laid {
			r.Volume -= part.Volume
			r.Chlorides -= quantity.Mass(part.Masses.Chloride())
		}
	}
	if f.Pile.Class == state.Laid {
		r.Salt -= f.Pile.Mass
		r.Chlorides -= chlorideOf(f.Pile)
	}
}

// chlorideOf is the chloride ion in salt that came to the pile, or left it.
func chlorideOf(m state.PileMove) quantity.Mass {
	return quantity.Mass(balance.Masses{NaCl: sodiumChloride(m)}.Chloride())
}

// sodiumChloride is kg of NaCl in salt that came to the pile, or left it.
func sodiumChloride(m state.PileMove) float64 { return float64(m.Mass) * m.Salt.SodiumChloride() }

// addPile adds what an entry did to the pile.
func (s *summary) addPile(f *state.Effect) {
	s.salt.add(f)
	m := f.Pile
	if m.Mass == 0 {
		return
	}
	flow := &s.report.Flows[m.Class]
	flow.Salt += m.Mass
	if m.Class != state.Made { // its salt is counted in the brine
		flow.NaCl += quantity.Mass(sodiumChloride(m))
	}
	if m.Class == state.Laid {
		l := s.line(DrySalt)
		l.Spread -= m.Mass
		l.NaCl -= quantity.Mass(sodiumChloride(m))
		l.Chlorides -= chlorideOf(m)
	}
}

// closeRoutes lists the routes, with the rate of those whose lanes are known.
func (s *summary) closeRoutes() {
	for _, r := range s.yard.Routes {
		if driven := s.routes[r.Name]; driven != nil && r.Length() > 0 {
			driven.Rate = quantity.MassPerLength(float64(driven.Chlorides) / float64(r.Length()))
		}
	}
	s.report.Routes = byName(s.routes)
}
