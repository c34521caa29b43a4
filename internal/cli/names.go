package cli

import (
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
)

// The names that the yard file knows, for checks and for completion.

func (s *setting) tankNames(kind journal.Kind) []string {
	var names []string
	for _, t := range s.yard.Tanks {
		names = append(names, t.Name)
	}
	if kind == journal.Count {
		names = append(names, journal.Pile)
	}
	return names
}

func (s *setting) truckNames() []string {
	var names []string
	for _, t := range s.yard.Trucks {
		names = append(names, t.Name)
	}
	return names
}

func (s *setting) routeNames() []string {
	var names []string
	for _, r := range s.yard.Routes {
		names = append(names, r.Name)
	}
	return names
}

// liquidNames are brine, the liquids that are bought, and the blends.
func (s *setting) liquidNames() []string {
	names := []string{balance.BrineName}
	for _, l := range s.yard.Liquids {
		names = append(names, l.Name)
	}
	for _, b := range s.yard.Blends {
		names = append(names, b.Name)
	}
	return names
}

// allowedFor lists what may be given instead of a word, the one first that it was probably
// meant for.
func allowedFor(word string, names []string) string {
	word = strings.ToLower(word)
	for _, n := range names {
		if len(word) > 1 && (oneOff(word, strings.ToLower(n)) || strings.HasPrefix(strings.ToLower(n), word)) {
			return "did you mean " + n + "? allowed: " + strings.Join(names, ", ")
		}
	}
	return "allowed: " + listed(names)
}

// listed joins names, or says that there are none.
func listed(names []string) string {
	if len(names) == 0 {
		return "none; the file has none"
	}
	return strings.Join(names, ", ")
}
