package truck

import "brineyard/internal/quantity"

// Spray is what the boom and each nozzle give for a rate at a speed.
type Spray struct {
	Known        bool            // false without a rate and a speed
	Boom, Nozzle quantity.Flow   // Nozzle is 0 when their number is not known
	Reach        quantity.Length // lane length that a load covers; 0 when not known
	Covers       quantity.Area   // likewise for an area rate
	// Beyond is set where the boom's pump gives less than that; MostSpeed is then the speed at which it suffices.
	Beyond    bool
	MostSpeed quantity.Speed
}

// Catch is what a catch test says.
type Catch struct {
	Known    bool // false without a catch
	Flow     quantity.Flow
	Rate     quantity.RatePerLength // really laid down on a lane; 0 without a speed
	AreaRate quantity.RatePerArea   // likewise on an area; 0 without a speed and a width
	// Factor is what the flow has to be multiplied by; 0 when there is no rate to
	// compare with. Pressure is the same for the pressure at the nozzles, since
	// flow goes as its square root.
	Factor, Pressure float64
	SpeedFor         quantity.Speed // at which this flow gives the rate
}

func (r Request) lanes() float64 { return float64(max(1, r.Lanes)) }

// wanted is the flow of the whole boom: rate x speed x lanes, or rate x speed x width; 0
// without a rate and a speed.
func (r Request) wanted() quantity.Flow {
	if r.Rate > 0 {
		return quantity.Flow(float64(r.Rate) * float64(r.Speed) * r.lanes())
	}
	return quantity.Flow(float64(r.AreaRate) * float64(r.Speed) * float64(r.Width))
}

// spray is what a rate asks of the boom.
func (r Request) spray(l Load) Spray {
	s := Spray{Boom: r.wanted()}
	if s.Known = s.Boom > 0; !s.Known {
		return Spray{}
	}
	if s.Beyond = r.BoomMost > 0 && s.Boom > r.BoomMost*(1+1e-9); s.Beyond {
		s.MostSpeed = r.Speed * quantity.Speed(r.BoomMost/s.Boom)
	}
	if r.Nozzles > 0 {
		s.Nozzle = s.Boom / quantity.Flow(r.Nozzles)
	}
	if r.Rate > 0 {
		s.Reach = quantity.Length(float64(l.Volume) / float64(r.Rate) / r.lanes())
	}
	if r.AreaRate > 0 {
		s.Covers = quantity.Area(float64(l.Volume) / float64(r.AreaRate))
	}
	return s
}

// caught compares a catch test with the rate.
func (r Request) caught() Catch {
	if r.Dry {
		return Catch{Known: true}
	}
	if r.Caught <= 0 {
		return Catch{}
	}
	c := Catch{Known: true, Flow: quantity.Flow(float64(r.Caught) / float64(r.Over))}
	if r.Speed == 0 {
		return c
	}
	if r.Width > 0 {
		c.AreaRate = quantity.RatePerArea(float64(c.Flow) / float64(r.Speed) / float64(r.Width))
	}
	c.Rate = quantity.RatePerLength(float64(c.Flow) / float64(r.Speed) / r.lanes())
	if wanted := r.wanted(); wanted > 0 {
		c.Factor = float64(wanted / c.Flow)
		c.Pressure = c.Factor * c.Factor
		c.SpeedFor = quantity.Speed(float64(r.Speed) / c.Factor)
	}
	return c
}
