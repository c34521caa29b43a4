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
	From     string // the tank that a transfer, a load or a correction draws from
	Liquid   string // name of a liquid, as the yard file has it; empty for salt brine
	Volume   *quantity.Volume
	NaCl     *quantity.Strength // composition by mass of brine
	KCl      *quantity.Strength
	CaCl2    *quantity.Strength
	MgCl2    *quantity.Strength
	Temp     *quantity.Temperature
	Scale    string         // the instrument's, as the flags name it: hydrometer, sg, ...
	Reading  *float64       // on that scale: percent, specific gravity, degrees, or lb/gal
	Salt     *quantity.Mass // as delivered: put in, delivered, or on the pile
	Water    *quantity.Volume
	Operator string
	Truck    string
	Route    string
	Cost     *quantity.Money
	Cancels  int // the entry that a reversal takes back; 0 for none
	Note     string
}

// Kind is what happened.
type Kind string

// The kinds of events.
const (
	Batch      Kind = "batch"      // brine was made: Tank then holds Volume at NaCl
	Reading    Kind = "reading"    // an instrument was read in Tank
	Correction Kind = "correction" // Salt, Water or Volume of stock From a tank went into Tank
	Transfer   Kind = "transfer"   // Volume went From a tank into Tank
	Load       Kind = "load"       // Volume went From a tank out on Truck for Route
	Delivery   Kind = "delivery"   // Salt to the pile, or Volume of Liquid into Tank
	Clean      Kind = "clean"      // Tank was emptied and cleaned
	Count      Kind = "count"      // Tank was found to hold Volume, or the pile Salt
	Note       Kind = "note"
	Undo       Kind = "undo" // entry Cancels is taken back
)

// Pile is the Tank of a count of the salt pile.
const Pile = "pile"
