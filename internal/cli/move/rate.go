package move

import (
	"cmp"

	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

// pumped is how much a move's pump moves, and for how long.
type pumped struct {
	lineup.Rate
	volume quantity.Volume // that can be moved: what stands above the suction, or the room; 0 where not known
}

// rate tells what the pump moves; its error is a pump that does not rise to the place.
func (e ends) rate() (pumped, error) {
	liquid := balance.SaltBrine(e.yard.Band().Target)
	from, tank := e.yard.Tank(e.From)
	switch {
	case tank && from.Liquid != nil:
		liquid = *from.Liquid
	case yard.IsFresh(e.From):
		liquid = balance.Liquid{}
	}
	rate, err := lineup.RateOf(e.yard, e.Move, liquid, cmp.Or(e.yard.Supply.Temperature, yard.DefaultWater))
	return pumped{rate, e.volume()}, err
}

// volume is the least of what stands above the suction and of the room; 0 where one is not known.
func (e ends) volume() quantity.Volume {
	from, source := e.yard.Tank(e.From)
	to, sink := e.yard.Tank(e.To)
	if !source || from.Contents == nil || e.From == e.To {
		return 0
	}
	v := max(0, from.Held()-from.DeadVolume)
	if sink {
		if to.Contents == nil || to.Capacity == 0 {
			return 0
		}
		v = min(v, max(0, to.Capacity-to.Held()))
	}
	return v
}

// known says in brackets how a flow is known.
var known = map[lineup.Known]string{
	lineup.Usual: "the pump's usual flow", lineup.WorkedOut: "worked out", lineup.Measured: "measured there",
}

func (p pumped) figures(v show.View) []report.Figure {
	if p.Known == lineup.NotKnown {
		return nil
	}
	flow := v.Figure("flow", "Moves", p.Flow)
	flow.Value.Text += " (" + known[p.Known] + ")"
	figures := []report.Figure{flow}
	if p.volume > 0 {
		figures = append(figures, v.Figure("time", v.Say("%v take", p.volume), p.volume.Over(p.Flow)))
	}
	if p.Shaft > 0 {
		power := v.Figure("shaft_power", "Power at the shaft", p.Shaft)
		power.Detail = !p.Overloads()
		figures = append(figures, power)
	}
	if p.Head > 0 {
		figures = append(figures, show.Quiet(v.Figure("head", "Head", quantity.Width(p.Head))))
	}
	return figures
}

// notes warn of a motor that is asked for too much, and of a flow beyond what is known of the pump.
func (p pumped) notes(v show.View) []string {
	var notes []string
	if p.Overloads() {
		notes = append(notes, v.Say("Brine is heavier than water: the pump takes %v here, and its motor is rated for %v. Throttle the outlet, and watch the motor.", p.Shaft, p.Rating))
	}
	if p.Beyond {
		notes = append(notes, v.Say("The way is easier than the pump's curve goes: it moves at least %v, and may draw air or overload the motor.", p.Flow))
	}
	return notes
}
