package season

import (
	"maps"
	"math"
	"slices"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
)

// Stock is what stood of a liquid in the tanks and beside them over a month. Closing is Opening
// and what moved.
type Stock struct {
	Month            time.Time // its first day
	Liquid           string
	Opening, Closing quantity.Volume
	Moved            [state.Classes]quantity.Volume // into the stock; negative for what left
}

// Flow is what a class moved over the period.
type Flow struct {
	Masses balance.Masses  // into the tanks and beside them; negative for what left
	Volume quantity.Volume // the same
	Salt   quantity.Mass   // onto the pile, as delivered; negative for what left
	NaCl   quantity.Mass   // in that salt
}

// Chlorides returns the mass of chloride ion that left with liquids and with salt off the pile;
// below nothing for what came.
func (f Flow) Chlorides() quantity.Mass {
	m := f.Masses
	m.NaCl += float64(f.NaCl)
	return quantity.Mass(-m.Chloride())
}

// addParts adds what an entry did to the stock of each liquid.
func (s *summary) addParts(f *state.Effect) {
	for _, part := range f.Parts {
		flow := &s.report.Flows[part.Class]
		flow.Masses = flow.Masses.Plus(part.Masses)
		flow.Volume += part.Volume
		key := lineKey{s.month.Unix(), part.Liquid}
		moved := s.moves[key]
		if moved == nil {
			moved = new([state.Classes]quantity.Volume)
			s.moves[key] = moved
		}
		moved[part.Class] += part.Volume
		switch part.Class {
		case state.Made:
			s.line(part.Liquid).Made += part.Volume
		case state.Delivered:
			s.line(part.Liquid).Delivered += part.Volume
		case state.Laid:
			l := s.line(part.Liquid)
			l.Laid -= part.Volume
			l.NaCl -= quantity.Mass(part.Masses.NaCl)
			l.Chlorides -= quantity.Mass(part.Masses.Chloride())
		}
	}
}

// stocks rolls what stood of each liquid from month to month.
func (s *summary) stocks() []Stock {
	months, names := map[int64]bool{}, map[string]bool{}
	for key := range s.moves {
		months[key.month], names[key.liquid] = true, true
	}
	for name := range s.standing {
		names[name] = true
	}
	stands := maps.Clone(s.standing)
	if stands == nil {
		stands = map[string]quantity.Volume{}
	}
	var all []Stock
	for _, month := range slices.Sorted(maps.Keys(months)) {
		for _, name := range slices.Sorted(maps.Keys(names)) {
			moved, any := s.moves[lineKey{month, name}]
			stock := Stock{Month: time.Unix(month, 0).UTC(), Liquid: name, Opening: stands[name]}
			if any {
				stock.Moved = *moved
			}
			stock.close()
			if stands[name] = stock.Closing; any || stock.Opening > 0 {
				all = append(all, stock)
			}
		}
	}
	return all
}

// close adds up what moved. What rounding alone can have left is nothing.
func (m *Stock) close() {
	const nothing = 1e-9 // m3
	m.Closing = m.Opening
	for _, v := range m.Moved {
		m.Closing += v
	}
	if math.Abs(float64(m.Closing)) < nothing {
		m.Closing = 0
	}
}
