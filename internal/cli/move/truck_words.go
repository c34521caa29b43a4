package move

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/truck"
)

// mostPressure is the part by which nozzles' pressure is raised at most, before larger ones are taken. Common
// practice, no source.
const mostPressure = 2

func truckWords(v show.View, d *report.Document, r truck.Request, out truck.Result) {
	d.Title, d.Verdict, d.Next = "Truck", truckVerdict(v, r, out), "storm plans all loads of a storm."
	for _, note := range []struct {
		applies bool
		text    string
	}{
		{out.Load.Weighed, v.Say("Stronger or colder brine weighs more: weigh with --liquid and --temp what is loaded (here %s at %v).", v.Describe(r.Liquid), r.Temperature)},
		{out.Load.Known && r.Gross == 0, "Without the truck's empty weight and gross limit nothing is said of what it may carry."},
		{out.Catch.Pressure > mostPressure, v.Say("Flow goes as the root of the pressure: it would take %.1f times the pressure. Take larger nozzles instead.", out.Catch.Pressure)},
		{out.Spray.Known, "Rates are the agency's to set."},
	} {
		if note.applies {
			d.Notes = append(d.Notes, note.text)
		}
	}
	if out.Load.Front > 0 {
		d.Notes = append(d.Notes, "The axles are reckoned on level ground with the load at rest: weigh each axle once, full, to check the file's figures.")
	}
	if out.Load.Known {
		d.Cautions = append(d.Cautions, "Axle limits can come before the gross limit, and liquid that moves in a half-full tank pushes: know your axles, and the law of the road.")
	}
	if out.Catch.Known {
		d.Cautions = append(d.Cautions, "Catch with the truck chocked, out of traffic; keep brine off drains and out of eyes.")
	}
	d.Cautions = append(d.Cautions, show.CautionLocal)
}

// truckVerdict answers in one sentence what was asked first: the catch test before the
// spray, the spray before the load.
func truckVerdict(v show.View, r truck.Request, out truck.Result) string {
	load := out.Load
	switch {
	case out.Spray.Beyond && !out.Catch.Known:
		return v.Say("The boom's pump gives %v at most, and %s at %v takes %v: drive at %s or less.", r.BoomMost, rateWanted(v, r), r.Speed, out.Spray.Boom, v.Inward(out.Spray.MostSpeed, -1))
	case out.Catch.Known:
		return catchVerdict(v, r, out.Catch)
	case load.Known && out.Spray.Known:
		return v.Say("Load %s; for %s at %v the boom has to give %v.", v.Inward(load.Volume, -1), rateWanted(v, r), r.Speed, out.Spray.Boom)
	case out.Spray.Known:
		return v.Say("For %s at %v the boom has to give %v.", rateWanted(v, r), r.Speed, out.Spray.Boom)
	case load.By == truck.ByFront || load.By == truck.ByRear:
		return v.Say("Load %s of %s at %v and no more: the %s comes to its limit before the tank of %v is full.",
			v.Inward(load.Volume, -1), v.Describe(r.Liquid), r.Temperature, string(load.By), r.Tank)
	case load.Weighed:
		return v.Say("Load %s of %s at %v and no more: the weight limit comes before the tank of %v is full.",
			v.Inward(load.Volume, -1), v.Describe(r.Liquid), r.Temperature, r.Tank)
	case r.Gross > 0:
		return v.Say("Load the tank full, %v: that leaves %v below the gross limit.", load.Volume, load.Left)
	}
	return v.Say("The tank takes %v, which weighs %v; the yard file has no weights of the truck, so weigh it.", load.Volume, load.Weight)
}

// catchVerdict compares what was caught with what is wanted, where that is known.
func catchVerdict(v show.View, r truck.Request, c truck.Catch) string {
	const close = 0.01 // of the flow, within which it is as wanted
	switch {
	case r.Dry:
		return "Nothing came out: a blocked nozzle or strainer, a shut valve, or a pump that does not run."
	case c.Factor > 1-close && c.Factor < 1+close:
		return v.Say("It lays down %s, as wanted.", rateLaid(v, r, c))
	case c.Factor > 0:
		return v.Say("It lays down %s and not %s: bring the flow from %v to %v, or drive at %v.",
			rateLaid(v, r, c), rateWanted(v, r), c.Flow, quantity.Flow(float64(c.Flow)*c.Factor), c.SpeedFor)
	case r.Speed > 0:
		return v.Say("It lays down %s at %v.", rateLaid(v, r, c), r.Speed)
	}
	return v.Say("The boom gives %v.", c.Flow)
}

// rateLaid is the rate really laid down, in the kind that was asked for.
func rateLaid(v show.View, r truck.Request, c truck.Catch) string {
	if r.AreaRate > 0 {
		return v.Say("%v", c.AreaRate)
	}
	return v.Say("%v a lane", c.Rate)
}

// rateWanted is the rate that was asked for.
func rateWanted(v show.View, r truck.Request) string {
	if r.AreaRate > 0 {
		return v.Say("%v", r.AreaRate)
	}
	return v.Say("%v a lane", r.Rate)
}
