package plan

import (
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/yard"
)

// stockSource says who said what stands in store: the journal, with its oldest figure, or the
// yard file.
func (a *asked) stockSource() string {
	var oldest *yard.Tank
	var byFile []string
	for i := range a.request.Tanks {
		t := &a.request.Tanks[i]
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
	text := " Stock is the journal's; its oldest figure is " + oldest.Name + ", " + show.When(oldest.Said.Time, a.clock()) + "."
	if len(byFile) > 0 {
		text += " Of " + strings.Join(byFile, ", ") + " it is the yard file's."
	}
	return text
}

// doubts say what contradicts the journal.
func (a *asked) doubts(v show.View) []string {
	var notes []string
	for _, t := range a.request.Tanks {
		if t.Said.ByJournal() {
			notes = append(notes, show.Said(v.Doubt(t.Name, t.Said, a.clock()))...)
		}
	}
	return notes
}
