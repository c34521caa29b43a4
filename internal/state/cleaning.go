package state

import (
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// Cleaning is a past cleaning of a tank.
type Cleaning struct {
	Time       time.Time
	Made       quantity.Volume // of brine since the one before
	Insolubles quantity.Mass   // of the salt put in since
}

// clean empties a tank and its bed: what was left in it goes with the sludge.
func (s *State) clean(e *journal.Entry) {
	if e.Tank == "" {
		s.leaveOut(e, "a cleaning without its tank: left out")
		return
	}
	t := s.tank(e.Tank)
	s.touch(&t.Stock)
	s.part(Cleaned, t.Liquid.Name, -t.Volume(), t.Masses().Times(-1))
	t.Mass, t.Known, t.Sure = 0, true, true
	t.OnFloor, t.FloorKnown, t.FloorSaid = 0, true, saidBy(e)
	t.Cleaned++
	if t.Made > 0 { // a cleaning before any batch tells nothing of an interval
		t.Cleanings = append(t.Cleanings, Cleaning{e.Time, t.Made, t.Insolubles})
		t.Cleanings = t.Cleanings[max(0, len(t.Cleanings)-recentCleanings):]
	}
	t.Made, t.Insolubles, t.open = 0, 0, openBatch{}
	t.settled()
}

// An interval is learned from the last few cleanings; where the yard has its own rule, from
// two on.
const recentCleanings, leastCleanings = 5, 2

// CleaningDue says when a mixing tank must be cleaned next.
type CleaningDue struct {
	Tank       string
	Since      quantity.Volume // made since the last cleaning
	Insolubles quantity.Mass   // put in since
	// Interval is learned from past cleanings, else the yard's rule; 0 when neither is
	// known.
	Interval quantity.Volume
	Learned  int           // cleanings that it was learned from; 0 for the yard's rule
	Sludge   quantity.Mass // insolubles at those cleanings, on average
	Left     quantity.Volume
	Date     time.Time // at the pace since the first batch; zero when not known
}

// CleaningDue returns when the tank must be cleaned, by the yard's rule (0 for none) and the
// pace from its first batch up to now.
func (t *Tank) CleaningDue(every quantity.Volume, now time.Time) CleaningDue {
	d := CleaningDue{Tank: t.Name, Since: t.Made, Insolubles: t.Insolubles, Interval: every}
	d.learn(t.Cleanings)
	if d.Interval == 0 {
		return d
	}
	d.Left = max(0, d.Interval-d.Since)
	inAll := t.MadeInAll
	if elapsed := now.Sub(t.First); inAll > 0 && elapsed > 0 {
		d.Date = now.Add(time.Duration(float64(elapsed) * float64(d.Left/inAll))).Round(time.Second)
	}
	return d
}

// learn takes the mean interval of the last cleanings, if there are enough.
func (d *CleaningDue) learn(past []Cleaning) {
	var made quantity.Volume
	var sludge quantity.Mass
	for _, c := range past {
		made += c.Made
		sludge += c.Insolubles
	}
	learned := len(past)
	// One early cleaning is no habit, unless there is nothing else to go by.
	if learned >= leastCleanings || learned > 0 && d.Interval == 0 {
		d.Learned, d.Interval, d.Sludge = learned, made/quantity.Volume(learned), sludge/quantity.Mass(learned)
	}
}
