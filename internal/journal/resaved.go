package journal

import (
	"fmt"
	"regexp"
	"strings"
	"time"
)

// ResavedError says what shows that a spreadsheet saved the file.
type ResavedError string

// Error names it, and what to do.
func (e ResavedError) Error() string {
	return "saved by a spreadsheet: " + string(e) + "; put back a copy of the file as it was, and save spreadsheets under another name"
}

// spreadsheetTimes are how spreadsheets write a time.
var spreadsheetTimes = []string{
	"1/2/2006 15:04", "1/2/2006 15:04:05", "1/2/06 15:04", "1/2/2006 3:04 PM", "1/2/2006 3:04:05 PM", "1/2/2006",
	"2/1/2006 15:04", "2/1/2006 15:04:05", "2.1.2006 15:04", "2.1.2006 15:04:05", "2006-01-02 15:04", "2006-01-02 15:04:05", "2006-01-02",
}

// spreadsheetTime tells whether a spreadsheet wrote a time.
func spreadsheetTime(cell string) bool {
	for _, layout := range spreadsheetTimes {
		if _, err := time.Parse(layout, cell); err == nil {
			return true
		}
	}
	return false
}

var withComma = regexp.MustCompile(`^[-+]?[0-9]+,[0-9]+$`)

// decimalComma tells whether a number has a comma where the program writes a point.
func decimalComma(cell string) bool { return withComma.MatchString(cell) }

// wrongWidth is what is wrong with a row of too few or too many cells.
func wrongWidth(cells []string, want int) error {
	if len(cells) < want && strings.Count(strings.Join(cells, ","), ";") >= want-1 {
		return ResavedError("semicolons stand between the cells")
	}
	return fmt.Errorf("%d cells; expected %d", len(cells), want)
}
