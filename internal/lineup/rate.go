package lineup

import (
	"brineyard/internal/balance"
	"brineyard/internal/hydraulics"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Known says how a flow is known.
type Known string

// The ways in which a flow is known.
const (
	NotKnown  Known = "not known"
	Usual     Known = "usual"      // the pump's own, wherever it pumps to
	WorkedOut Known = "worked out" // by the pump's curve, lift and pipes
	Measured  Known = "measured"   // at the place
)

// Rate is what the pump moves in a move, and what that takes of its motor.
type Rate struct {
	Flow  quantity.Flow
	Known Known
	Head  quantity.Length // of the liquid; 0 where it is not worked out
	// Beyond is set where the way would pass more than the curve knows: Flow is then the curve's last.
	Beyond bool
	// Shaft is the power that the pump takes; 0 where neither curve nor head is known.
	Shaft  quantity.Power
	Rating quantity.Power // of the motor; 0 where not known
}

// Overloads reports whether the pump takes more than its motor is rated for.
func (r Rate) Overloads() bool { return r.Rating > 0 && r.Shaft > r.Rating }

// UsualEfficiency is that of a small centrifugal pump of which the yard file does not say. Common practice, no source.
const UsualEfficiency = quantity.Fraction(0.55)

// RateOf tells what a move's pump moves of a liquid: as measured at the place it goes to, else worked out where the file
// has the pump's curve, the lift and the pipes, else the pump's own flow. Errors: fault.InputError for a pump that
// does not rise to the place.
func RateOf(y *yard.Yard, m Move, liquid balance.Liquid, t quantity.Temperature) (Rate, error) {
	reach, _ := y.Reach(m.To)
	rate := Rate{Flow: m.Pump.Flow, Known: Usual, Rating: m.Pump.Power}
	if rate.Flow == 0 {
		rate.Known = NotKnown
	}
	rho, err := liquid.Density(t)
	if err != nil {
		return rate, err
	}
	way, piped := wayOf(m, reach)
	worked := len(m.Pump.Curve) > 0 && piped && reach.HasLift
	if worked {
		fluid := hydraulics.Fluid{Density: rho, Viscosity: viscosity(liquid, t)}
		at, beyond, err := hydraulics.Operate(m.Pump.Curve, way, fluid)
		if err != nil && reach.Flow == 0 {
			return rate, err
		}
		rate.Flow, rate.Head, rate.Beyond, rate.Known = at.Flow, at.Head, beyond, WorkedOut
	}
	if reach.Flow > 0 {
		rate.Flow, rate.Beyond, rate.Known = reach.Flow, false, Measured
	}
	if len(m.Pump.Curve) > 0 && rate.Flow > 0 {
		at := hydraulics.Point{Flow: rate.Flow, Head: hydraulics.HeadAt(m.Pump.Curve, rate.Flow)}
		rate.Shaft = hydraulics.Power(at, rho, efficiencyOf(m.Pump))
	}
	return rate, nil
}

func efficiencyOf(p yard.Pump) quantity.Fraction {
	if p.Efficiency > 0 {
		return p.Efficiency
	}
	return UsualEfficiency
}

func viscosity(l balance.Liquid, t quantity.Temperature) hydraulics.Viscosity {
	if len(l.Products) > 0 {
		return hydraulics.Thick(t)
	}
	return hydraulics.ViscosityOf(l.Composition, t)
}

// wayOf are the pipes of a move with the lift. A link that has fittings and no bore of its own has that of the
// narrowest pipe. It is false where the file has no pipe of the way.
func wayOf(m Move, reach yard.Reach) (way hydraulics.Way, piped bool) {
	way.Lift = reach.Lift
	narrowest := quantity.Depth(0)
	for _, h := range m.Path {
		if d := h.Link.Diameter; d > 0 && (narrowest == 0 || d < narrowest) {
			narrowest = d
		}
	}
	for _, h := range m.Path {
		pipe := hydraulics.Pipe{Length: h.Link.Length, Diameter: h.Link.Diameter, Roughness: hydraulics.Smooth, Fittings: h.Link.Fittings}
		if h.Link.Steel {
			pipe.Roughness = hydraulics.Steel
		}
		if pipe.Diameter == 0 {
			pipe.Diameter = narrowest
		}
		if pipe.Length > 0 || pipe.Fittings > 0 && narrowest > 0 {
			way.Pipes = append(way.Pipes, pipe)
		}
	}
	return way, narrowest > 0
}

// flowOf is the flow of a move by RateOf, else the first pump's own. 0 where nothing is known.
func flowOf(y *yard.Yard, m Move, liquid balance.Liquid, t quantity.Temperature) quantity.Flow {
	rate, err := RateOf(y, m, liquid, t)
	if err != nil {
		return y.Pump.Flow
	}
	return rate.Flow
}

// LoadingFlow is the flow at which trucks are loaded of a liquid: that from the first storage tank from which a move leads to
// where they are loaded. 0 where the yard file does not say where that is.
func LoadingFlow(y *yard.Yard, liquid balance.Liquid, t quantity.Temperature) quantity.Flow {
	to := y.LoadingPoint()
	if to == "" {
		return 0
	}
	for _, tank := range append(y.StorageTanks(), y.MixingTanks()...) {
		if m, err := Plan(y.Plumbing, "", tank.Name, to); err == nil {
			return flowOf(y, m, liquid, t)
		}
	}
	return flowOf(y, Move{To: to, Pump: y.Pump}, liquid, t)
}

// OffFlows are the flows from each mixing tank into the first storage tank to which a move leads; a tank that is
// missing has the pump's own.
func OffFlows(y *yard.Yard, liquid balance.Liquid, t quantity.Temperature) map[string]quantity.Flow {
	flows := map[string]quantity.Flow{}
	for _, mixer := range y.MixingTanks() {
		for _, store := range y.StorageTanks() {
			if _, plain := store.Holds().Strength(); !plain && store.Liquid != nil {
				continue
			}
			if m, err := Plan(y.Plumbing, "", mixer.Name, store.Name); err == nil {
				flows[mixer.Name] = flowOf(y, m, liquid, t)
				break
			}
		}
	}
	return flows
}
