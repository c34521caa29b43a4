package cli

import (
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
