package cli

import (
	"strconv"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/truck"
	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type truckOptions struct {
	name, liquid text
	tank         *input[quantity.Volume]
	empty, gross *input[quantity.Mass]
	temp         *input[quantity.Temperature]
	flow         *input[quantity.Flow]
	volume       *input[quantity.Volume]
	rate         *input[quantity.RatePerLength]
	area         *input[quantity.RatePerArea]
	speed        *input[quantity.Speed]
	width        *input[quantity.Width]
	lanes        whole
	nozzles      whole
	caught       *input[quantity.Volume]
	over         *input[quantity.Duration]
}

// whole is a flag that takes a whole number from 1 up.
type whole struct{ value int }

// Set reads the number.
func (w *whole) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil || n == 0 || n > 1000 {
		return allowed("not a whole number of them", []string{"1 to 1000"})
	}
	w.value = int(n)
	return nil
}

// reset takes back what was given.
func (w *whole) reset() { w.value = 0 }

// String returns the number in force.
func (w *whole) String() string {
	if w.value == 0 {
		return ""
	}
	return strconv.Itoa(w.value)
}

// Type names the kind of value in help.
func (w *whole) Type() string { return "number" }

func newTruck(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "truck",
		Short: "What fits a truck, how it loads, and what its boom lays down",
		Long: "truck tells how much of a liquid fits a truck's tank and weight limit, how long\n" +
			"it loads and how many loads a volume takes; the flow at the boom and at each\n" +
			"nozzle for a rate at a speed; and what a catch test says of the rate laid down.",
		Example: "  brineyard truck --tank 1750gal --empty 19300lb --gross 33000lb\n" +
			"  brineyard truck --rate 40gal/mi --speed 30mph --catch 18gal --over 60s",
		Args: noArguments,
	}, &truckOptions{})
}

// flags defines the flags.
func (o *truckOptions) flags(f *pflag.FlagSet) {
	f.Var(&o.name, "truck", "`name` of a truck in the yard file")
	f.Var(&o.liquid, "liquid", "what it carries, like brine@23.3%; brine on target unless given")
	o.temp = temperatureFlag(f, "temp", "temperature of the liquid; 60F unless given")
	o.tank = volumeFlag(f, "tank", "the truck's tank")
	o.empty = massFlag(f, "empty", "weight of the truck when empty")
	o.gross = massFlag(f, "gross", "what the truck may weigh in all")
	o.flow = flowFlag(f, "flow", "flow of the loading pump; the yard file's unless given")
	o.volume = volumeFlag(f, "volume", "to be carried in all, for the number of loads")
	o.addSpray(f)
}

func (o *truckOptions) addSpray(f *pflag.FlagSet) {
	o.rate = flag(f, "rate", quantity.ParseRatePerLength, "rate", "wanted on each lane (gal/mi if no unit)")
	o.area = flag(f, "rate", quantity.ParseRatePerArea, "area-rate", "wanted on an area, like 0.5gal/1000ft2 (gal/acre if no unit)")
	o.speed = flag(f, "speed", quantity.ParseSpeed, "speed", "of the truck (mph if no unit)")
	o.width = flag(f, "width", parseWidth, "width", "that the boom sprays, for --area-rate (ft if no unit)")
	f.Var(&o.lanes, "lanes", "lanes sprayed at once; 1 unless given")
	f.Var(&o.nozzles, "nozzles", "nozzles on the boom")
	o.caught = volumeFlag(f, "catch", "caught from the whole boom in a test")
	o.over = flag(f, "time", quantity.ParseDuration, "over", "how long the catch took, like 60s (min if no unit)")
}

func parseWidth(text string) (quantity.Width, bool, error) {
	l, bare, err := quantity.ParseWidth(text)
	return quantity.Width(l), bare, err
}

// ask answers them.
func (o *truckOptions) ask(s *setting, _ []string) (reply, error) {
	r, err := o.request(s)
	if err != nil {
		return reply{}, err
	}
	out, err := truck.Calculate(r)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	if !out.Load.Known && !out.Spray.Known && !out.Catch.Known {
		return reply{}, usagef("nothing to reckon; allowed: --truck or --tank for a load, --rate or --area-rate with --speed, --catch with --over")
	}
	return shown(truckDocument(s, r, out), nil)
}

// truck finds the truck that was named; an empty one when none was.
func (o *truckOptions) truck(s *setting) (yard.Truck, error) {
	if !o.name.given {
		return yard.Truck{}, nil
	}
	if s.yard == nil {
		return yard.Truck{}, usagef("--truck %s: there is no yard file; allowed: --yard with a file, or --tank", words.Quoted(o.name.value))
	}
	if t, ok := s.yard.Truck(o.name.value); ok {
		return t, nil
	}
	names := []string{}
	for _, t := range s.yard.Trucks {
		names = append(names, t.Name)
	}
	return yard.Truck{}, usagef("--truck %s: no such truck in %s; %s", words.Quoted(o.name.value), s.yard.Path, words.Allowed(o.name.value, names))
}

func (o *truckOptions) request(s *setting) (truck.Request, error) {
	r := truck.Request{}
	t, err := o.truck(s)
	if err != nil {
		return r, err
	}
	none := &input[quantity.Strength]{}
	r.Liquid = balance.SaltBrine(s.band(none, none, none).Target)
	if o.liquid.given {
		s.origin[fault.FieldLiquid] = said("--liquid " + words.Quoted(o.liquid.value))
		l, err := s.liquid(o.liquid.value)
		if err != nil {
			return r, usagef("--liquid %v", err)
		}
		r.Liquid = l.liquid
	}
	var pump *quantity.Flow
	if s.yard != nil {
		pump = ifKnown(s.yard.Pump.Flow)
	}
	key := "truck " + words.Quoted(t.Name)
	r.Temperature = take(s, fault.FieldTemperature, "temp", o.temp, nil, "", quantity.Fahrenheit(60))
	r.Tank = take(s, "tank", "tank", o.tank, ifKnown(t.Tank), key, 0)
	r.Empty = take(s, fault.FieldEmpty, "empty", o.empty, ifKnown(t.Empty), key, 0)
	r.Gross = take(s, fault.FieldGross, "gross", o.gross, ifKnown(t.Gross), key, 0)
	r.LoadFlow = take(s, "flow", "flow", o.flow, pump, "pump.flow", 0)
	r.Haul = take(s, fault.FieldVolume, "volume", o.volume, nil, "", 0)
	r.Rate = take(s, fault.FieldRate, "rate", o.rate, nil, "", 0)
	r.AreaRate = take(s, "area-rate", "area-rate", o.area, nil, "", 0)
	r.Speed = take(s, fault.FieldSpeed, "speed", o.speed, nil, "", 0)
	r.Width = take(s, fault.FieldWidth, "width", o.width, ifKnown(t.Width), key, 0)
	r.Caught = take(s, "catch", "catch", o.caught, nil, "", 0)
	r.Over = take(s, fault.FieldOver, "over", o.over, nil, "", 0)
	r.Lanes, r.Nozzles = o.lanes.value, o.nozzles.value
	if r.Nozzles == 0 {
		r.Nozzles = t.Nozzles
	}
	if o.tank.given && o.tank.value == 0 {
		return r, usagef("--tank %s: no tank; allowed: above 0", words.Quoted(o.tank.text))
	}
	return r, nil
}

func truckDocument(s *setting, r truck.Request, out truck.Result) *report.Document {
	d := &report.Document{Command: "truck", Title: "Truck", Verdict: truckVerdict(s, r, out), Working: truckWorking(s, r, out)}
	d.Figures = append(d.Figures, s.figure("density", s.show("Density at %v", r.Temperature), out.Density))
	if out.Load.Known {
		s.addLoad(d, r, out.Load)
	}
	if out.Spray.Known {
		s.addSpray(d, r, out.Spray)
	}
	if out.Catch.Known {
		s.addCatch(d, r, out.Catch)
	}
	d.Cautions = append(d.Cautions, cautionLocal)
	d.Next = nextAfterTruck
	return d
}

// truckVerdict answers in one sentence what was asked first.
func truckVerdict(s *setting, r truck.Request, out truck.Result) string {
	switch {
	case out.Catch.Factor > 0:
		c := out.Catch
		if f := c.Factor; f > 0.99 && f < 1.01 {
			return s.show("It lays down %s, as wanted.", s.laid(r, c))
		}
		return s.show("It lays down %s and not %s: bring the flow from %v to %v, or drive at %v.",
			s.laid(r, c), s.wantedRate(r), c.Flow, quantity.Flow(float64(c.Flow)*c.Factor), c.SpeedFor)
	case out.Catch.Known && r.Speed > 0:
		return s.show("It lays down %s at %v.", s.laid(r, out.Catch), r.Speed)
	case out.Catch.Known:
		return s.show("The boom gives %v.", out.Catch.Flow)
	case out.Load.Known && out.Spray.Known:
		return s.show("Load %s; for %s at %v the boom has to give %v.", s.view().Inward(out.Load.Volume, -1), s.wantedRate(r), r.Speed, out.Spray.Boom)
	case out.Spray.Known:
		return s.show("For %s at %v the boom has to give %v.", s.wantedRate(r), r.Speed, out.Spray.Boom)
	case out.Load.Weighed:
		return s.show("Load %s of %s at %v and no more: the weight limit comes before the tank of %v is full.",
			s.view().Inward(out.Load.Volume, -1), s.describe(r.Liquid), r.Temperature, r.Tank)
	case r.Gross > 0:
		return s.show("Load the tank full, %v: that leaves %v below the gross limit.", out.Load.Volume, out.Load.Left)
	}
	return s.show("The tank takes %v, which weighs %v; whether the truck may carry that, its weights would tell.", out.Load.Volume, out.Load.Weight)
}

// laid is the rate really laid down, in the kind that was asked for.
func (s *setting) laid(r truck.Request, c truck.Catch) string {
	if r.AreaRate > 0 {
		return s.show("%v", c.AreaRate)
	}
	return s.show("%v a lane", c.Rate)
}

func (s *setting) wantedRate(r truck.Request) string {
	if r.AreaRate > 0 {
		return s.show("%v", r.AreaRate)
	}
	return s.show("%v a lane", r.Rate)
}

func (s *setting) addLoad(d *report.Document, r truck.Request, l truck.Load) {
	load, total := s.figure("load", "Load", l.Volume), s.figure("gross_weight", "Truck and load weigh", l.Total)
	if l.Weighed { // never over the limit by rounding
		load.Value.Text, total.Value.Text = s.view().Inward(l.Volume, -1), s.view().Inward(l.Total, -1)
		d.Notes = append(d.Notes, s.show("Stronger or colder brine weighs more: weigh with --liquid and --temp what is loaded (here %s at %v).", s.describe(r.Liquid), r.Temperature))
	}
	d.Figures = append(d.Figures,
		load,
		s.figure("load_weight", "It weighs", l.Weight),
		quietUnless(r.Gross > 0, total),
		quietUnless(r.Gross > 0, s.figure("weight_left", "Left below the gross limit", l.Left)))
	if l.Time > 0 {
		d.Figures = append(d.Figures, s.figure("load_time", s.show("Loads at %v in", r.LoadFlow), l.Time))
	}
	if l.Loads > 0 {
		d.Figures = append(d.Figures,
			s.figure("loads", s.show("Loads for %v", r.Haul), quantity.Count(l.Loads)),
			s.figure("last_load", "of which the last is", l.LastOne))
	}
	d.Cautions = append(d.Cautions, "Axle limits can come before the gross limit, and liquid that moves in a half-full tank pushes: know your axles, and the law of the road.")
	if r.Gross == 0 {
		d.Notes = append(d.Notes, "Without the truck's empty weight and gross limit nothing is said of what it may carry.")
	}
}

func (s *setting) addSpray(d *report.Document, r truck.Request, p truck.Spray) {
	d.Figures = append(d.Figures,
		s.figure("boom_flow", "Flow of the boom", p.Boom),
		ifAny(s, "nozzle_flow", s.show("Flow of each of %d nozzles", max(1, r.Nozzles)), p.Nozzle),
		ifAny(s, "reach", "A load goes for", p.Reach),
		ifAny(s, "covers", "A load covers", p.Covers))
	d.Notes = append(d.Notes, "Rates are the agency's to set.")
}

func (s *setting) addCatch(d *report.Document, r truck.Request, c truck.Catch) {
	d.Figures = append(d.Figures, s.figure("caught_flow", "Flow caught", c.Flow))
	if c.Rate > 0 {
		d.Figures = append(d.Figures, quietUnless(r.AreaRate == 0, s.figure("rate_laid", "Laid down on a lane", c.Rate)))
	}
	if c.AreaRate > 0 {
		d.Figures = append(d.Figures, s.figure("area_rate_laid", "Laid down on an area", c.AreaRate))
	}
	if c.Factor > 0 {
		d.Figures = append(d.Figures,
			s.figure("flow_factor", "Flow to be multiplied by", quantity.Count(c.Factor)),
			s.figure("pressure_factor", "that is, nozzle pressure by", quantity.Count(c.Pressure)),
			s.figure("speed_for_rate", "or the speed to drive", c.SpeedFor))
	}
	d.Cautions = append(d.Cautions, "Catch with the truck chocked, out of traffic; keep brine off drains and out of eyes.")
}

// truckWorking shows the load and the flow.
func truckWorking(s *setting, r truck.Request, out truck.Result) []report.Step {
	if !s.globals.Working {
		return nil
	}
	p := &pocket{system: s.system}
	if l := out.Load; l.Known {
		density := p.read("Density of the liquid", s.show("at %v, Laliberte (2009)", r.Temperature), p.density(out.Density))
		if r.Gross > 0 {
			gross, empty := p.of(r.Gross), p.of(r.Empty)
			may := p.step("Weight that the truck may carry", "gross limit - empty weight", "{} - {}", []term{gross, empty}, gross.value-empty.value, gross.unit)
			p.step("That is in volume", "weight / density", "{} / {}", []term{may, density}, may.value/density.value, p.volumeUnit())
			if r.Tank > 0 {
				p.read("To load", s.show("the less of that and the tank of %v", r.Tank), p.of(l.Volume))
			}
		}
		p.weigh("Weight of the load", p.of(l.Volume), density)
		if l.Time > 0 {
			v, q := p.of(l.Volume), p.of(r.LoadFlow)
			p.step("Loading time", "volume / flow", "{} / {}", []term{v, q}, v.value/q.value, "min")
		}
	}
	if out.Spray.Known && r.Rate > 0 {
		p.laneFlow(r, out.Spray)
	}
	if out.Catch.Known {
		p.catchSteps(r, out.Catch)
	}
	return p.steps
}

// catchSteps compare the flow caught with the flow wanted.
func (p *pocket) catchSteps(r truck.Request, c truck.Catch) {
	caught, over := p.of(r.Caught), p.of(r.Over)
	flow := p.step("Flow caught", "volume / minutes", "{} / {}", []term{caught, over}, caught.value/over.value, p.of(c.Flow).unit)
	if c.Factor == 0 || r.Rate == 0 {
		return
	}
	speed, lanes := p.of(r.Speed), number(float64(max(1, r.Lanes)), "")
	laid := p.step("Rate laid down on a lane", "60 x flow / (speed x lanes)", "60 x {} / ({} x {})", []term{flow, speed, lanes},
		60*flow.value/(speed.value*lanes.value), p.of(c.Rate).unit)
	wanted := p.of(r.Rate)
	p.step("Flow to be multiplied by", "wanted / laid down", "{} / {}", []term{wanted, laid}, wanted.value/laid.value, "")
}

// laneFlow is rate x speed x lanes / 60.
func (p *pocket) laneFlow(r truck.Request, out truck.Spray) {
	rate, speed, lanes := p.of(r.Rate), p.of(r.Speed), number(float64(max(1, r.Lanes)), "")
	boom := p.step("Flow of the boom", "rate x speed x lanes / 60", "{} x {} x {} / 60", []term{rate, speed, lanes},
		rate.value*speed.value*lanes.value/60, p.of(out.Boom).unit)
	if r.Nozzles > 0 {
		n := number(float64(r.Nozzles), "")
		p.step("Flow of a nozzle", "flow of the boom / nozzles", "{} / {}", []term{boom, n}, boom.value/n.value, boom.unit)
	}
}
