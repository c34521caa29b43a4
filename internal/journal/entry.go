// Package journal keeps what happened in a yard in one file: CSV with a header, one
// row an event, rows only ever added. It knows the file and its rows; package state works
// out what they mean for the tanks.
package journal

import (
	"time"

	"brineyard/internal/quantity"
)

// Entry is one event. A nil or empty field was not recorded.
type Entry struct {
	Number   int // 1 and up, given when the entry is added
	Time     time.Time
	Kind     Kind
	Tank     string // where it happened, or where it went to; Pile for the salt pile
	From     string // the tank that a volume came from
	Liquid   string // name of a liquid, as the yard file has it; empty for salt brine
	Volume   *quantity.Volume
	NaCl     *quantity.Strength // composition by mass of brine
	KCl      *quantity.Strength
	CaCl2    *quantity.Strength
	MgCl2    *quantity.Strength
	Temp     *quantity.Temperature
	Scale    string         // the instrument's, as the flags name it: hydrometer, sg, ...
	Reading  *float64       // on that scale: percent, specific gravity, degrees, or lb/gal
	Salt     *quantity.Mass // as delivered: put in, delivered, spread, or on the pile
	Water    *quantity.Volume
	Operator string
	Truck    string
	Route    string
	Cost     *quantity.Money
	Cancels  int // the entry that a reversal takes back, or that was looked at; 0 for none
	Note     string
	// From version 2 of the file on:
	Line     string             // of the yard's plumbing
	Ticket   string             // of a delivery, as it is written there
	Purity   *quantity.Strength // of a delivered salt: NaCl in the dry salt
	Moisture *quantity.Strength // of a delivered salt
	Hours    *quantity.Duration // worked
	Distance *quantity.Length   // driven
	Due      *time.Time         // when what was ordered is to come
}

// Kind is what happened.
type Kind string

// The kinds of events.
const (
	Batch      Kind = "batch"      // brine was made: Tank then holds Volume at NaCl
	Reading    Kind = "reading"    // an instrument was read in Tank
	Correction Kind = "correction" // Salt, Water or Volume of stock From a tank went into Tank
	Transfer   Kind = "transfer"   // Volume went From a tank into Tank
	Load       Kind = "load"       // Volume From a tank, dry Salt or both went out on Truck for Route
	Unload     Kind = "unload"     // Volume went off Truck back into Tank
	Delivery   Kind = "delivery"   // Salt to the pile, or Volume of Liquid into Tank or beside the tanks
	Order      Kind = "order"      // Salt, or Volume of Liquid, was ordered and is Due
	Spill      Kind = "spill"      // Salt off the pile, or Volume From a tank or of Liquid, was lost
	Sale       Kind = "sale"       // the same was sold
	Loan       Kind = "loan"       // the same was lent
	Gift       Kind = "gift"       // the same was given away
	Clean      Kind = "clean"      // Tank was emptied and cleaned
	Rinse      Kind = "rinse"      // Line was rinsed with Water, which went into Tank if that is named
	Count      Kind = "count"      // Tank, Truck or Liquid beside the tanks was found at Volume; the pile, or the bed of Tank, at Salt
	Work       Kind = "work"       // Hours were worked, Distance was driven
	Note       Kind = "note"
	Undo       Kind = "undo"   // entry Cancels is taken back
	Accept     Kind = "accept" // what is wrong with row Cancels was looked at
)

// Pile is the Tank of a count of the salt pile.
const Pile = "pile"
