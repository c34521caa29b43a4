package season

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

// clean empties a tank: what was left in it goes with the sludge.
func (r *Replay) clean(e *journal.Entry) Flow {
	t := r.tank(e.Tank)
	f := Flow{Into: t.Masses().Times(-1)}
	t.Mass, t.Known = 0, true
	t.Cleanings = append(t.Cleanings, Cleaning{e.Time, t.Made, t.Insolubles})
	t.Cleaned, t.Made, t.Insolubles = e.Time, 0, 0
	return f
}

// recentCleanings is how many of the last ones an interval is learned from.
const recentCleanings = 5

// Due says when a mixing tank is to be cleaned next.
type Due struct {
	Tank       string
	Since      quantity.Volume // made since the last cleaning
	Insolubles quantity.Mass
	// Interval is learned from past cleanings, else the yard's rule; 0 when neither is
	// known. Learned tells which.
	Interval quantity.Volume
	Learned  int           // cleanings that it was learned from
	Sludge   quantity.Mass // insolubles at those cleanings, on average
	Left     quantity.Volume
	Date     time.Time // at the pace since the first entry; zero when not known
}

// due tells when a tank is to be cleaned, at the pace from its first entry up to now.
func (t *Tank) due(every quantity.Volume, now time.Time) Due {
	d := Due{Tank: t.Name, Since: t.Made, Insolubles: t.Insolubles, Interval: every}
	for i := len(t.Cleanings) - 1; i >= 0 && d.Learned < recentCleanings; i-- {
		// A cleaning before any batch tells nothing of an interval.
		if c := t.Cleanings[i]; c.Made > 0 {
			if d.Learned == 0 {
				d.Interval = 0
			}
			d.Interval += c.Made
			d.Sludge += c.Insolubles
			d.Learned++
		}
	}
	if d.Learned > 0 {
		d.Interval /= quantity.Volume(d.Learned)
		d.Sludge /= quantity.Mass(d.Learned)
	}
	if d.Interval == 0 {
		return d
	}
	d.Left = max(0, d.Interval-d.Since)
	made := t.Made
	for _, c := range t.Cleanings {
		made += c.Made
	}
	if elapsed := now.Sub(t.First); made > 0 && elapsed > 0 {
		d.Date = now.Add(time.Duration(float64(elapsed) * float64(d.Left/made))).Round(time.Second)
	}
	return d
}
