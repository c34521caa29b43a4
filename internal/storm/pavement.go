package storm

import (
	"brineyard/internal/quantity"
)

// Hour is the pavement's temperature at a time of a forecast.
type Hour struct {
	At          quantity.Duration
	Temperature quantity.Temperature
}

// Met is the pavement that a route's liquid meets once it lies there.
type Met struct {
	Coldest   quantity.Temperature // from when it is down to the end of the forecast
	PerVolume quantity.Density     // the ice that a volume melts at that; 0 where it is not known or not needed
	Diluted   quantity.Strength    // at which it refreezes then
}

// pavementAt is the forecast at a time: on a straight line between two hours, and level before the first and after the last.
func (r Request) pavementAt(at quantity.Duration) quantity.Temperature {
	hours := r.Pavement
	for i, h := range hours {
		if at > h.At {
			continue
		}
		if i == 0 {
			return h.Temperature
		}
		before := hours[i-1]
		part := quantity.Temperature((at - before.At) / (h.At - before.At))
		return before.Temperature + (h.Temperature-before.Temperature)*part
	}
	return hours[len(hours)-1].Temperature
}

// meets works out what each route meets, where there is a forecast by the hour.
func (y *stormYard) meets(p *Plan) error {
	if len(y.r.Pavement) == 0 {
		return nil
	}
	for i := range p.Routes {
		r := &p.Routes[i]
		if r.Served == 0 {
			continue
		}
		r.Meets = &Met{Coldest: y.r.pavementAt(r.DownAt)}
		for _, h := range y.r.Pavement {
			if h.At > r.DownAt {
				r.Meets.Coldest = min(r.Meets.Coldest, h.Temperature)
			}
		}
		if r.Meets.Coldest >= quantity.Celsius(0) || len(r.liquid.Products) > 0 {
			continue
		}
		var err error
		if r.Meets.PerVolume, r.Meets.Diluted, err = y.melts(r.liquid, r.Meets.Coldest); err != nil {
			return err
		}
	}
	return nil
}
