package yard

import "brineyard/internal/quantity"

// Fed is the supply with the flow out of its tank, where the file has none: a pump's.
func (s Supply) Fed(pump quantity.Flow) Supply {
	if s.TankFlow == 0 {
		s.TankFlow = pump
	}
	return s
}

// FillTime is how long a volume of fresh water takes. With a fresh-water tank, which is full at the beginning, it comes
// at the tank's flow while the supply refills it, and at the supply's once the tank is down. 0 where no flow is known.
//
//	tank lasts = tank / (out - supply); volume = out t until then, and then supply t
func (s Supply) FillTime(v quantity.Volume) quantity.Duration { return s.FillTimeFrom(s.Tank, v) }

// FillTimeFrom is FillTime where so much stands in the fresh-water tank.
func (s Supply) FillTimeFrom(level, v quantity.Volume) quantity.Duration {
	out := s.TankFlow
	switch {
	case s.Tank == 0 || out == 0:
		if s.Flow == 0 {
			return 0
		}
		return v.Over(s.Flow)
	case out <= s.Flow:
		return v.Over(out)
	}
	lasts := level.Over(out - s.Flow)
	first := quantity.Volume(float64(out) * float64(lasts))
	switch {
	case v <= first:
		return v.Over(out)
	case s.Flow == 0:
		return 0
	}
	return lasts + (v - first).Over(s.Flow)
}

// LevelAfter is what stands in the fresh-water tank after a volume was drawn in a time, and a while in which it fills again.
func (s Supply) LevelAfter(level, drawn quantity.Volume, took, rest quantity.Duration) quantity.Volume {
	level = max(0, level-drawn+quantity.Volume(float64(s.Flow)*float64(took)))
	return min(s.Tank, level+quantity.Volume(float64(s.Flow)*float64(rest)))
}
