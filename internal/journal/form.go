package journal

import (
	"fmt"

	"brineyard/internal/quantity"
)

// Form is how the rows of a file are written: in which units, and with which columns.
type Form struct {
	Units   quantity.System
	Version int
}

// newest is the version of the files that are begun now. A file of an older one stays what it
// is, and takes the entries that its columns can hold.
const newest = 2

// NewestForm is that of a file that is begun now, in units.
func NewestForm(units quantity.System) Form { return Form{units, newest} }

// widths are how many of the columns each version has.
var widths = [newest + 1]int{1: 22, 2: len(columns)}

// columns are those of the form.
func (f Form) columns() []column { return columns[:widths[f.Version]] }

// Holds refuses an entry with something for which the form has no column.
func (f Form) Holds(e *Entry) error {
	for i := len(f.columns()); i < len(columns); i++ {
		if columns[i].format(e, f.Units) != "" {
			return fmt.Errorf("this journal is of version %d, which has no column for %s; allowed: a new journal that begins with counts, or the entry without it", f.Version, columns[i].name)
		}
	}
	return nil
}

// forms are all that a file may have, the newest first.
func forms() []Form {
	var all []Form
	for version := newest; version > 0; version-- {
		all = append(all, Form{quantity.US, version}, Form{quantity.Metric, version})
	}
	return all
}
