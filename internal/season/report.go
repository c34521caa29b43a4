// Package season sums up what a season made, laid down and used. It reads no files: a yard
// and the entries of its journal in, figures out.
package season

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

// Request asks what happened in a period.
type Request struct {
	Yard   *yard.Yard // nil without a file
	Period journal.Period
}

// Report is a season.
type Report struct {
	First, Last time.Time // entries in it
	Entries     int
	Months      []Line // by month and liquid
	Total       Line
	Batches     []Batch
	Band        yard.Band // by which the batches were judged
	Judged      BandCount
	Operators   []Operator
	Routes      []Route
	Salt        SaltBalance
	Cleanings   []state.CleaningDue // of the tanks in which brine was made
	Opening     balance.Masses      // in the tanks
	Closing     balance.Masses
	Across      balance.Masses // that went into the tanks, less what left: Closing - Opening
	Paid        quantity.Money
	// AtYardPrices is the cost of the salt and the water used; nil where the yard file has
	// no prices.
	AtYardPrices *quantity.Money
	Problems     []state.Problem
}

// Line sums up a month and a liquid.
type Line struct {
	Month           time.Time // its first day; zero for a total
	Liquid          string
	Made, Laid      quantity.Volume
	Delivered, Used quantity.Volume // of a bought liquid
	Salt            quantity.Mass   // off the pile, as delivered
	Water           quantity.Volume
	NaCl, Chlorides quantity.Mass // laid; Chlorides is of chloride ion
	// Cost is salt, water and what was used of a bought liquid, at the yard's prices; nil
	// where one of them is not known. A total has none.
	Cost *quantity.Money
}

// Batch is a batch that was made, and how strong it came out.
type Batch struct {
	Entry          int
	Time           time.Time
	Tank, Operator string
	Strength       quantity.Strength // read after it, else as it was recorded
	Read           bool
}

// BandCount counts batches.
type BandCount struct{ In, Weak, Strong int }

// Operator sums up what a person recorded.
type Operator struct {
	Name    string
	Batches int
	InBand  int
	Loads   int
	Entries int
}

// Route sums up what a route was given.
type Route struct {
	Name      string
	Loads     int
	Volume    quantity.Volume
	Chlorides quantity.Mass
	Rate      quantity.MassPerLength // of chloride on a lane; 0 where its lanes are not known
}
