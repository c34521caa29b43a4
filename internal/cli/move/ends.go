package move

import (
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/yard"
)

// ends are what stands at both ends of a move.
type ends struct {
	yard *yard.Yard // as it stands
	lineup.Move
	now time.Time
}

// verdict says what the journal has of the ends: a tank that would run the pump dry, and the
// room where it goes.
func (e ends) verdict(v show.View) string {
	text := ""
	if from, ok := e.stands(e.From); ok {
		source := v.Source(from.Said, e.now)
		if above := from.Held() - from.DeadVolume; above <= 0 {
			text += v.Say(" But nothing stands above the suction in %s%s: do not start the pump before you have looked.", e.From, source)
		} else {
			text += v.Say(" %s holds %v%s.", e.From, from.Held(), source)
		}
	}
	if to, ok := e.stands(e.To); ok && to.Capacity > 0 {
		text += v.Say(" %s has room for %v%s.", e.To, max(0, to.Capacity-to.Held()), v.Source(to.Said, e.now))
	}
	return text
}

// stands finds an end that is a tank of which the journal says what it holds.
func (e ends) stands(place string) (yard.Tank, bool) {
	t, ok := e.yard.Tank(place)
	return t, ok && t.Contents != nil && t.Said.ByJournal()
}

// doubts say what contradicts the journal.
func (e ends) doubts(v show.View) []string {
	var notes []string
	for _, place := range []string{e.From, e.To} {
		if t, ok := e.stands(place); ok {
			notes = append(notes, show.Said(v.Doubt(place, t.Said, e.now))...)
		}
	}
	return notes
}

// weak tells of lines on the way that were rinsed and hold water or weak brine since.
func (e ends) weak(v show.View) []string {
	var notes []string
	for _, h := range e.Path {
		for _, w := range e.yard.WeakLines {
			if w.Name == h.Link.Name {
				notes = append(notes, v.Say("%s holds weak brine since it was rinsed%s: the first that runs through weakens what it reaches.", w.Name, v.Source(w.Said, e.now)))
			}
		}
	}
	return notes
}
