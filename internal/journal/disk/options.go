package disk

import (
	"time"

	"brineyard/internal/quantity"
)

// Options are how an addition is made.
type Options struct {
	System quantity.System // of the columns of a file that is yet to be made
	Wait   time.Duration   // for a lock that another program holds; 0 for 30 s
	// Waiting is called once after a second of waiting; nil for nothing.
	Waiting func()
	// Check is asked under the lock, with the journal as it stands (nil where it has no rows yet),
	// before anything is written; its error refuses the addition. Nil checks nothing.
	Check func(*Log) error

	patience time.Duration // before Waiting is called; 0 for a second
}
