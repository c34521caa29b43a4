package plan

import (
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/storm"
	"brineyard/internal/yard/file"
)

// moments turns what was written of times into times since the midnight of the day on which work begins.
type moments struct {
	midnight time.Time
	today    time.Time // midnight by the clock, for tomorrow
}

// elapsed is the moment that is meant: a time of day alone is the first such one from a moment on.
func (m moments) elapsed(flag string, written, from quantity.Duration) (quantity.Duration, error) {
	days, at := int(written/oneDay), written
	first := m.midnight
	switch day, dated := file.DateOf(written); {
	case dated:
		first, at = time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, m.midnight.Location()), quantity.Duration(int(written)%int(oneDay))
	case days > 0: // tomorrow
		first, at = m.today.AddDate(0, 0, 1), written-oneDay
	default:
		for m.on(first, at) < from-1 {
			first = first.AddDate(0, 0, 1)
		}
	}
	if _, shown := m.wall(first, at); !shown {
		return 0, fault.Refuse("--%s: there is no such time on %s, as the clocks go forward; allowed: an hour later", flag, first.Format(time.DateOnly))
	}
	return m.on(first, at), nil
}

func (m moments) wall(day time.Time, at quantity.Duration) (then time.Time, shown bool) {
	return bind.OnTheWall(day, int(at/quantity.Minute+0.5), m.midnight.Location())
}

// on is a time of a day since the first midnight.
func (m moments) on(day time.Time, at quantity.Duration) quantity.Duration {
	then, _ := m.wall(day, at)
	return quantity.Duration(then.Sub(m.midnight).Seconds())
}

// since is how long after the first midnight a moment is, to the minute.
func (m moments) since(t time.Time) quantity.Duration {
	return quantity.Duration(t.Truncate(time.Minute).Sub(m.midnight).Seconds())
}

// bindTimes binds when work can begin, when trucks may leave, and when it must lie on the road.
func (a *asked) bindTimes(b *bind.Set) {
	r := &a.request
	var now, start, by quantity.Duration
	const none = -1
	absent := bind.DefaultOf(func() quantity.Duration { return none })
	bind.Of(b, timeOfDay, &now, "now", "when work can begin, like 12:00, tomorrow 6:00 or 2026-01-12 14:00; the clock's unless given",
		inOrders(a, func(o *file.Storm) *quantity.Duration { return o.Now }), absent)
	bind.Of(b, timeOfDay, &start, "start", "when trucks may leave, like 20:00; as soon as there is brine unless given",
		inOrders(a, func(o *file.Storm) *quantity.Duration { return o.Start }), absent)
	bind.Of(b, timeOfDay, &by, "down-by", "when it must lie on the road; as soon as it can be unless given",
		inOrders(a, func(o *file.Storm) *quantity.Duration { return o.DownBy }), absent)
	b.Then(func(s *bind.Scope) (err error) {
		clock := s.Now()
		day := clock
		if date, dated := file.DateOf(now); dated {
			day = date
		}
		midnight := func(t time.Time) time.Time {
			return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, clock.Location())
		}
		m := moments{midnight(day), midnight(clock)}
		a.midnight = m.midnight
		r.Now, a.clocked = m.since(clock), now == none
		defer func() { r.Pavement = m.pavement(a.orders.Pavement, r.Now) }()
		if now != none {
			if r.Now, err = m.elapsed("now", now, 0); err != nil {
				return err
			}
		}
		if start == none && by == none && len(a.orders.Passes) > 0 {
			return a.windows(m)
		}
		if r.Start = r.Now; start != none {
			if r.Start, err = m.elapsed("start", start, r.Now); err != nil {
				return err
			}
		}
		if by != none {
			r.DownBy, err = m.elapsed("down-by", by, r.Start+quantity.Minute)
		}
		return err
	})
}

// pavement is a forecast whose first hour is within half a day of a moment, and whose others follow.
func (m moments) pavement(hours []file.PavementHour, now quantity.Duration) (all []storm.Hour) {
	from := now - oneDay/2
	for _, h := range hours {
		at, err := m.elapsed("pavement", h.At, from)
		if err != nil {
			at = from // an hour that the clocks leave out
		}
		from = at
		all = append(all, storm.Hour{At: at, Temperature: h.Temperature})
	}
	return all
}

// windows are those of the storm file's passes; the plan is of all of them.
func (a *asked) windows(m moments) (err error) {
	r, from := &a.request, a.request.Now
	for i, p := range a.orders.Passes {
		var w storm.Window
		if w.Start, err = m.elapsed("start", *p.Start, from); err != nil {
			return err
		}
		if from = w.Start; p.DownBy != nil {
			if w.DownBy, err = m.elapsed("down-by", *p.DownBy, from+quantity.Minute); err != nil {
				return err
			}
			if w.DownBy <= w.Start {
				return fault.Refuse("%s: pass %d is to be down before its trucks may leave; allowed: later than that", a.orders.Path, i+1)
			}
		}
		r.Passes = append(r.Passes, w)
	}
	r.Start, r.DownBy = r.Passes[0].Start, 0
	if last := r.Passes[len(r.Passes)-1].DownBy; last > 0 {
		r.DownBy = last
	}
	return nil
}
