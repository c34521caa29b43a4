package storm

import "brineyard/internal/quantity"

// outcome is what a course comes to, by which courses are compared.
type outcome struct {
	classes []quantity.Volume // down in time, the class of the first priority first
	whole   int               // errands that are down in time as far as they were given
	inTime  []quantity.Volume // by errand
	loaded  quantity.Volume
	gap     quantity.Volume // what is still wanted for routes and reserve
	back    quantity.Duration
	cost    quantity.Duration // when the last batch is done, with handling
}

func (p *plant) outcome(c *course) outcome {
	o := outcome{classes: make([]quantity.Volume, len(p.priority)), inTime: c.inTime, gap: max(0, c.want), back: c.lastBack}
	for i := range p.errands {
		e := &p.errands[i]
		o.classes[e.class] += c.inTime[i]
		if e.given > 0 && c.inTime[i] >= e.given*(1-1e-9) {
			o.whole++
		}
		o.loaded += e.given - c.left[i]
	}
	o.cost = c.done + quantity.Duration(c.batches)*handling
	return o
}

// more compares volumes: 1 for more, -1 for less, 0 but for rounding.
func more(a, b quantity.Volume) int {
	switch slack := 1e-9 * max(a, b); {
	case a > b+slack:
		return 1
	case b > a+slack:
		return -1
	}
	return 0
}

// inTimeThan compares what is down in time, class by class.
func (o outcome) inTimeThan(b outcome) int {
	for i := range o.classes {
		if d := more(o.classes[i], b.classes[i]); d != 0 {
			return d
		}
	}
	return 0
}

// better prefers more down in time, whole routes, those that come first, more loaded and kept in reserve, the last truck
// back sooner, and then fewer batches done sooner.
func (o outcome) better(b outcome) bool {
	if d := o.inTimeThan(b); d != 0 {
		return d > 0
	}
	if o.whole != b.whole {
		return o.whole > b.whole
	}
	for i := range o.inTime {
		if d := more(o.inTime[i], b.inTime[i]); d != 0 {
			return d > 0
		}
	}
	if d := more(o.loaded, b.loaded); d != 0 {
		return d > 0
	}
	if d := more(b.gap, o.gap); d != 0 {
		return d > 0
	}
	if d := o.back - b.back; d > 1 || d < -1 {
		return d < 0
	}
	return o.cost < b.cost-moment
}
