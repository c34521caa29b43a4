package storm

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// MixerRun is what a batch of a mixing tank takes.
type MixerRun struct {
	Mixer     yard.Tank
	Fill, Mix quantity.Duration // Fill with a full fresh-water tank, where there is one
	Off       quantity.Flow     // into storage
	Salt      quantity.Mass     // as delivered
	Water     quantity.Volume
	// Holds is finished brine that stays in the mixing tank.
	Holds        quantity.Volume
	Density      quantity.Density // of the brine
	WaterDensity quantity.Density
	// Fix is set for a storage tank that is corrected: its brine stays where it is.
	Fix *TankFix
}

// TankFix is what the correction of a storage tank brings.
type TankFix struct{ Usable, Room, Final quantity.Volume }

// full is the volume of a whole batch.
func (run *MixerRun) full() quantity.Volume {
	if run.Fix != nil {
		return run.Fix.Final
	}
	return run.Mixer.PumpOff
}

// runs works out what a batch of each mixing tank takes. Masses are those of brine on
// target at the temperature at which volumes are measured, so that they balance.
func (y *stormYard) runs() ([]MixerRun, error) {
	var runs []MixerRun
	salt, target := y.r.Pile.Quality, y.r.Band.Target
	density, water := balance.BrineDensity(target, y.r.Temperature), balance.BrineDensity(0, y.r.Supply.Temperature)
	for _, m := range y.r.Mixers {
		if m.PumpOff == 0 {
			continue
		}
		if y.r.Supply.Flow == 0 {
			return nil, fault.Input(fault.FieldSupply, "without the flow of fresh water no batch can be timed; allowed: above 0")
		}
		mass := m.PumpOff.Mass(density)
		run := MixerRun{Mixer: m, Mix: m.MixTime, Density: density, WaterDensity: water}
		run.Salt = quantity.Mass(float64(mass.Times(target)) / salt.SodiumChloride())
		run.Water = (mass.Times(1-target) - run.Salt.Times(salt.Moisture)).Volume(water)
		run.Fill, run.Off = y.r.Supply.Fed(y.r.Pump.Flow).FillTime(run.Water), y.r.PumpOffFlow(m.Name)
		runs = append(runs, run)
	}
	slices.SortStableFunc(runs, func(a, b MixerRun) int { return cmp.Compare(b.Mixer.PumpOff, a.Mixer.PumpOff) })
	return runs, nil
}

// saltRate is the rock salt in brine that is made, by volume; infinite where none can be made.
func saltRate(runs []MixerRun) float64 {
	for i := range runs {
		if run := &runs[i]; run.Fix == nil {
			return float64(run.Salt) / float64(run.full())
		}
	}
	return math.Inf(1)
}

// plant lays out the yard for the search. A yard without trucks has its brine fetched at the pump by others, who are not
// followed on the road.
func (y *stormYard) plant(routes []RoutePlan, runs []MixerRun) *plant {
	p := &plant{
		y: y, runs: runs, flow: y.r.LoadingFlow(),
		supply: y.r.Supply.Fed(y.r.Pump.Flow), pumpFills: y.r.Supply.Tank > 0 && y.r.Supply.TankFlow == 0,
	}
	for _, t := range y.r.Trucks {
		p.speeds = append(p.speeds, truck.SpeedOf(t))
	}
	if len(p.speeds) == 0 {
		p.speeds = []quantity.Speed{1}
	}
	c := &p.begin
	c.store, p.empty = y.storage()
	c.want = y.r.Reserve - c.store.usable
	c.salt = y.r.pile()
	for i := range routes {
		r := &routes[i]
		e := y.errand(r)
		if at := slices.Index(p.priority, r.Route.Priority); at >= 0 {
			e.class = at
		} else {
			e.class = len(p.priority)
			p.priority = append(p.priority, r.Route.Priority)
		}
		p.errands = append(p.errands, e)
		c.left = append(c.left, e.given)
		c.want += e.given * quantity.Volume(e.brine)
		c.salt -= quantity.Mass(e.dry * float64(e.given))
	}
	for _, o := range y.others {
		c.bought = append(c.bought, o.left)
	}
	c.salt = max(0, c.salt)
	c.inTime = make([]quantity.Volume, len(routes))
	c.pump, c.supply, c.done, c.lastBack = y.r.Now, y.r.Now, y.r.Now, y.r.Now
	c.level = y.r.Supply.Tank
	c.held = make([]quantity.Volume, len(runs))
	c.free = slices.Repeat([]quantity.Duration{y.r.Now}, len(runs))
	c.trucks = slices.Repeat([]quantity.Duration{y.r.Now}, len(p.speeds))
	return p
}

// errand is a route for the search.
func (y *stormYard) errand(r *RoutePlan) errand {
	unit := float64(r.Demanded)
	e := errand{
		brine: float64(r.brine) / unit, other: float64(r.other) / unit, dry: float64(r.Route.Salt()) / unit, lane: float64(r.LaneLength) / unit,
		bought: -1, fits: r.fits, given: r.Given, from: r.From, by: r.By,
	}
	if r.bought != nil {
		e.bought = slices.Index(y.others, r.bought)
	}
	if len(y.r.Trucks) == 0 {
		e.lane, e.fits = 0, []quantity.Volume{r.Given}
	}
	return e
}
