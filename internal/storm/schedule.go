package storm

import "brineyard/internal/quantity"

// Job is a piece of work on the time line.
type Job struct {
	Kind       JobKind
	What       string // the mixing tank
	Start, End quantity.Duration
	Volume     quantity.Volume
}

// JobKind is what is done. All but filling take the pump.
type JobKind string

// The kinds of jobs.
const (
	JobFill    JobKind = "fill"
	JobMix     JobKind = "mix"
	JobPumpOff JobKind = "pump off"
	JobCorrect JobKind = "correct" // a storage tank
)

// Production is how the brine that is wanted gets made.
type Production struct {
	Wanted quantity.Volume // beyond what stands in store
	// Swallowed is the part of Wanted that stays below the suctions of empty tanks.
	Swallowed quantity.Volume
	Made      quantity.Volume
	Batches   int
	Corrected []string   // storage tanks that are corrected
	Runs      []MixerRun // of the mixing tanks in use
	Jobs      []Job
	Salt      quantity.Mass // as delivered
	Buckets   float64
	Water     quantity.Volume
	DoneAt    quantity.Duration // of the last batch made
	// InMixers is what of it stays in the mixing tanks, since the storage tanks have no
	// room: it is loaded from there.
	InMixers quantity.Volume
	// Latest is when the work has to begin for as much to be down in time, or, where all the time in the world is left, for
	// the last truck to be back as soon; before Now when it is too late for all that can be had.
	Latest quantity.Duration
	// Earlier is set where an earlier beginning would have been in time.
	Earlier bool
	// Shortage is why less can be made than wanted, and Late is set when some is down after its time.
	Shortage Shortage
	Late     bool
	// PumpTime is how long the pump works on batches. It waits IdleFirst for the first tank
	// to fill, and IdleLater for later ones.
	PumpTime             quantity.Duration
	IdleFirst, IdleLater quantity.Duration
}
