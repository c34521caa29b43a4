package enter

import (
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/words"
)

// clockSlack is what two clocks may be apart.
const clockSlack = 5 * time.Minute

// asSeen is what lets an entry stand against the others.
const asSeen = "--as-seen if it was seen so"

// notToCome refuses what has not happened yet.
func (d Desk) notToCome(e *journal.Entry) *Refusal {
	if e.Time.After(d.Now.Add(clockSlack)) {
		return d.refuse("time", stamp(e.Time), "that is to come; allowed: up to now, %s", stamp(d.Now))
	}
	return nil
}

// due refuses an order that was to come before it was made.
func (d Desk) due(e *journal.Entry) *Refusal {
	if e.Due == nil || !e.Due.Before(startOfDay(e.Time)) {
		return nil
	}
	return d.refuse("due", stamp(*e.Due), "that is before the day of the order; allowed: from %s on", e.Time.Format(time.DateOnly))
}

func startOfDay(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
}

// mixed refuses a batch in a tank in which none is made.
func (d Desk) mixed(e *journal.Entry) *Refusal {
	if e.Kind != journal.Batch || d.Yard == nil {
		return nil
	}
	if t, known := d.Yard.Tank(e.Tank); known && !t.Mixing {
		return d.refuse("tank", e.Tank, "no mixing tank, and a batch is made in one; allowed: a mixing tank of the yard file")
	}
	return nil
}

// bed refuses a count of salt in a tank that has no bed.
func (d Desk) bed(e *journal.Entry) *Refusal {
	if e.Kind != journal.Count || e.Salt == nil || e.Tank == journal.Pile || d.Yard == nil {
		return nil
	}
	if t, known := d.Yard.Tank(e.Tank); known && !t.Mixing {
		return d.refuse("tank", e.Tank, "no mixing tank, so no bed lies in it: a count of salt is that of the pile, or of a bed; allowed: no tank, pile, or a mixing tank")
	}
	return nil
}

// capacity refuses a batch or a count of more than its tank holds.
func (d Desk) capacity(e *journal.Entry) *Refusal {
	if d.AsSeen || d.Yard == nil || e.Volume == nil || e.Kind != journal.Batch && e.Kind != journal.Count {
		return nil
	}
	if t, known := d.Yard.Tank(e.Tank); known && t.Capacity > 0 && *e.Volume > t.Capacity {
		return d.refuse("volume", "", "%v is more than tank %s can hold; allowed: up to %v, or %s", *e.Volume, words.Quoted(e.Tank), t.Capacity, asSeen)
	}
	return nil
}

// truck refuses more than the truck's tank takes.
func (d Desk) truck(e *journal.Entry) *Refusal {
	if d.AsSeen || d.Yard == nil || e.Volume == nil || e.Kind != journal.Load && e.Kind != journal.Count && e.Kind != journal.Unload {
		return nil
	}
	if t, known := d.Yard.Truck(e.Truck); known && t.Tank > 0 && *e.Volume > t.Tank {
		return d.refuse("volume", "", "%v is more than the tank of truck %s can hold; allowed: up to %v, or %s", *e.Volume, words.Quoted(e.Truck), t.Tank, asSeen)
	}
	return nil
}
