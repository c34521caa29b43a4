package storm

import "slices"

// Shortage is a reason for which there is less than wanted.
type Shortage string

// The shortages: first what ends production, however much time there is; then what a route
// lacks; then what stands behind them.
const (
	NoShortage  Shortage = ""
	SaltEnds    Shortage = "salt"
	TanksFull   Shortage = "room"
	NoMixer     Shortage = "no mixing tank"
	NoStorage   Shortage = "no storage tank"
	OutOfBand   Shortage = "out of band" // the only storage tanks
	TooManyRuns Shortage = "batches"     // more than a plan holds

	BrineEnds  Shortage = "brine"
	LiquidEnds Shortage = "liquid" // that is bought
	NoDrySalt  Shortage = "salt to pre-wet"
	NoTruck    Shortage = "truck" // that carries it

	NoTime    Shortage = "time"
	ToCorrect Shortage = "to correct" // a tank whose room is of no use until then
)

// Lack is what a route lacks.
type Lack struct {
	Why    Shortage
	Liquid string // for LiquidEnds
}

// Reason is why a plan falls short, with the names that it concerns: the routes for
// NoTruck, the liquid for LiquidEnds, the tank for ToCorrect.
type Reason struct {
	Why   Shortage
	Names []string
}

// Reasons lists why the routes or the reserve fall short: time, what the routes lack, and
// what keeps more brine from being made.
func (p Plan) Reasons() []Reason {
	var reasons []Reason
	tell := func(holds bool, why Shortage, names ...string) {
		if holds {
			reasons = append(reasons, Reason{why, names})
		}
	}
	tell(p.Production.Late, NoTime)
	brine := p.ReserveGap > 0
	for _, lack := range p.lacks() {
		tell(lack.Why == NoTruck, NoTruck, p.lacking(lack)...)
		tell(lack.Why == NoDrySalt, NoDrySalt)
		tell(lack.Why == LiquidEnds, LiquidEnds, lack.Liquid)
		brine = brine || lack.Why == BrineEnds
	}
	shortage := p.Production.Shortage
	for _, l := range p.Supply {
		tell(shortage == TanksFull && (l.Fix != nil && !slices.Contains(p.Production.Corrected, l.Where) || l.Edge), ToCorrect, l.Where)
	}
	tell(brine && shortage != NoShortage, shortage)
	return reasons
}

// lacks lists what the routes lack, that of the first route first.
func (p Plan) lacks() []Lack {
	var all []Lack
	for _, r := range p.Routes {
		if r.Lack != (Lack{}) && !slices.Contains(all, r.Lack) {
			all = append(all, r.Lack)
		}
	}
	return all
}

// lacking names the routes with a lack.
func (p Plan) lacking(lack Lack) []string {
	var names []string
	for _, r := range p.Routes {
		if r.Lack == lack {
			names = append(names, r.Route.Name)
		}
	}
	return names
}
