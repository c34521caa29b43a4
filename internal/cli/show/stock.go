package show

import (
	"strings"
	"time"

	"brineyard/internal/yard"
)

// StockSource says in a sentence, behind a space, who said what stands in tanks: the journal, with
// its oldest figure, or the yard file.
func (v View) StockSource(tanks []yard.Tank, now time.Time) string {
	if v.NumbersOnly {
		return ""
	}
	var oldest *yard.Tank
	var byFile []string
	for i := range tanks {
		t := &tanks[i]
		switch {
		case !t.Said.ByJournal():
			byFile = append(byFile, t.Name)
		case oldest == nil || t.Said.Time.Before(oldest.Said.Time):
			oldest = t
		}
	}
	if oldest == nil {
		return " Stock is the yard file's."
	}
	text := " Stock is the journal's; its oldest figure is " + oldest.Name + ", " + When(oldest.Said.Time, now) + "."
	if len(byFile) > 0 {
		text += " Of " + strings.Join(byFile, ", ") + " it is the yard file's."
	}
	return text
}

// StockDoubts say what contradicts the journal.
func (v View) StockDoubts(tanks []yard.Tank, now time.Time) []string {
	var notes []string
	for _, t := range tanks {
		if t.Said.ByJournal() {
			notes = append(notes, Said(v.Doubt(t.Name, t.Said, now))...)
		}
	}
	return notes
}
