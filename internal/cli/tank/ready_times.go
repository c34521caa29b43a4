package tank

import (
	"strings"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
)

// dial shows the times of readings: minutes, or those of a clock on the wall from a midnight on.
type dial struct {
	clock bool
	base  time.Time
}

func (d dial) text(at quantity.Duration) string {
	if d.clock {
		at = d.wall(at)
	}
	return show.ClockText(at, d.clock)
}

func (d dial) value(at quantity.Duration) report.Value {
	value := show.TimeValue(at, d.clock)
	value.Text = d.text(at)
	return value
}

// wall is what the clock shows, from the midnight on; a night on which the clocks change has another length.
func (d dial) wall(at quantity.Duration) quantity.Duration {
	shown := d.base.Add(time.Duration(float64(at) * float64(time.Second)))
	_, then := shown.Zone()
	_, begun := d.base.Zone()
	return at + quantity.Duration(then-begun)
}

// saidTime is a time as it was typed: minutes, or a time of day, with its date or without.
type saidTime struct {
	text  string
	at    quantity.Duration // of day, for a clock
	clock bool
	date  time.Time // zero for none
}

// readTime reads 20, 10:05, 0530, 2026-01-12T10:05 or "2026-01-12 10:05".
func readTime(text string) (saidTime, error) {
	said := saidTime{text: text}
	day, clock := "", text
	if i := strings.IndexAny(text, "T "); i > 0 {
		day, clock = text[:i], text[i+1:]
	}
	var err error
	if day != "" {
		if said.date, err = time.Parse(time.DateOnly, day); err != nil {
			return said, fault.Refuse("not a time; write it like 10:05, or 2026-01-12T10:05 with its date")
		}
	}
	if said.at, said.clock, err = bind.Moment(clock); err != nil {
		return said, err
	}
	if day != "" && !said.clock {
		return said, fault.Refuse("a date and no time of day; write it like 2026-01-12T10:05")
	}
	return said, nil
}

const wholeDay = 24 * 60 * quantity.Minute

// timesOf places typed times one behind the other. Those of a clock count from the midnight before the first: it is
// taken that the last was read within a day before now, where no date is given.
func timesOf(said []saidTime, now time.Time) ([]quantity.Duration, dial, error) {
	var at []quantity.Duration
	for i, s := range said {
		if i > 0 && s.clock != said[0].clock {
			return nil, dial{}, fault.Refuse("%s: times of day and minutes together; allowed: one kind", words.Quoted(s.text))
		}
		if i > 0 && !s.date.IsZero() && said[0].date.IsZero() {
			return nil, dial{}, fault.Refuse("%s: a date, where the first reading has none; allowed: a date for the first, or for none", words.Quoted(s.text))
		}
		shown := s.at
		switch {
		case !s.date.IsZero():
			shown += quantity.Duration(s.date.Sub(said[0].date).Hours()/24) * wholeDay
		case i > 0 && s.clock:
			shown = bind.NextDay(at[i-1], shown)
		}
		at = append(at, shown)
	}
	if !said[0].clock {
		return at, dial{}, nil
	}
	d := dial{clock: true, base: firstMidnight(said[0].date, at[len(at)-1], now)}
	for i, shown := range at {
		elapsed, err := d.elapsed(said[i].text, shown)
		if err != nil {
			return nil, d, err
		}
		at[i] = elapsed
	}
	return at, d, nil
}

// firstMidnight is that of the day of the first reading: of its date, else such that the last was within a day.
func firstMidnight(date time.Time, last quantity.Duration, now time.Time) time.Time {
	if !date.IsZero() {
		return time.Date(date.Year(), date.Month(), date.Day(), 0, 0, 0, 0, now.Location())
	}
	days := int(last / wholeDay)
	midnight := func(back int) time.Time {
		return time.Date(now.Year(), now.Month(), now.Day()-back, 0, 0, 0, 0, now.Location())
	}
	today := quantity.Duration(now.Sub(midnight(0)).Seconds())
	if last-quantity.Duration(days)*wholeDay > today+5*quantity.Minute {
		days++
	}
	return midnight(days)
}

// elapsed is the time since the midnight at which the clock shows what is said. Refused: times that the clocks leave
// out, or show twice.
func (d dial) elapsed(text string, shown quantity.Duration) (quantity.Duration, error) {
	minutes := int(shown/quantity.Minute + 0.5)
	at, onWall := bind.OnTheWall(d.base, minutes, d.base.Location())
	wall := func(t time.Time) string { return t.Format("15:04") }
	if !onWall {
		return 0, fault.Refuse("%s: there is no such time on %s, as the clocks go forward; allowed: an hour later", words.Quoted(text), at.Format(time.DateOnly))
	}
	for _, shift := range []time.Duration{-time.Hour, time.Hour} {
		if wall(at.Add(shift)) == wall(at) {
			return 0, fault.Refuse("%s: the clocks show that time twice on %s; allowed: minutes since the first reading, like 0=12%% 15=18.5%%",
				words.Quoted(text), at.Format(time.DateOnly))
		}
	}
	return quantity.Duration(at.Sub(d.base).Seconds()), nil
}
