package cli

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"brineyard/internal/cli/derive"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/storm"
)

func stormDocument(s *setting, r storm.Request, p storm.Plan) *report.Document {
	var steps []report.Step
	if s.globals.Working {
		steps = derive.Storm(s.view(), r, p)
	}
	return &report.Document{
		Command:  "storm",
		Title:    "Storm plan",
		Verdict:  stormVerdict(s, r, p),
		Figures:  s.stormFigures(r, p),
		Tables:   s.stormTables(r.Low, p),
		Drawings: timeLine(r, p),
		Working:  steps,
		Next:     nextAfterStorm,
		Notes:    stormNotes(s, r, p),
		Cautions: []string{cautionPump, cautionDrain, "Axle and gross limits of the trucks are the law's, not this plan's.", cautionLocal},
	}
}

// stormVerdict says first whether all of it can be had, then by when to begin, and last
// whether the pavement is too cold for it.
func stormVerdict(s *setting, r storm.Request, p storm.Plan) string {
	verdict := productionVerdict(s, r, p)
	if !p.Practice {
		verdict += s.show(" At %v of pavement liquids are out of practice.", r.Low)
	}
	return verdict
}

func productionVerdict(s *setting, r storm.Request, p storm.Plan) string {
	pr, start := p.Production, clockText(r.Start, true)
	latest := clockText(pr.Latest, true)
	switch {
	case p.Short == 0 && p.ReserveGap > 0:
		return s.show("Every route can be served, but the reserve lacks %v%s.", p.ReserveGap, s.because(p)) + s.beginBy(p, start)
	case p.Short > 0 && p.OnlyTimeLacks():
		return s.show("Short by %v%s: there is not time enough; work would have to begin by %s to have all of it by %s.", p.Short, s.alsoReserve(p), latest, start)
	case p.Short > 0:
		return s.show("Short by %v%s%s.", p.Short, s.alsoReserve(p), s.because(p)) + s.beginBy(p, start)
	case pr.Batches == 0:
		return s.show("All of it stands in store: %v wanted, no batch to make.", p.Demanded)
	}
	return s.show("All of it by %s: %v wanted, %s, done at %s; begin by %s at the latest.", start, p.Demanded, plural(pr.Batches, "batch", "batches"),
		clockText(pr.DoneAt, true), latest)
}

// alsoReserve tells what the reserve lacks besides.
func (s *setting) alsoReserve(p storm.Plan) string {
	if p.ReserveGap == 0 {
		return ""
	}
	return s.show(", and by %v of the reserve", p.ReserveGap)
}

// plural counts things.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return itoa(n) + " " + many
}

// beginBy says when work has to begin for what is made, if anything is.
func (s *setting) beginBy(p storm.Plan, start string) string {
	latest := clockText(p.Production.Latest, true)
	switch {
	case p.Production.Batches == 0 && !p.Production.Late:
		return ""
	case p.Production.Late:
		return " For all that can be made work would have to begin by " + latest + "."
	}
	return " Begin by " + latest + " to have the rest by " + start + "."
}

// shortageWords say why there is less than wanted; {} stands for what it concerns.
var shortageWords = map[storm.Shortage]string{
	storm.NoTime:      "there is not time enough",
	storm.NoTruck:     "no truck carries for {}",
	storm.NoDrySalt:   "there is not salt enough to pre-wet",
	storm.LiquidEnds:  "{} runs out",
	storm.ToCorrect:   "{} holds brine out of the band, to be corrected first",
	storm.SaltEnds:    "the salt pile ends",
	storm.TanksFull:   "the storage tanks are full",
	storm.NoMixer:     "there is no mixing tank",
	storm.NoStorage:   "there is no storage tank for brine",
	storm.OutOfBand:   "the storage tanks hold brine out of the band, to be corrected first",
	storm.TooManyRuns: "a plan holds no more batches",
}

// because says why there is less than wanted, in brackets.
func (s *setting) because(p storm.Plan) string {
	var words []string
	for _, r := range p.Reasons() {
		words = append(words, strings.ReplaceAll(shortageWords[r.Why], "{}", strings.Join(r.Names, ", ")))
	}
	if len(words) == 0 {
		return ""
	}
	return " (" + strings.Join(words, "; ") + ")"
}

// lackWords name what a route lacks.
func lackWords(l storm.Lack) string {
	switch l.Why {
	case storm.LiquidEnds:
		return l.Liquid
	case storm.NoDrySalt:
		return "salt"
	}
	return string(l.Why) // brine or truck
}

func (s *setting) stormFigures(r storm.Request, p storm.Plan) []report.Figure {
	pr := p.Production
	at := func(key, label string, t quantity.Duration) report.Figure {
		return report.Figure{Key: key, Label: label, Value: timeValue(t, true)}
	}
	pair := s.figure("demanded", "Wanted, loaded, short", p.Demanded)
	pair.Value.Text = s.show("%v, %v, %v", p.Demanded, p.Loaded, p.Short)
	salt := s.figure("salt", "Salt to use", pr.Salt)
	if pr.Buckets > 0 {
		salt.Value.Text = s.show("%v, %v buckets", pr.Salt, quantity.Count(pr.Buckets))
	}
	cost := s.figure("cost", "Cost", p.Cost.Total)
	if c := p.Cost; c.PerVolume != nil && c.PerLane != nil {
		cost.Value.Text = s.show("%v: %v, or %v of lane", c.Total, *c.PerVolume, *c.PerLane)
	}
	chloride := s.figure("chloride", "Chloride laid down", p.Cost.Chloride)
	if p.Cost.ChloridePerLane > 0 {
		chloride.Value.Text = s.show("%v: %v of lane, %s a pass", p.Cost.Chloride, p.Cost.ChloridePerLane, s.perArea(p.Cost.ChloridePerArea).Text)
	}
	figures := []report.Figure{
		pair, quiet(s.figure("loaded", "Loaded", p.Loaded)), quiet(s.figure("short", "Short", p.Short)),
		quiet(s.figure("made", "Made", pr.Made)),
		s.figure("batches", "Batches to make", quantity.Count(pr.Batches)),
		salt, quiet(s.figure("buckets", "Buckets", quantity.Count(pr.Buckets))),
		quietUnless(p.DrySalt > 0, s.figure("dry_salt", "Dry salt to pre-wet", p.DrySalt)),
		s.figure("water", "Water to run in", pr.Water),
		quietUnless(len(p.Liquids) > 0, report.Figure{Key: "liquids_wanted", Label: "Liquids not made here", Value: report.Word(s.liquidsText(p))}),
		quietUnless(pr.Batches > 0, at("done_time", "Last batch done", pr.DoneAt)),
		quietUnless(pr.Batches > 0 || pr.Late, at("latest_start", latestLabel(pr), pr.Latest)),
		quietUnless(pr.InMixers > 0, s.figure("left_in_mixers", "Left in the mixers", pr.InMixers)),
		quietUnless(p.ReserveGap > 0, s.figure("reserve_short", "Reserve lacks", p.ReserveGap)),
		quiet(s.figure("pump_time", "Pump on batches", pr.PumpTime)),
		quiet(s.figure("idle_first_fill", "Pump waits for the first fill", pr.IdleFirst)),
		quiet(s.figure("idle_later_fills", "Pump waits for later fills", pr.IdleLater)),
	}
	if l := p.Loading; len(l.Loads) > 0 {
		loads := s.figure("loads", "Truckloads", quantity.Count(len(l.Loads)))
		loads.Value.Text = s.show("%v, first out %s, last out %s", quantity.Count(len(l.Loads)), clockText(l.FirstOut, true), clockText(l.LastOut, true))
		figures = append(figures, loads, quiet(at("first_out", "First out", l.FirstOut)), quiet(at("last_out", "Last out", l.LastOut)))
	}
	figures = append(figures, cost, s.costParts(p.Cost), chloride)
	return append(figures, s.costFigures(p.Cost)...)
}

// costParts are the parts of the cost in words, those that are known.
func (s *setting) costParts(c storm.Cost) report.Figure {
	var parts []string
	for _, part := range []struct {
		name  string
		money *quantity.Money
	}{{"salt", c.Salt}, {"water", c.Water}, {"liquids", c.Additive}, {"labour", c.Labour}, {"driving", c.Driving}} {
		if part.money != nil {
			parts = append(parts, s.show("%s %v", part.name, *part.money))
		}
	}
	return quietUnless(len(parts) > 0, report.Figure{Key: "cost_parts", Label: "Of that", Value: report.Word(strings.Join(parts, ", "))})
}

// costFigures are the parts of the cost, and dry salt beside it.
func (s *setting) costFigures(c storm.Cost) []report.Figure {
	figures := []report.Figure{
		quiet(known(s, "cost_salt", "Salt", c.Salt)), quiet(known(s, "cost_water", "Water", c.Water)),
		quiet(known(s, "cost_additive", "Additive", c.Additive)), quiet(known(s, "cost_labour", "Labour", c.Labour)),
		quiet(known(s, "cost_driving", "Driving", c.Driving)),
		quiet(known(s, "cost_per_volume", "Cost of a volume", c.PerVolume)), quiet(known(s, "cost_per_lane", "Cost of a lane", c.PerLane)),
		quiet(s.figure("chloride_per_lane", "Chloride on a lane", c.ChloridePerLane)),
		quiet(report.Figure{Key: "chloride_per_area", Label: "Chloride on an area", Value: s.perArea(c.ChloridePerArea)}),
	}
	dry := known(s, "cost_dry_salt", "Dry salt on the same lanes", c.DrySalt)
	if c.DrySalt != nil {
		dry.Value.Text = s.show("%v for salt alone, with %v of chloride", *c.DrySalt, c.DrySaltChloride)
	}
	return append(figures, dry, quiet(s.figure("chloride_dry_salt", "Its chloride", c.DrySaltChloride)))
}

// latestLabel says what the latest start is for.
func latestLabel(pr storm.Production) string {
	if pr.Late {
		return "For all of it, begin by"
	}
	return "Begin at the latest"
}

// perArea shows kg/m2 in the units of the trade.
func (s *setting) perArea(kg float64) report.Value {
	x, unit := kg*float64(quantity.Acre)/float64(quantity.Pound), "lb/acre"
	if s.system == quantity.Metric {
		x, unit = kg*1e4, "kg/ha"
	}
	return report.Number(x, unit, fmt.Sprintf("%.1f %s", x, unit))
}

func (s *setting) stormTables(low quantity.Temperature, p storm.Plan) []report.Table {
	routes := report.Table{Key: "routes", Title: "Routes, in the order in which they are served", Columns: []report.Column{
		{Key: "route", Label: "Route"}, {Key: "liquid", Label: "Liquid"}, {Key: "lane_length", Label: "Lanes"},
		{Key: "demanded", Label: "Wanted"}, {Key: "served", Label: "Gets"}, {Key: "lacks", Label: "Lacks"},
	}}
	for _, r := range p.Routes {
		routes.Rows = append(routes.Rows, []report.Value{
			report.Word(r.Route.Name), report.Word(r.Route.Liquid), s.value(r.LaneLength), s.value(r.Demanded), s.value(r.Served), report.Word(lackWords(r.Lack)),
		})
	}
	cold := report.Table{Key: "cold", Title: s.show("At the low of %v", low), Columns: []report.Column{
		{Key: "liquid", Label: "Liquid"}, {Key: "first_solid_temp", Label: "First solid"}, {Key: "clear", Label: "Clear"},
		{Key: "melts", Label: "Melts"}, {Key: "diluted", Label: "Refreezes at"}, {Key: "practice", Label: "In practice"},
	}}
	for _, c := range p.Cold {
		melts, diluted := report.Nothing(c.PerVolume.In(s.system).Unit, "-"), report.Nothing("%", "-")
		if c.PerVolume > 0 {
			melts, diluted = s.value(c.PerVolume), s.value(c.Diluted)
		}
		first := s.shortSolid(c.First)
		cold.Rows = append(cold.Rows, []report.Value{report.Word(c.Liquid), first, report.Word(yesNo(c.Clear)), melts, diluted, report.Word(yesNo(p.Practice))})
	}
	tables := []report.Table{routes, s.supplyTable(p)}
	if len(p.Liquids) > 0 {
		tables = append(tables, s.liquidsTable(p))
	}
	if len(p.Loading.Trucks) > 0 {
		tables = append(tables, s.trucksTable(p))
	}
	return append(append(tables, cold), s.timeTables(p)...)
}

// liquidsText is what the routes take of bought liquids.
func (s *setting) liquidsText(p storm.Plan) string {
	var words []string
	for _, l := range p.Liquids {
		words = append(words, s.show("%s, %v of %v", l.Name, l.Wanted, l.OnHand))
	}
	return strings.Join(words, "; ")
}

// liquidsTable compares what the routes take of bought liquids with what there is.
func (s *setting) liquidsTable(p storm.Plan) report.Table {
	t := report.Table{Key: "liquids", Title: "Liquids that are not made here", Columns: []report.Column{
		{Key: "liquid", Label: "Liquid"}, {Key: "wanted", Label: "Wanted"}, {Key: "on_hand", Label: "There is"}, {Key: "short", Label: "Short"},
	}}
	for _, l := range p.Liquids {
		t.Rows = append(t.Rows, []report.Value{report.Word(l.Name), s.value(l.Wanted), s.value(l.OnHand), s.value(max(0, l.Wanted-l.OnHand))})
	}
	t.Long = !slices.ContainsFunc(p.Liquids, func(l storm.LiquidNeed) bool { return l.Wanted > l.OnHand })
	return t
}

// trucksTable sums up each truck's night.
func (s *setting) trucksTable(p storm.Plan) report.Table {
	t := report.Table{Key: "trucks", Title: "Trucks", Columns: []report.Column{
		{Key: "truck", Label: "Truck"}, {Key: "loads", Label: "Loads"}, {Key: "volume", Label: "Carries"},
		{Key: "first_out", Label: "First out"}, {Key: "last_out", Label: "Last out"}, {Key: "back", Label: "Back"},
	}}
	for _, d := range p.Loading.Trucks {
		t.Rows = append(t.Rows, []report.Value{
			report.Word(d.Truck), s.value(quantity.Count(d.Loads)), s.value(d.Volume),
			timeValue(d.FirstOut, true), timeValue(d.LastOut, true), timeValue(d.Back, true),
		})
	}
	return t
}

// shortSolid is when a solid forms, and whether it is ice or salt; or how far down none
// is known.
func (s *setting) shortSolid(o solution.Onset) report.Value {
	if !o.Found {
		none := "none"
		if o.Temperature > solution.Floor {
			none = s.show("none to %v", temperatureOf(o))
		}
		return report.Nothing(quantity.Temperature(0).In(s.system).Unit, none)
	}
	v := s.onset("", "", o).Value
	v.Text = s.show("%v %s", temperatureOf(o), solidKind(o.Solid))
	return v
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// supplyTable lists what stands in store, and what it needs.
func (s *setting) supplyTable(p storm.Plan) report.Table {
	t := report.Table{Key: "supply", Title: "In store", Columns: []report.Column{
		{Key: "where", Label: "Where"}, {Key: "liquid", Label: "Liquid"}, {Key: "usable", Label: "Usable"},
		{Key: "strength", Label: "Strength"}, {Key: "first_solid_temp", Label: "First solid"}, {Key: "clear", Label: "Clear"}, {Key: "needs", Label: "Needs"},
	}}
	for _, l := range p.Supply {
		strength, needs := report.Nothing("%", "-"), report.Word("nothing")
		if l.Strength > 0 {
			strength = s.value(l.Strength)
		}
		if l.Fix != nil {
			needs = report.Word("correction")
		}
		t.Rows = append(t.Rows, []report.Value{report.Word(l.Where), report.Word(l.Liquid), s.value(l.Usable), strength, s.shortSolid(l.First), report.Word(yesNo(l.Clear)), needs})
	}
	return t
}

// timeTables are the jobs and loads: text has the time line.
func (s *setting) timeTables(p storm.Plan) []report.Table {
	jobs := report.Table{Key: "jobs", Title: "Jobs", Long: true, Columns: []report.Column{
		{Key: "job", Label: "Job"}, {Key: "tank", Label: "Tank"}, {Key: "start", Label: "From"}, {Key: "end", Label: "To"}, {Key: "volume", Label: "Volume"},
	}}
	for _, j := range p.Production.Jobs {
		jobs.Rows = append(jobs.Rows, []report.Value{
			report.Word(string(j.Kind)), report.Word(j.What), timeValue(j.Start, true), timeValue(j.End, true), s.value(j.Volume),
		})
	}
	loads := report.Table{Key: "loads", Title: "Loads", Long: true, Columns: []report.Column{
		{Key: "truck", Label: "Truck"}, {Key: "route", Label: "Route"}, {Key: "volume", Label: "Load"},
		{Key: "start", Label: "At the pump"}, {Key: "out", Label: "Out"}, {Key: "back", Label: "Back"},
	}}
	for _, l := range p.Loading.Loads {
		loads.Rows = append(loads.Rows, []report.Value{
			report.Word(l.Truck), report.Word(l.Route), s.value(l.Volume), timeValue(l.Start, true), timeValue(l.Out, true), timeValue(l.Back, true),
		})
	}
	return []report.Table{jobs, loads}
}

const lineWidth = 60

// timeLine draws water and pump from the first job to the last load: f fill, m mix, p
// pump off, l load.
func timeLine(r storm.Request, p storm.Plan) []string {
	end := max(r.Start, p.Loading.LastOut)
	span := float64(end - r.Now)
	if span <= 0 || len(p.Production.Jobs)+len(p.Loading.Loads) == 0 {
		return nil
	}
	water, pump := []byte(strings.Repeat(".", lineWidth)), []byte(strings.Repeat(".", lineWidth))
	draw := func(line []byte, from, to quantity.Duration, mark byte) {
		a := int(float64(from-r.Now) / span * lineWidth)
		b := max(a+1, int(math.Round(float64(to-r.Now)/span*lineWidth)))
		for i := a; i < min(b, lineWidth); i++ {
			line[i] = mark
		}
	}
	for _, j := range p.Production.Jobs {
		switch j.Kind {
		case storm.JobFill:
			draw(water, j.Start, j.End, 'f')
		case storm.JobMix:
			draw(pump, j.Start, j.End, 'm')
		default:
			draw(pump, j.Start, j.End, 'p')
		}
	}
	for _, l := range p.Loading.Loads {
		draw(pump, l.Start, l.Out, 'l')
	}
	scale := []byte(strings.Repeat(" ", lineWidth+6))
	for i := range 5 {
		at := r.Now + quantity.Duration(span*float64(i)/4)
		copy(scale[min(i*lineWidth/4, lineWidth-1):], hourText(at))
	}
	return []string{
		"Time line: f fill, m mix, p pump off, l load",
		"  water " + string(water), "  pump  " + string(pump), "        " + strings.TrimRight(string(scale), " "),
	}
}

// stormNote is a note that a plan has on a condition.
type stormNote struct {
	holds bool
	text  string
}

// stormNotes are those that hold, in this order.
func stormNotes(s *setting, r storm.Request, p storm.Plan) []string {
	pr := p.Production
	rules := []stormNote{
		{true, "Rates are the agency's to set; priorities and passes are those of the yard and storm files."},
		{p.Better != nil, s.betterNote(r, p.Better)},
		{!p.Practice, s.show("Below %v of pavement liquids are out of practice (MN field handbook; MaineDOT: plow only).", storm.ColdestPavement())},
	}
	for _, l := range p.Supply {
		rules = append(rules, s.supplyNotes(r, l)...)
	}
	rules = append(rules, []stormNote{
		{len(r.Trucks) == 0, "The yard file has no trucks, so loading is not planned."},
		{len(p.Loading.Loads) > 0 && p.Loading.LastOut > r.Start, s.show("Trucks load until %s; an earlier --start ends sooner.", clockText(p.Loading.LastOut, true))},
		{pr.InMixers > 0, s.show("%v of brine have no room in storage: load them from the mixers.", pr.InMixers)},
		{r.Pile.OnHand == nil, "The yard file does not say what the salt pile holds (salt.pile), so salt is taken to suffice."},
		{p.Cost.Missing, "Some prices are not known, so the cost is that of the rest."},
		{len(pr.Jobs) > 0, s.show("The pump works %v on batches and waits %v for water; one tank fills, and one is pumped, at a time.",
			pr.PumpTime, pr.IdleFirst+pr.IdleLater)},
	}...)
	var notes []string
	for _, n := range rules {
		if n.holds {
			notes = append(notes, n.text)
		}
	}
	return notes
}

// betterNote proposes a blend that melts more, where there is one.
func (s *setting) betterNote(r storm.Request, b *storm.BetterBlend) string {
	if b == nil {
		return ""
	}
	text := s.show("At %v, %v of %s in the brine would melt %v instead of %v", r.Low, b.Share, b.Additive, b.PerVolume, b.Before)
	if b.DropsSalt {
		text += s.show(", but salt falls out of that in a tank below %v: meter it in as you load", temperatureOf(b.SaltOut))
	}
	return text + "."
}

// supplyNotes are about what stands in store.
func (s *setting) supplyNotes(r storm.Request, l storm.SupplyLine) []stormNote {
	fix := ""
	if l.Fix != nil {
		fix = s.show("Tank %s is out of the band and left out until corrected: %s.", l.Where, s.steps(*l.Fix))
	}
	return []stormNote{
		{!l.Clear && !l.First.Found, s.show("%s (%s): its data sheet ends at %v, above the low of %v.", l.Where, l.Liquid, temperatureOf(l.First), r.Low)},
		{!l.Clear && l.First.Found, s.show("%s (%s): %s forms in it at %v, above the low of %v; what the low makes of it, freeze --liquid says.",
			l.Where, l.Liquid, solidKind(l.First.Solid), temperatureOf(l.First), r.Low)},
		{fix != "", fix},
	}
}
