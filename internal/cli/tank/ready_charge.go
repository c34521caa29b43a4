package tank

import (
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/ready"
	"brineyard/internal/report"
)

// bindCharge binds a measured charge: as typed, else the journal's batch.
func (q *readyAt) bindCharge(b *bind.Set) {
	salt := bind.Of(b, bind.Mass, &q.charge.Salt, "charge", "measured salt, all of which is to dissolve; that of the journal's batch unless given")
	water := bind.Of(b, bind.Volume, &q.charge.Water, "water", "fresh water that the charge went into")
	bind.YardRockSalt(b, &q.charge.Quality)
	bind.YardWaterTemperature(b, &q.charge.Warm)
	b.Then(func(s *bind.Scope) (err error) {
		q.request.End, q.volume, q.typedCharge, q.charge.Full = 0, 0, salt.Given(), 0
		switch {
		case q.flow.given() && (salt.Given() || water.Given()):
			return fault.Refuse("--flow with --charge or --water: a bed that water runs through has no charge; allowed: one of them")
		case salt.Given() && !water.Given() && q.tank.WorkingVolume > 0:
			q.charge.Water, q.charge.Full = 0, q.tank.WorkingVolume
			q.request.End, err = q.charge.End()
			return err
		case salt.Given() && !water.Given():
			return fault.Refuse("--charge %s: needs the water that it went into; allowed: like --water 1070gal, or --tank for a full batch", salt.Quoted())
		case water.Given() && !salt.Given():
			return fault.Refuse("--water %s: needs the salt that went into it; allowed: like --charge 2960lb", water.Quoted())
		case salt.Given():
			q.volume = q.charge.Water
			q.request.End, err = q.charge.End()
			return err
		case q.named.Given() && len(s.Args) == 0:
			q.request.End, q.volume = q.tank.Run.End, q.tank.Run.Volume
		}
		return nil
	})
}

// rises is the volume of the brine when it is ready; 0 where the volume now is not known.
func (q *readyAt) rises(out ready.Result) quantity.Volume {
	to := q.request.Band.Target
	if out.Charge {
		to = q.request.End
	}
	from := out.Strengths[0]
	switch {
	case q.charge.Full > 0:
		return q.charge.Full
	case q.typedCharge:
		from = 0
	case out.Charge:
		return q.volume // the journal has the charge in it
	case q.request.End > 0:
		return 0 // how much of the bed dissolves is not known
	}
	if q.volume == 0 || to <= from || to > out.Saturation {
		return 0
	}
	return ready.Rise(q.volume, from, to, q.request.Samples[len(q.request.Samples)-1].Sample.Temperature)
}

// chargeFigures are what a measured charge comes to.
func (q *readyAt) chargeFigures(v show.View, out ready.Result) []report.Figure {
	ends := report.Figure{Key: "ends_at", Label: "All dissolved, it ends at", Value: report.Nothing("%", "no charge known"), Quiet: true}
	done := report.Figure{Key: "done_time", Label: "All dissolved", Value: report.Nothing("min", "not known"), Quiet: true}
	if out.Charge {
		ends = v.Figure("ends_at", "All dissolved, it ends at", q.request.End)
		done = q.timeFigure("done_time", "All dissolved", out.Done, out.HasDone, "not known")
	}
	volume := report.Figure{Key: "ready_volume", Label: "Brine when ready", Value: report.Nothing("gal", "not known"), Quiet: true}
	if rise := q.rises(out); rise > 0 {
		volume = v.Figure("ready_volume", "Brine when ready", rise)
	}
	return []report.Figure{ends, done, volume}
}

// overBrim warns of a level that rises above the tank.
func (q *readyAt) overBrim(v show.View, out ready.Result) []string {
	if rise := q.rises(out); rise > 0 && q.tank.Capacity > 0 && rise > q.tank.Capacity {
		return []string{v.Say("The brine rises to %v as the salt dissolves, and %s takes %v: pump some off first.", rise, q.tank.Name, q.tank.Capacity)}
	}
	return nil
}
