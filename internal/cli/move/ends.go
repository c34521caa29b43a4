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

// wrong says why nothing is to be pumped this way; empty where nothing is known against it.
func (e ends) wrong(v show.View) string {
	from, known := e.yard.Tank(e.From)
	to, tank := e.yard.Tank(e.To)
	switch {
	case known && from.Contents != nil && from.Held() <= from.DeadVolume:
		return v.Say("nothing stands above the suction in %s (%v)", e.From, from.Held())
	case tank && to.Contents != nil && to.Capacity > 0 && to.Held() >= to.Capacity && e.From != e.To:
		return v.Say("%s is full (%v)", e.To, to.Held())
	case known && tank && unlike(v, from, to):
		return v.Say("%s holds %s and %s %s, which may drop salt or set off heat together: see with blend or store what that makes", e.From, liquidIn(v, from), e.To, v.Describe(*to.Liquid))
	}
	return ""
}

// unlike reports whether what stands in the one tank is of other salts than what stands in the other.
func unlike(v show.View, from, to yard.Tank) bool {
	if to.Liquid == nil || to.Held() == 0 || from.Liquid == nil && !from.Mixing {
		return false
	}
	_, plainTo := to.Liquid.Strength()
	return !(from.HoldsBrine() && plainTo) && liquidIn(v, from) != v.Describe(*to.Liquid)
}

// liquidIn names what stands in a tank: salt brine in a mixing tank of which nothing else is said.
func liquidIn(v show.View, t yard.Tank) string {
	if t.Liquid == nil {
		return "salt brine"
	}
	return v.Describe(*t.Liquid)
}

// weaker tells that fresh water goes into finished brine.
func (e ends) weaker(v show.View) []string {
	to, ok := e.yard.Tank(e.To)
	if !ok || e.From != yard.FreshWater || to.Liquid == nil || to.Held() == 0 {
		return nil
	}
	return []string{v.Say("Fresh water goes into the %v of %s in %s and makes it weaker.", to.Held(), v.Describe(*to.Liquid), e.To)}
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
