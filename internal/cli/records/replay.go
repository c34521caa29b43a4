package records

import (
	"cmp"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/cli/bind"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/season"
	"brineyard/internal/yard"
)

// replay sums up a journal with what the yard file says.
type replay struct{ shop season.Shop }

// bind takes band and rock salt from the yard file.
func (r *replay) bind(b *bind.Set) {
	r.shop = season.DefaultShop()
	bind.YardBand(b, &r.shop.Band)
	bind.YardRockSalt(b, &r.shop.RockSalt)
}

// of sums up a period, and returns the yard as the entries up to its end leave it. A nil yard
// has no file.
func (r *replay) of(y *yard.Yard, j *journal.Journal, p period) (season.Report, *season.Replay) {
	if y != nil {
		r.take(y)
	}
	return season.Season(season.Request{Shop: r.shop, From: p.begin, To: p.end}, journal.Effective(j.Entries))
}

// take takes the rest from the yard file.
func (r *replay) take(y *yard.Yard) {
	s := &r.shop
	s.Calibration = cmp.Or(y.Calibration, s.Calibration)
	s.WaterTemp = cmp.Or(y.Supply.Temperature, s.WaterTemp)
	s.CleanEvery, s.SaltPrice, s.WaterPrice = y.CleanEvery, y.Prices.Salt, y.Prices.Water
	s.LiquidPrices = map[string]quantity.PricePerVolume{}
	s.Liquids = map[string]balance.Liquid{balance.BrineName: balance.SaltBrine(s.Band.Target)}
	for _, l := range y.Liquids {
		s.Liquids[l.Name] = l.Liquid
		if l.Price != nil {
			s.LiquidPrices[l.Name] = *l.Price
		}
	}
	s.Capacities = map[string]quantity.Volume{}
	for _, t := range y.Tanks {
		s.Capacities[t.Name] = t.Capacity
	}
	s.Lanes = map[string]quantity.Length{}
	for _, route := range y.Routes {
		s.Lanes[route.Name] = route.Length()
	}
}

// wallClock returns what the clock of a time's own zone shows, as if it were UTC: days and
// months are those of the place.
func wallClock(t time.Time) time.Time { return season.Wall(t) }
