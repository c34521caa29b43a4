package records

import (
	"fmt"

	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/state"
)

// mostProblems is how many are listed: more hide the rest.
const mostProblems = 8

// problemNotes list entries that do not fit what came before them; others is how many more
// there are.
func problemNotes(v show.View, problems []state.Problem, others int) []string {
	var notes []string
	for i, p := range problems {
		if i == mostProblems {
			others += len(problems) - i
			break
		}
		notes = append(notes, fmt.Sprintf("Entry %d: %s.", p.Entry, fault.Sentence(p.Text, p.Args, v.System)))
	}
	if others > 0 {
		notes = append(notes, fmt.Sprintf("And %s like these; journal verify lists them.", show.Plural(others, "more entry", "more entries")))
	}
	return notes
}
