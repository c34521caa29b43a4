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
	// Changed is how many rows of the journal were changed outside the program: for the head of
	// the report.
	Changed int
}

// Report is a season.
type Report struct {
	First, Last time.Time // entries in it
	Entries     int
	LeftOut     int    // of them, since they make no sense
	Changed     int    // rows of the journal, as the request has it
	Months      []Line // by month and liquid
	Total       Line
	Stocks      []Stock // what stood, by month and liquid
	// Flows are what came and left over the period, by class. The parts of Counted, Read and
	// Unexplained are what was recorded and no entry explains.
	Flows     [state.Classes]Flow
	Batches   []Batch
	Band      yard.Band // by which the batches were judged
	Judged    BandCount
	Operators []Operator
	Routes    []Route
	Salt      SaltBalance
	Cleanings []state.CleaningDue // of the tanks in which brine was made
	Opening   balance.Masses      // in the tanks and beside them
	Closing   balance.Masses
	Across    balance.Masses  // the sum of Flows: Closing - Opening
	Rinsed    quantity.Volume // water that lines were rinsed with
	Work      []Work          // by month, operator and truck
	Hours     quantity.Duration
	Distance  quantity.Length
	Labour    *quantity.Money // Hours at the yard's price; nil where it has none
	Driving   *quantity.Money // Distance at the yard's price; nil where it has none
	Paid      quantity.Money
	PaidFor   []Payment // the same by what for
	// AtYardPrices is the cost of the salt and the water used; nil where the yard file has
	// no prices.
	AtYardPrices *quantity.Money
	Problems     []state.Problem // the first some thousand
	Unlisted     int             // how many more there are
}

// Line sums up a month and a liquid.
type Line struct {
	Month           time.Time // its first day; zero for a total
	Liquid          string
	Made, Laid      quantity.Volume
	Moved           quantity.Volume // from tank to tank
	Delivered, Used quantity.Volume // of a bought liquid
	Salt            quantity.Mass   // off the pile into tanks, as delivered
	Spread          quantity.Mass   // laid dry, as delivered
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
	Low, High      quantity.Strength // the range of a strength that was read; else Strength
	Read           bool
}

// BandCount counts batches. On the edge are those whose reading leaves open whether they were in the band.
type BandCount struct{ In, Edge, Weak, Strong int }

// Operator sums up what a person recorded.
type Operator struct {
	Name     string
	Batches  int
	InBand   int
	Loads    int
	Entries  int
	Hours    quantity.Duration
	Distance quantity.Length
}

// Route sums up what a route was given.
type Route struct {
	Name      string
	Loads     int
	Volume    quantity.Volume
	Salt      quantity.Mass // dry, as delivered
	Chlorides quantity.Mass
	Rate      quantity.MassPerLength // of chloride on a lane; 0 where its lanes are not known
}

// add adds up months.
func (l *Line) add(o *Line) {
	l.Made += o.Made
	l.Laid += o.Laid
	l.Moved += o.Moved
	l.Delivered += o.Delivered
	l.Salt += o.Salt
	l.Spread += o.Spread
	l.Water += o.Water
	l.NaCl += o.NaCl
	l.Chlorides += o.Chlorides
}
