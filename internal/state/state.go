// Package state folds the entries of a journal over what a yard has: what stands in each
// tank and on the pile after them, what was read, and which entries do not fit the others.
// It reads no files: a yard and entries in, figures out.
package state

import (
	"cmp"
	"iter"
	"sort"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// measuredAt is the temperature at which the volumes of entries count as measured.
var measuredAt = quantity.Fahrenheit(60)

// State is a yard as the entries so far leave it.
type State struct {
	rock     yard.RockSalt
	fresh    quantity.Density          // of fresh water; 0 where its temperature is no water's
	markedAt quantity.Temperature      // the hydrometer
	liquids  map[string]balance.Liquid // of the yard, by name
	capacity map[string]quantity.Volume
	tanks    map[string]*Tank
	Entries  int // so far
	// Pile is rock salt as delivered. It is below nothing where deliveries are missing.
	Pile      quantity.Mass
	PileKnown bool // counted or delivered once
	PileSaid  yard.Said
	PileCount *PileCount
	Problems  []Problem
}

// Problem is an entry that does not fit those before it. It counts as far as it can.
type Problem struct {
	Entry int
	Text  string // a format for Args
	Args  []quantity.Quantity
	// Cannot is set where the entry tells what cannot be: more out of a vessel than stands in
	// it, or more into it than it takes.
	Cannot  bool
	LeftOut bool // the entry changed nothing
}

// Effect is what an entry did.
type Effect struct {
	Into   balance.Masses  // the tanks; negative for what left them
	Volume quantity.Volume // made, laid or delivered
	Liquid string          // that Volume is of
	Salt   quantity.Mass   // used off the pile, as delivered
	NaCl   quantity.Mass   // that this salt brought into the brine
	Water  quantity.Volume // fresh water used
	// Used is what was taken of a bought liquid, by its name.
	Used       quantity.Volume
	UsedLiquid string
	Delivered  quantity.Mass  // of salt to the pile
	Counted    *quantity.Mass // the pile; nil unless the entry is a count of it
	Read       *TankReading   // nil unless the entry is a reading
}

// New is a yard before its first entry: empty tanks, no pile. The yard is nil where there is
// no file.
func New(y *yard.Yard) *State {
	s := &State{tanks: map[string]*Tank{}, liquids: map[string]balance.Liquid{}, capacity: map[string]quantity.Volume{}}
	if y == nil {
		y = &yard.Yard{}
	} else {
		s.liquids[balance.BrineName] = balance.SaltBrine(y.Band().Target)
	}
	for _, l := range y.Liquids {
		s.liquids[l.Name] = l.Liquid
	}
	for _, t := range y.Tanks {
		s.capacity[t.Name] = t.Capacity
	}
	s.rock, s.markedAt = y.RockSalt(), y.HydrometerCalibration()
	if rho, err := (balance.Liquid{}).Density(cmp.Or(y.Supply.Temperature, measuredAt)); err == nil {
		s.fresh = rho
	}
	return s
}

// Replay applies entries, of which those that were taken back are left out, in the order of
// their times.
func Replay(y *yard.Yard, entries iter.Seq[*journal.Entry]) *State {
	s := New(y)
	for _, e := range journal.ByTime(entries) {
		s.Apply(e)
	}
	return s
}

// Tanks returns the tanks that entries named, in the order of their names.
func (s *State) Tanks() []*Tank {
	var all []*Tank
	for _, t := range s.tanks {
		all = append(all, t)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].Name < all[j].Name })
	return all
}

// Tank finds a tank that an entry named.
func (s *State) Tank(name string) (*Tank, bool) {
	t, ok := s.tanks[name]
	return t, ok
}

// Masses sums up what stands in the tanks.
func (s *State) Masses() balance.Masses {
	var m balance.Masses
	for _, t := range s.Tanks() {
		m = m.Plus(t.Masses())
	}
	return m
}

// effects tell of each kind of entry what it does. A kind that is missing does nothing.
var effects = map[journal.Kind]func(*State, *journal.Entry) Effect{
	journal.Batch:      (*State).batch,
	journal.Reading:    (*State).read,
	journal.Correction: (*State).correct,
	journal.Transfer:   (*State).transfer,
	journal.Load:       (*State).load,
	journal.Delivery:   (*State).deliver,
	journal.Clean:      (*State).clean,
	journal.Count:      (*State).count,
}

// Apply takes an entry into account. Entries come in the order of their times, without
// those that were taken back.
func (s *State) Apply(e *journal.Entry) Effect {
	s.Entries++
	effect := effects[e.Kind]
	if effect == nil {
		return Effect{}
	}
	f := effect(s, e)
	for _, name := range []string{e.Tank, e.From} {
		if t := s.tanks[name]; t != nil {
			t.said(e)
		}
	}
	if f.Delivered > 0 || f.Counted != nil || f.Salt > 0 {
		s.PileSaid = yard.Said{Entry: e.Number, Time: e.Time}
	}
	return f
}

// tank finds a tank, or begins an empty one.
func (s *State) tank(name string) *Tank {
	t := s.tanks[name]
	if t == nil {
		t = &Tank{Name: name, Vessel: balance.Vessel{Liquid: balance.Liquid{Name: balance.BrineName}}}
		s.tanks[name] = t
	}
	return t
}

func (s *State) problem(e *journal.Entry, text string, args ...quantity.Quantity) {
	s.Problems = append(s.Problems, Problem{Entry: e.Number, Text: text, Args: args, LeftOut: strings.HasSuffix(text, "left out")})
}

// cannot is a problem of an entry that tells what cannot be.
func (s *State) cannot(e *journal.Entry, text string, args ...quantity.Quantity) {
	s.problem(e, text, args...)
	s.Problems[len(s.Problems)-1].Cannot = true
}
