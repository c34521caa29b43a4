package records

import (
	"maps"
	"slices"
	"strings"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

var yardShowCommand = run.Command{
	Use:   "show",
	Short: "What the yard can do: batches, gallons an hour, what is in store",
	Long: "show works out how long a batch takes. It works out how many gallons an hour\n" +
		"the yard makes. It shows what the tanks hold, and how many batches the salt\n" +
		"makes.",
	Example:   "  brineyard yard show\n  brineyard yard show --yard north.toml --working",
	Args:      run.NoArguments,
	New:       func() run.Question { return &yardShow{} },
	NoWorking: "No working here: no mixing tank has a batch to pump off.",
}

// yardShow asks of every mixing tank the same, but for its volumes and times.
type yardShow struct{ request brine.CapabilityRequest }

// Bind takes the request from the yard file.
func (q *yardShow) Bind(b *bind.Set) {
	b.Then(needsYard)
	bind.YardTarget(b, &q.request.Target)
	bind.YardRockSalt(b, &q.request.RockSalt)
	bind.YardWaterTemperature(b, &q.request.WaterTemp)
}

// Answer works out what each mixing tank can do, and all of them together.
func (q *yardShow) Answer(s *run.Session) (run.Reply, error) {
	now, err := s.Standing()
	if err != nil {
		return run.Reply{}, err
	}
	p := plant{yard: now, clock: s.Env.Now()}
	var can []brine.Capability
	for _, m := range now.MixingTanks() {
		t := derive.MixingTank{Name: m.Name, With: q.of(now, m)}
		if m.WorkingVolume > 0 {
			if t.Can, err = brine.CanDo(t.With); err != nil {
				return run.Reply{}, err
			}
		}
		p.tanks, can = append(p.tanks, t), append(can, t.Can)
	}
	p.run, p.anHour = brine.TanksToRun(can), brine.SharedFlow(can)
	return run.Reply{
		Figures: p.figures(s.View),
		Words: func(d *report.Document) {
			p.words(s.View, d)
		},
		Working: func() []report.Step { return derive.Yard(s.View, p.tanks, p.run) },
	}, nil
}

// of is the request about one mixing tank.
func (q *yardShow) of(y *yard.Yard, m yard.Tank) brine.CapabilityRequest {
	r := q.request
	r.WorkingVolume, r.PumpOff, r.MixTime = m.WorkingVolume, m.PumpOff, m.MixTime
	r.Supply, r.PumpFlow, r.SaltPrice, r.CleanEvery = y.Supply.Flow, y.Pump.Flow, y.Prices.Salt, y.CleanEvery
	r.Bucket = y.Pile.Bucket
	if y.Pile.OnHand != nil {
		r.Pile = *y.Pile.OnHand
	}
	return r
}

// plant is what a yard makes brine with.
type plant struct {
	yard   *yard.Yard
	clock  time.Time
	tanks  []derive.MixingTank
	run    []int         // places of the tanks that make the most together
	anHour quantity.Flow // 0 where no cycle is known
}

// perHour is what the yard makes in an hour.
func (p plant) perHour() quantity.Volume { return quantity.Volume(float64(p.anHour) * 3600) }

// idle reports whether a tank with a cycle is better left idle.
func (p plant) idle() bool {
	known := 0
	for _, t := range p.tanks {
		if t.Can.Cycle > 0 {
			known++
		}
	}
	return len(p.run) < known
}

// running names the tanks that make the most together.
func (p plant) running() string {
	var names []string
	for _, i := range p.run {
		names = append(names, p.tanks[i].Name)
	}
	return strings.Join(names, " and ")
}

func (p plant) figures(v show.View) []report.Figure {
	label, hour := "Brine an hour, all mixing tanks", p.perHour().In(v.System)
	if p.idle() {
		label = "Brine an hour, " + p.running() + " alone"
	}
	made := report.Figure{Key: "brine_per_hour", Label: label, Value: report.Nothing(hour.Unit+"/h", "not known")}
	if p.anHour > 0 {
		made.Value = report.Number(hour.Value, hour.Unit+"/h", hour.String()+"/h")
	}
	stored, _ := inStore(p.yard)
	return append([]report.Figure{made, v.Figure("stored", "In store", stored)}, p.saltFigures(v)...)
}

// saltFigures tell what the pile makes, by the first mixing tank.
func (p plant) saltFigures(v show.View) []report.Figure {
	if len(p.tanks) == 0 {
		return nil
	}
	c := p.tanks[0].Can
	return []report.Figure{
		show.QuietUnless(c.Batches > 0, v.Figure("pile_batches", "Batches that the pile makes", quantity.Count(c.Batches))),
		show.QuietUnless(c.Batches > 0, v.Figure("pile_volume", "Brine that the pile makes", c.FromPile)),
		show.QuietUnless(c.Buckets > 0, v.Figure("buckets", "Buckets of salt a batch", quantity.Count(c.Buckets))),
		show.QuietUnless(c.Clean > 0, v.Figure("clean_batches", "Batches between cleanings", quantity.Count(c.Clean))),
		show.IfKnown(v, "salt_cost_per_volume", "Salt in a volume of brine costs", c.SaltCost, c.Priced),
	}
}

// inStore sums up what stands in the storage tanks, and what of it is no salt
// brine.
func inStore(y *yard.Yard) (all, others quantity.Volume) {
	for _, t := range y.StorageTanks() {
		all += t.Held()
		if !t.HoldsBrine() {
			others += t.Held()
		}
	}
	return all, others
}

func (p plant) words(v show.View, d *report.Document) {
	stored, others := inStore(p.yard)
	has := v.Say("%v in store", stored)
	if others > 0 {
		has = v.Say("%v of brine and %v of other liquids in store", stored-others, others)
	}
	name := p.yard.Name
	if name == "" {
		name = p.yard.Path
	}
	d.Title, d.Cautions = "What the yard can do", []string{show.CautionLocal}
	d.Verdict = v.Say("%s has %s; how fast it makes brine is not known.", name, has)
	if p.anHour > 0 {
		d.Verdict = v.Say("%s makes up to %v of brine an hour and has %s.", name, p.perHour(), has)
	}
	d.Verdict += v.StockSource(p.yard.StorageTanks(), p.clock)
	d.Tables, d.Notes = []report.Table{p.mixingTable(v), stockTable(v, p.yard)}, append(p.notes(), v.StockDoubts(p.yard.StorageTanks(), p.clock)...)
}

func (p plant) notes() []string {
	switch {
	case p.anHour == 0:
		return []string{"For a cycle time the file needs working_volume and mix_time of a mixing tank, and the flows of supply and pump."}
	case p.idle():
		return []string{"The mixing tanks share one pump and one supply: the most comes of " + p.running() + " alone, as a further tank would keep them for longer than it is worth."}
	case len(p.tanks) > 1:
		return []string{"The mixing tanks share one pump and one supply, which bound what they make together."}
	}
	return nil
}

// mixingTable has a row for each mixing tank.
func (p plant) mixingTable(v show.View) report.Table {
	t := report.Table{Key: "mixing", Title: "Mixing tanks, batch after batch", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "pumped_off", Label: "Gives"}, {Key: "salt", Label: "Salt"}, {Key: "water", Label: "Water"},
		{Key: "fill_time", Label: "Fill"}, {Key: "mix_time", Label: "Mix"}, {Key: "pump_off_time", Label: "Pump off"}, {Key: "cycle_time", Label: "Cycle"},
	}}
	for _, m := range p.tanks {
		c := m.Can
		t.Rows = append(t.Rows, []report.Value{
			report.Word(m.Name), show.OrUnknown(v, c.PumpOff), show.OrUnknown(v, c.SaltABatch), show.OrUnknown(v, c.Water),
			show.OrUnknown(v, c.Fill), show.OrUnknown(v, m.With.MixTime), show.OrUnknown(v, c.PumpOffTime), show.OrUnknown(v, c.Cycle),
		})
	}
	return t
}

// stockTable sums up what stands in the storage tanks, by liquid.
func stockTable(v show.View, y *yard.Yard) report.Table {
	t := report.Table{Key: "stock", Title: "In store, by liquid", Columns: []report.Column{
		{Key: "liquid", Label: "Liquid"}, {Key: "volume", Label: "Volume"}, {Key: "usable", Label: "Above the suction"},
	}}
	all, usable := map[string]quantity.Volume{}, map[string]quantity.Volume{}
	for _, tank := range y.StorageTanks() {
		name := stockName(v, tank)
		all[name] += tank.Held()
		usable[name] += max(0, tank.Held()-tank.DeadVolume)
	}
	for _, n := range slices.Sorted(maps.Keys(all)) {
		t.Rows = append(t.Rows, []report.Value{report.Word(n), v.Value(all[n]), v.Value(usable[n])})
	}
	return t
}

// stockName is what the file calls the liquid in a tank, else its strength.
func stockName(v show.View, t yard.Tank) string {
	if t.LiquidName != "" {
		return t.LiquidName
	}
	switch w, plain := t.Holds().Strength(); {
	case t.Liquid == nil:
		return "not said"
	case plain:
		return v.Say("%v brine", w)
	}
	return v.CompositionText(*t.Liquid)
}
