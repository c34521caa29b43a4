package records

import (
	"strings"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/words"
)

// Layouts of times on the command line and on the screen.
const (
	dayLayout    = "2006-01-02"
	minuteLayout = "2006-01-02 15:04"
)

// moment reads a time of the journal, in the zone of the machine.
func moment(s *bind.Scope, flag, typed string) (time.Time, error) {
	text := strings.TrimSpace(typed)
	zone := s.Now().Location()
	if at, err := time.ParseInLocation(time.RFC3339, text, zone); err == nil {
		return at, nil
	}
	for _, layout := range []string{minuteLayout, "2006-01-02T15:04", dayLayout} {
		meant, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		at, _ := time.ParseInLocation(layout, text, zone)
		if !journal.WallClock(at).Equal(meant) {
			return at, fault.Refuse("--%s %s: there is no such time, as the clocks go forward; allowed: an hour later", flag, words.Quoted(typed))
		}
		return at, nil
	}
	return time.Time{}, fault.Refuse("--%s %s: not a time; allowed: like 2026-01-14 or \"2026-01-14 05:40\"", flag, words.Quoted(typed))
}

// bindPeriod binds the flags of a period. A day as the end is meant whole.
func bindPeriod(b *bind.Set, p *journal.Period) {
	var from, to string
	first := bind.Name(b, &from, "from", "first `day`, like 2026-01-14; the beginning unless given", nil)
	last := bind.Name(b, &to, "to", "last `day`; the end unless given", nil)
	b.Then(func(s *bind.Scope) (err error) {
		*p = journal.Period{}
		if first.Given() {
			if p.From, err = momentOnWall(s, "from", from); err != nil {
				return err
			}
		}
		if last.Given() {
			if p.To, err = momentOnWall(s, "to", to); err != nil {
				return err
			}
			if len(strings.TrimSpace(to)) == len(dayLayout) {
				p.To = p.To.AddDate(0, 0, 1)
			}
		}
		if first.Given() && last.Given() && !p.From.Before(p.To) {
			return fault.Refuse("--from %s and --to %s: nothing lies between; allowed: from before to", first.Quoted(), last.Quoted())
		}
		return nil
	})
}

// momentOnWall is the time that a clock on the wall shows at a moment.
func momentOnWall(s *bind.Scope, flag, typed string) (time.Time, error) {
	at, err := moment(s, flag, typed)
	return journal.WallClock(at), err
}
