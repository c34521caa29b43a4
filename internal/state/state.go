// Package state folds the entries of a journal over what a yard has: what stands in each
// tank, on each truck, beside the tanks and on the pile after them, what was read, what is to be
// done next, and which entries do not fit the others. It reads no files: a yard and entries in,
// figures out.
package state

import (
	"cmp"
	"iter"
	"maps"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// measuredAt is the temperature at which the volumes of entries count as measured.
var measuredAt = quantity.Fahrenheit(60)

// State is a yard as the entries so far leave it.
type State struct {
	yard    *yard.Yard                // never nil
	fresh   quantity.Density          // of fresh water
	full    float64                   // kg of NaCl that a kg of water takes up
	liquids map[string]balance.Liquid // of the yard, by name
	tanks   map[string]*Tank
	trucks  map[string]*Truck
	beside  map[string]*Stock // liquids beside the tanks, by name
	lines   map[string]yard.WeakLine
	orders  map[string][]Order // open ones by what was ordered, the oldest first
	effect  Effect             // of the entry that is applied
	moved   []moved            // by it

	Entries int // so far
	// Pile is rock salt as delivered. It is below nothing where deliveries are missing, and
	// at least that much where it is not known.
	Pile      quantity.Mass
	PileKnown bool          // by the yard file or a count
	PileSalt  yard.RockSalt // its quality: the mix of what was delivered
	PileSaid  yard.Said
	PileCount *PileCount
	// Problems are the first some thousand; Unlisted is how many more there are.
	Problems []Problem
	Unlisted int
	LeftOut  int // entries that changed nothing since they make no sense
}

// New is a yard before its first entry: what its file says stands in it. The yard is nil where
// there is no file.
func New(y *yard.Yard) *State {
	s := &State{
		yard: y, liquids: map[string]balance.Liquid{}, tanks: map[string]*Tank{}, trucks: map[string]*Truck{},
		beside: map[string]*Stock{}, lines: map[string]yard.WeakLine{}, orders: map[string][]Order{},
	}
	if y == nil {
		s.yard = &yard.Yard{}
	} else {
		s.liquids[balance.BrineName] = balance.SaltBrine(y.Band().Target)
	}
	s.fresh = freshWater(s.yard.Supply.Temperature)
	full, _ := balance.Saturation(measuredAt) // known at that temperature
	s.full = float64(full) / (1 - float64(full))
	s.PileSalt = s.yard.RockSalt()
	if pile := s.yard.Pile.OnHand; pile != nil {
		s.Pile, s.PileKnown = *pile, true
	}
	s.open()
	return s
}

// freshWater is the density of fresh water; where its temperature is not known, or is no
// water's, that at the temperature of measured volumes.
func freshWater(t quantity.Temperature) quantity.Density {
	rho, err := (balance.Liquid{}).Density(cmp.Or(t, measuredAt))
	if err != nil {
		return balance.BrineDensity(0, measuredAt)
	}
	return rho
}

// open begins with what the yard file says of tanks and liquids.
func (s *State) open() {
	for _, l := range s.yard.Liquids {
		s.liquids[l.Name] = l.Liquid
		if l.OnHand > 0 {
			s.besideOf(l.Name, l.Liquid).set(l.Liquid, l.OnHand)
		}
	}
	for _, t := range s.yard.Tanks {
		s.tanks[t.Name] = newTank(t, s.yard.Band().Target)
	}
}

// Replay applies entries, of which those that were taken back are left out, in the order of
// their times (journal.ByTime). It keeps none of them.
func Replay(y *yard.Yard, entries iter.Seq[*journal.Entry]) *State {
	s := New(y)
	for e := range entries {
		s.Apply(e)
	}
	return s
}

// Tanks returns the tanks of which the yard file or an entry says what is in them, in the
// order of their names.
func (s *State) Tanks() []*Tank {
	var all []*Tank
	for _, name := range slices.Sorted(maps.Keys(s.tanks)) {
		if t := s.tanks[name]; t.Known || t.Said.ByJournal() {
			all = append(all, t)
		}
	}
	return all
}

// Tank finds a tank of the yard file, or one that an entry named.
func (s *State) Tank(name string) (*Tank, bool) {
	t, ok := s.tanks[name]
	return t, ok
}

// Beside returns the liquids that stand beside the tanks, in the order of their names.
func (s *State) Beside() []*Stock { return byName(s.beside) }

// Trucks returns the trucks that entries named, in the order of their names.
func (s *State) Trucks() []*Truck { return byName(s.trucks) }

// WeakLines returns the lines that were rinsed and hold water since, in the order of their
// names.
func (s *State) WeakLines() []yard.WeakLine { return byName(s.lines) }

func byName[T any](named map[string]T) []T {
	var all []T
	for _, name := range slices.Sorted(maps.Keys(named)) {
		all = append(all, named[name])
	}
	return all
}

// Masses sums up what stands in the tanks and beside them.
func (s *State) Masses() balance.Masses {
	var m balance.Masses
	for stock := range s.stocks() {
		m = m.Plus(stock.Masses())
	}
	return m
}

// Volumes tells how much stands in the tanks and beside them of each liquid, by its name.
func (s *State) Volumes() map[string]quantity.Volume {
	v := map[string]quantity.Volume{}
	for stock := range s.stocks() {
		if stock.Mass > 0 {
			v[stock.Liquid.Name] += stock.Volume()
		}
	}
	return v
}

// stocks goes through the tanks and the liquids beside them, in the order of their names, so
// that sums are the same each time.
func (s *State) stocks() iter.Seq[*Stock] {
	return func(yield func(*Stock) bool) {
		for _, t := range byName(s.tanks) {
			if !yield(&t.Stock) {
				return
			}
		}
		for _, stock := range byName(s.beside) {
			if !yield(stock) {
				return
			}
		}
	}
}
