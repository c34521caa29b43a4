package records

import (
	"strings"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
)

// Layouts of times on the command line and on the screen.
const (
	dayLayout    = "2006-01-02"
	minuteLayout = "2006-01-02 15:04"
)

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
	at, err := bind.Day(s, flag, typed)
	return journal.WallClock(at), err
}
