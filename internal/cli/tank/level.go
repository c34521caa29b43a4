package tank

import (
	"math"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/level"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

var levelCommand = run.Command{
	Screen: true,
	Use:    "level [TANK DEPTH]",
	Short:  "Gallons from the stick, and what a pile weighs",
	Long: "level tells what stands in a tank at a depth on the stick. It goes by the\n" +
		"shape in the yard file, less the salt on the bed. --table prints the stick's\n" +
		"chart for the wall. --pile weighs a heap of salt.",
	Example: "  brineyard level --tank north --depth 42in\n" +
		"  brineyard level --pile --height 11ft --width 38ft --length 60ft",
	New:       func() run.Question { return &stick{} },
	NoWorking: "No working here: the level cuts a round wall; --table has its volumes.",
}

type stick struct {
	tank    yard.Tank
	name    string
	depth   bind.Stick
	bed     quantity.Mass
	asTable bool
	asPile  bool
	pile    level.PileRequest
	result  level.Result
	request level.Request
}

// Bind binds the tank with its depth, or the sizes of a pile.
func (q *stick) Bind(b *bind.Set) {
	bind.Spoken(b, "north 42in", "tank", "depth")
	bind.Switch(b, &q.asPile, "pile", "weigh a pile of salt: with --height, --width, and --length for a windrow")
	bind.Switch(b, &q.asTable, "table", "the chart of the stick, by inch or by centimeter")
	tank := bind.Name(b, &q.name, "tank", "`name` of a tank in the yard file", bind.TankNames)
	b.Then(func(s *bind.Scope) (err error) {
		q.tank = yard.Tank{}
		switch {
		case q.asPile && (tank.Given() || q.asTable):
			return fault.Refuse("--pile: a pile lies in no tank; allowed: without --tank and --table")
		case q.asPile:
			return nil
		case !tank.Given():
			none := fault.Refuse("which tank? allowed: --tank with a name from the yard file, or --pile")
			return b.LackOfTank(s, none, none)
		}
		q.tank, err = s.Tank("tank", q.name)
		return err
	})
	bed := bind.Of(b, bind.Mass, &q.bed, "bed", "undissolved salt on the floor; what the journal or the yard file says unless given")
	b.Then(func(*bind.Scope) error {
		if bed.Given() {
			q.tank.OnFloor = &q.bed
		}
		return nil
	})
	q.depth.Bind(b, "depth of the liquid on the stick", func() yard.Tank { return q.tank })
	b.Then(func(s *bind.Scope) error { return q.shaped(b, s) })
	q.bindPile(b)
}

// shaped refuses a tank without a depth, and one without a shape for its table.
func (q *stick) shaped(b *bind.Set, s *bind.Scope) error {
	switch {
	case q.asPile:
		return nil
	case !q.asTable && !q.depth.Given():
		return b.Lack(fault.Refuse("--depth is missing; allowed: like --depth 42in, or --table"), "How deep is it on the stick? "+bind.Like(s.System, "42in", "107cm"), "", "depth")
	case q.tank.Shape.Form == yard.Unshaped:
		return fault.Refuse("--tank %s: the yard file does not say what shape it has; allowed: with shape and sizes, or depths, in the file", words.Quoted(q.tank.Name))
	}
	return nil
}

func (q *stick) bindPile(b *bind.Set) {
	p := &q.pile
	height := bind.Of(b, bind.Depth, &p.Height, "height", "of the pile; from its width and the angle unless given")
	width := bind.Of(b, bind.Depth, &p.Width, "width", "of the pile at its foot; from its height and the angle unless given")
	length := bind.Of(b, bind.Depth, &p.Length, "length", "of a windrow at its foot; a cone unless given")
	b.Then(func(*bind.Scope) error {
		if !q.asPile && (height.Given() || width.Given() || length.Given()) {
			return fault.Refuse("--height, --width and --length are of a pile; allowed: with --pile")
		}
		return nil
	})
	bind.Kept(b, &p.Bulk, "density", bind.Key("salt.bulk_density", func(y *yard.Yard) quantity.BulkDensity { return y.Pile.Bulk }), bind.Default(level.UsualBulk))
	bind.Kept(b, &p.Angle, "angle", bind.Key("salt.angle", func(y *yard.Yard) quantity.Angle { return y.Pile.Angle }), bind.Default(level.UsualAngle))
}

// Answer tells the volume, the table, or the weight.
func (q *stick) Answer(s *run.Session) (run.Reply, error) {
	if q.asPile {
		return q.weigh(s)
	}
	q.result, q.request = q.depth.Result, bind.StickRequest(q.tank, q.depth.Depth())
	reply := run.Reply{Words: func(d *report.Document) {
		d.Title, d.Cautions = "Level of "+q.tank.Name, []string{show.CautionEntry, show.CautionLocal}
		d.Notes = q.notes(s.View)
		if q.asTable {
			d.Verdict = s.View.Say("The stick's chart of %s, up to %v.", q.tank.Name, q.tank.Capacity)
			d.Tables = q.tables(s.View)
			return
		}
		d.Verdict = s.View.Say("%v stand in %s at %v: %v to %v, as finely as the stick is marked.",
			q.result.Volume, q.tank.Name, q.depth.Depth(), q.result.Low, q.result.High)
		d.Next = "journal add count --tank " + words.Argument(q.tank.Name) + " --depth writes it down; check, correct and store take --depth too."
	}}
	if q.asTable {
		return reply, nil
	}
	v := s.View
	reply.Figures = []report.Figure{
		v.Figure("volume", "Liquid in the tank", q.result.Volume),
		v.Figure("volume_low", "At least, by the stick", q.result.Low), v.Figure("volume_high", "At most, by the stick", q.result.High),
		show.QuietUnless(q.result.BedVolume > 0, v.Figure("bed_volume", "Taken off for the salt on its bed", q.result.BedVolume)),
		v.Figure("per_step", stepLabel(v), q.stepMore(step(v))),
		v.Figure("room", "Room above it", max(0, q.tank.Capacity-q.result.Volume)),
	}
	reply.Working = func() []report.Step { return derive.Level(v, q.request, q.result) }
	return reply, nil
}

func stepLabel(v show.View) string {
	if v.System == quantity.Metric {
		return "A centimeter more is"
	}
	return "An inch more is"
}

// stepMore is what a step more would add.
func (q *stick) stepMore(by quantity.Depth) quantity.Volume {
	r := q.request
	r.Depth += by
	more, err := level.Calculate(r)
	if err != nil { // it is full
		return 0
	}
	return more.Volume - q.result.Volume
}

// step is that of the chart.
func step(v show.View) quantity.Depth {
	if v.System == quantity.Metric {
		return quantity.Centimeter
	}
	return quantity.Inch
}

func (q *stick) notes(v show.View) []string {
	var notes []string
	if q.tank.Shape.Division == 0 {
		notes = append(notes, v.Say("The stick is taken to be read to %v (common practice); stick in the yard file says how finely it is marked.", level.UsualDivision))
	}
	if q.request.Bed > 0 {
		notes = append(notes, v.Say("%v of salt on the bed take up room; brine fills their pores.", q.request.Bed))
	}
	if shape := q.tank.Shape; shape.Heads == yard.Torispherical && shape.HeadDepth > 0 {
		notes = append(notes, "A torispherical head has its own depth: head_depth is not heeded.")
	}
	return notes
}

// perRow is how many depths a row of the chart has.
const perRow = 4

// tables are the chart for people, in several columns, and for programs, in one.
func (q *stick) tables(v show.View) []report.Table {
	flat := report.Table{Key: "stick", Title: "Chart", Quiet: true, Columns: []report.Column{{Key: "depth", Label: "Depth"}, {Key: "volume", Label: "Holds"}}}
	for h := quantity.Depth(0); ; h += step(v) {
		at, err := level.Calculate(bind.StickRequest(q.tank, h))
		if err != nil || h > deepest {
			break
		}
		flat.Rows = append(flat.Rows, []report.Value{v.Value(h), v.Value(at.Volume)})
		if q.tank.Capacity > 0 && at.Volume >= q.tank.Capacity {
			break
		}
	}
	return []report.Table{q.wall(flat.Rows), flat}
}

// deepest ends the chart of a tank that nothing else ends.
const deepest = 15 // m

// wall lays the chart out for a wall: down the first columns, then down the next.
func (q *stick) wall(rows [][]report.Value) report.Table {
	t := report.Table{Key: "wall", Title: "What stands in " + q.tank.Name}
	for range perRow {
		t.Columns = append(t.Columns, report.Column{Key: "depth", Label: "Depth"}, report.Column{Key: "volume", Label: "Holds"})
	}
	down := int(math.Ceil(float64(len(rows)) / perRow))
	for i := range down {
		var line []report.Value
		for c := range perRow {
			if at := c*down + i; at < len(rows) {
				line = append(line, rows[at]...)
			} else {
				line = append(line, report.Nothing("", ""), report.Nothing("", ""))
			}
		}
		t.Rows = append(t.Rows, line)
	}
	return t
}

// roughly is a weight to two digits, as well as a pile is known.
func roughly(v show.View, m quantity.Mass) quantity.Mass {
	shown := m.In(v.System).Value
	if shown <= 0 {
		return m
	}
	scale := math.Pow(10, math.Floor(math.Log10(shown))-1)
	return m * quantity.Mass(math.Round(shown/scale)*scale/shown)
}

// weigh answers --pile.
func (q *stick) weigh(s *run.Session) (run.Reply, error) {
	p, err := level.Weigh(q.pile)
	if err != nil {
		return run.Reply{}, err
	}
	v, shape := s.View, "cone"
	if q.pile.Length > 0 {
		shape = "windrow"
	}
	return run.Reply{
		Figures: []report.Figure{
			v.Figure("mass", "Salt in the pile", p.Mass), v.Figure("bulk_density", "At a bulk density of", q.pile.Bulk),
			v.Figure("height", "Height", p.Height), v.Figure("width", "Width", p.Width), v.Figure("slope", "Slope", p.Slope),
		},
		Words: func(d *report.Document) {
			d.Title = "Weight of a pile"
			d.Verdict = v.Say("About %v of salt lie in that "+shape+", at %v.", roughly(v, p.Mass), q.pile.Bulk)
			d.Notes = []string{v.Say("Salt packs by a tenth more or less, wet or dry, fresh or old: weigh a bucket to know it better (common practice, no source).")}
			d.Cautions = []string{"Keep off a pile's face, and never under an overhang: salt slides.", show.CautionLocal}
		},
		Working: func() []report.Step { return derive.Pile(v, q.pile, p) },
	}, nil
}
