package tank

import (
	"strconv"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/sure"
	"brineyard/internal/yard"
)

var checkCommand = run.Command{
	Screen: true,
	Use:    "check [TANK READING TEMPERATURE]",
	Short:  "May this tank be pumped, and if not, what corrects it",
	Long: "check judges a tank by the true strength behind its reading. When the answer\n" +
		"is no, it says what to add. It says whether that fits. It says what the\n" +
		"instrument shows when the tank is right. With a yard file three words do, like\n" +
		"check mixer 23.5 38.",
	Example: "  brineyard check --volume 500gal --hydrometer 23.3% --temp 40F\n" +
		"  brineyard check --tank mixer --sg 1.185 --temp 12C\n" +
		"  brineyard check mixer 23.5 38",
	New:  func() run.Question { return &check{} },
	Rows: true,
}

type check struct {
	request brine.CheckRequest
	tank    bind.Tank
	record  run.Record
	gate    bool
}

// Bind binds the request.
func (q *check) Bind(b *bind.Set) {
	r := &q.request
	bind.Spoken(b, "mixer 23.5 38", "tank", bind.AReading, "temp")
	q.record.Bind(b, q.tank.Known, run.NeedsTank)
	q.tank.Bind(b, &r.Volume, &r.Capacity, "brine in the tank; the yard file's usual volume unless given")
	new(bind.Reading).BindSample(b, &r.Sample, "temperature of the sample; required")
	bind.Additive(b, &r.With, &r.Stock, &r.RockSalt)
	bind.Band(b, &r.Band)
	bind.Switch(b, &q.gate, "gate", "exit with status 3 when the tank is not to be pumped")
}

// Answer judges the tank.
func (q *check) Answer(s *run.Session) (run.Reply, error) {
	r := q.request
	r.Bed, r.VolumeHalf = q.tank.Is.Bed, q.tank.Stick.Half()
	c, from, doubt, err := q.check(s, &r)
	if err != nil {
		return run.Reply{}, err
	}
	r.Sample = c.Reading.Sample // of several samples, the mean
	entry := run.ReadingEntry(q.tank.Name, c.Reading)
	entry.Note = c.Decision.String()
	reply := run.Reply{
		Figures: checkFigures(s.View, r, c),
		Words: func(d *report.Document) {
			q.words(s.View, d, r, c)
			d.Doubts = append(show.Said(doubt), d.Doubts...)
			if corrects(c) {
				d.Doubts = append(d.Doubts, show.Said(saltInStorage(q.tank.Is, q.request.With, c.Correction))...)
				q.storageWords(s, d, r, c)
			}
			if from.tank != "" && c.Decision != yard.MayPump {
				d.Doubts = append(d.Doubts, from.note(s.View, c.Correction))
			}
			d.Next = afterCheck(s.Yard, q.tank.Name, c.Decision)
		},
		Working: func() []report.Step { return checkWorking(s.View, r, c) },
		Record:  &q.record, Entries: []journal.Entry{entry},
	}
	if q.gate && c.Decision != yard.MayPump {
		reply.End = run.ErrHold
	}
	return reply, nil
}

// check judges the tank. Where stock is to correct it and none was named, the yard's is looked for. With --gate an additive
// that cannot correct it is no reason to say nothing: the tank is held all the same, and the doubt says why not that one.
func (q *check) check(s *run.Session, r *brine.CheckRequest) (c brine.CheckResult, from stored, doubt string, err error) {
	free := *r
	free.With, free.Stock = brine.AnyAdditive, 0
	c, err = brine.Check(free)
	if err != nil || r.With == brine.AnyAdditive || c.Decision == yard.MayPump || c.Decision == yard.OnTheEdge {
		r.With, r.Stock = brine.AnyAdditive, 0
		if err == nil {
			r.With = q.request.With // which is named as left aside
		}
		return c, from, "", err
	}
	if r.With == brine.AddStock && r.Stock == 0 {
		from, err = stockFor(s, q.tank.Name, r.Correction(c))
		r.Stock = from.strength
	}
	if err == nil {
		var asked brine.CheckResult
		if asked, err = brine.Check(*r); err == nil {
			return asked, from, "", nil
		}
	}
	if !q.gate {
		return c, from, "", err
	}
	doubt = "What was asked to be added cannot correct it, so something else is named here."
	r.With, r.Stock = brine.AnyAdditive, 0
	return c, stored{}, doubt, nil
}

// corrects reports whether something is added on the reading.
func corrects(c brine.CheckResult) bool {
	return c.Decision == yard.TooWeak || c.Decision == yard.TooStrong
}

// fix is the correction that is shown: for a tank that may be pumped nothing need be added,
// and what would bring it to target is a note; on the edge nothing is added on this reading.
func fix(r brine.CheckRequest, c brine.CheckResult) brine.Correction {
	if !corrects(c) {
		return brine.Correction{Final: r.Volume, Strength: c.Reading.True, Reading: c.Reading.Sample.Reading, Share: brine.Span[float64]{Low: 1, High: 1}}
	}
	return c.Correction
}

func checkFigures(v show.View, r brine.CheckRequest, c brine.CheckResult) []report.Figure {
	off := sure.Inside * r.VolumeHalf
	figures := append(show.Ranged(v, v.Figure("volume", "Brine in the tank", r.Volume), r.Volume-off, r.Volume+off),
		show.Quiet(report.Figure{Key: "decision", Label: "Decision", Value: report.Word(c.Decision.String())}))
	for _, f := range v.CorrectionFigures(r.Correction(c), fix(r, c)) {
		f.Quiet = f.Quiet || !corrects(c)
		figures = append(figures, f)
	}
	figures = append(figures,
		show.QuietUnless(c.Safe.Additive == brine.AddWater, v.Figure("safe_water", "Water that is safe either way", c.Safe.Water)),
		show.QuietUnless(c.Safe.Additive == brine.AddSalt, v.Figure("safe_salt", "Salt that is safe either way", c.Safe.Salt)),
		show.Quiet(v.Figure("safe_volume", "Comes to then", c.Safe.Final)))
	figures = append(figures, bandFigures(v, r, c)...)
	for _, f := range v.ReadingFigures(c.Reading) {
		f.Detail = f.Key != "true_strength"
		figures = append(figures, f)
	}
	return append(figures, show.Detail(v.Freezing(c.Reading.Freezing)...)...)
}

func (q *check) words(v show.View, d *report.Document, r brine.CheckRequest, c brine.CheckResult) {
	fix := fix(r, c)
	d.Title, d.Verdict, d.Brief = "Tank check", checkVerdict(v, r, c, q.tank.Source(v)), checkBrief(v, r, c)
	if c.Decision != yard.MayPump {
		d.Doubts = show.Said(q.tank.DoubtBy(v, c.Reading.True))
	}
	if c.Decision == yard.MayPump {
		d.Doubts = append(d.Doubts, show.Said(crossesNote(v, r, c))...)
	}
	d.Notes = append(append(d.Notes, checkNotes(v, r, c)...), v.CorrectionNotes(r.Correction(c), fix)...)
	d.Cautions = append(show.CorrectionCautions(fix), pumpCautions(c)...)
}

// storageWords put a move in the verdict of a weak storage tank in the place of salt.
func (q *check) storageWords(s *run.Session, d *report.Document, r brine.CheckRequest, c brine.CheckResult) {
	move := moveFromStorage(s.Yard, q.tank.Is, q.request.With, c.Correction)
	if move == "" {
		return
	}
	v := s.View
	d.Verdict = v.Say("Do not pump: %s, too weak (below %v); its %v%s lack %v of salt, which does not dissolve on the floor of a storage tank: %s.",
		finding(v, r, c), r.Band.Low, r.Volume, q.tank.Source(v), c.Correction.Salt, move)
	d.Brief = v.Say("Do not pump: %s true, too weak; %s.", strengthBeside(v, c, r.Band), move)
}

// checkWorking goes from the reading to the correction, if one is needed.
func checkWorking(v show.View, r brine.CheckRequest, c brine.CheckResult) []report.Step {
	steps := derive.Reading(v, c.Reading)
	switch {
	case c.Safe.Additive != brine.AnyAdditive:
		return append(steps, derive.Correct(v, c.SafeFor, c.Safe)...)
	case !corrects(c):
		return steps
	}
	q := r.Correction(c)
	steps = append(steps, derive.Correct(v, q, c.Correction)...)
	steps = append(steps, derive.Amount(v, c.Correction)...)
	return append(steps, derive.Expected(v, q.Instrument, c.Correction.Strength, q.Temperature)...)
}

// bandFigures are the readings between which this tank may be pumped now. As printed
// they are rounded inward, so that a reading on either is in the band.
func bandFigures(v show.View, r brine.CheckRequest, c brine.CheckResult) []report.Figure {
	low, high := v.Marked(r.Sample.Instrument, c.LowReading), v.Marked(r.Sample.Instrument, c.HighReading)
	span := v.Figure("low_reading", v.Say("Readings to pump at, at %v", c.Reading.Temperature), low)
	span.Value.Text = v.Inward(low, 1) + " to " + v.Inward(high, -1)
	return []report.Figure{
		show.Quiet(v.Figure("target", "Target", r.Band.Target)),
		show.Quiet(v.Figure("low", "Lowest to pump", r.Band.Low)),
		show.Quiet(v.Figure("high", "Highest to pump", r.Band.High)),
		span,
		show.Quiet(v.Figure("high_reading", "Highest reading to pump at", high)),
	}
}

// checkVerdict is the one sentence of the command: the decision; whether the
// reading alone would have misled; what to do, and what to look for then. Source says who said
// what stands in the tank.
func checkVerdict(v show.View, r brine.CheckRequest, c brine.CheckResult, source string) string {
	finding := finding(v, r, c)
	if c.Decision == yard.MayPump {
		return v.Say("Pump: %s, within %v to %v.", finding, r.Band.Low, r.Band.High)
	}
	if c.Decision == yard.OnTheEdge {
		return edgeVerdict(v, r, c, finding)
	}
	limit := v.Say("too strong (above %v)", r.Band.High)
	if c.Decision == yard.TooWeak {
		limit = v.Say("too weak (below %v)", r.Band.Low)
	}
	do := v.Say("to its %v%s %s", r.Volume, source, v.CorrectionSteps(c.Correction))
	if c.Correction.DrawOffFirst > 0 {
		do = v.Say("of its %v%s %s", r.Volume, source, v.CorrectionSteps(c.Correction))
	}
	if r.Bed > 0 {
		do = overBed(c.Decision) + do
	}
	return v.Say("Do not pump: %s, %s; %s, mix, and look for %v on %s at %v.",
		finding, limit, do, v.Marked(r.Sample.Instrument, c.ReadingWanted),
		r.Sample.Instrument.Scale.Words(), c.Reading.Temperature)
}

// checkBrief is the verdict in the words of a text message.
func checkBrief(v show.View, r brine.CheckRequest, c brine.CheckResult) string {
	strength := strengthBeside(v, c, r.Band)
	switch c.Decision {
	case yard.MayPump:
		return v.Say("Pump: %s true at %v.", strength, c.Reading.Temperature)
	case yard.OnTheEdge:
		return v.Say("On the edge: %s true at %v; add nothing, read again with a finer instrument.", strength, c.Reading.Temperature)
	}
	return v.Say("Do not pump: %s true, %s; %s, then look for %v at %v.", strength, c.Decision, v.CorrectionSteps(c.Correction),
		v.Marked(r.Sample.Instrument, c.ReadingWanted), c.Reading.Temperature)
}

// overBed says what comes first in a tank that keeps salt on its floor. Weak brine gains on it: it is pumped round and read
// again. Strong brine would go on gaining: it comes off the bed, and is never pumped round over it.
func overBed(d yard.Decision) string {
	if d == yard.TooWeak {
		return "circulate over its bed and read again; if it stays so, "
	}
	return "take it off the bed at once, and never circulate over it; then "
}

// edgeVerdict says that the reading does not decide, what does, and what is safe either way.
func edgeVerdict(v show.View, r brine.CheckRequest, c brine.CheckResult, finding string) string {
	limit := v.Say("just below %v", r.Band.Low)
	if c.Best == yard.TooStrong {
		limit = v.Say("just above %v", r.Band.High)
	}
	text := v.Say("On the edge: %s, %s, so this reading does not decide. Add nothing on it: a finer or a second instrument does, or a weighed sample", finding, limit)
	if c.Safe.Additive == brine.AnyAdditive {
		return text + "."
	}
	if r.Bed > 0 && c.Safe.Additive == brine.AddSalt {
		return text + "; over its bed, circulate and read again."
	}
	return text + v.Say("; safe either way: %s.", v.CorrectionSteps(c.Safe))
}

// finding states the true strength, with a warning where the reading misleads.
func finding(v show.View, r brine.CheckRequest, c brine.CheckResult) string {
	span := ""
	if !c.Reading.Sure.Exact() {
		span = v.Say(" (%s)", v.TrueRange(c.Reading))
	}
	switch {
	case len(c.Reading.Singles) > 0:
		return v.Say("%v true strength%s, the mean of %d samples", strengthBeside(v, c, r.Band), span, len(c.Reading.Singles))
	case c.Misled():
		return v.Say("%s's %v looks %s, but at %v it is %v true%s", r.Sample.Instrument.Scale.Words(),
			r.Sample.Shown(), naiveWords[c.Naive], r.Sample.Temperature, strengthBeside(v, c, r.Band), span)
	}
	return v.Say("%v true strength%s at %v", strengthBeside(v, c, r.Band), span, r.Sample.Temperature)
}

// strengthBeside shows the strength with the digits that are known of it; where the decision is sure, with
// as many as tell it from the ends of the band.
func strengthBeside(v show.View, c brine.CheckResult, b yard.Band) string {
	w, shown := c.Reading.True, v.True(c.Reading).In(v.System)
	for _, end := range []quantity.Strength{b.Low, b.High} {
		if c.Reading.Sure.Exact() && w != end && shown.Digits() == end.In(v.System).Digits() {
			return strconv.FormatFloat(100*float64(w), 'f', 4, 64) + "%"
		}
	}
	return shown.String()
}

// crossesNote says what a tank that is pumped may cost at the end of the range that lies outside the band.
func crossesNote(v show.View, r brine.CheckRequest, c brine.CheckResult) string {
	half := c.Reading.Half
	switch {
	case r.Band.Judge(c.Reading.Range.Low) == yard.TooWeak:
		if weak, err := brine.FirstSolid(c.Reading.Range.Low); err == nil && weak.Found {
			return v.Say("It may be as weak as %v: then the first %s comes at %v.", v.Sure(c.Reading.Range.Low, half), show.SolidKind(weak.Solid), show.TemperatureOf(weak))
		}
	case r.Band.Judge(c.Reading.Range.High) == yard.TooStrong:
		if strong, err := brine.FirstSolid(c.Reading.Range.High); err == nil && strong.Found {
			return v.Say("It may be as strong as %v: then the first %s comes at %v.", v.Sure(c.Reading.Range.High, half), show.SolidKind(strong.Solid), show.TemperatureOf(strong))
		}
	}
	return ""
}

func checkNotes(v show.View, r brine.CheckRequest, c brine.CheckResult) []string {
	var notes []string
	if c.Decision == yard.MayPump && c.Correction.Additive != brine.AnyAdditive {
		notes = append(notes, v.Say("To bring it to %v, %s; it may be pumped as it is.", r.Band.Target, v.CorrectionSteps(c.Correction)))
	}
	first, target := c.Reading.Freezing.First(), c.TargetSolid
	if c.Decision != yard.MayPump && first.Found && target.Found {
		notes = append(notes, v.Say("This brine forms %s at %v; on target it stays clear down to %v.",
			show.SolidKind(first.Solid), show.TemperatureOf(first), show.TemperatureOf(target)))
	}
	if r.Bed > 0 && corrects(c) {
		notes = append(notes, v.Say("A bed of about %v of salt lies in this tank and goes on dissolving.", r.Bed))
	}
	if !corrects(c) && r.With != brine.AnyAdditive {
		notes = append(notes, "Nothing is added on this reading, so --with was left aside.")
	}
	if c.Reading.Clamped {
		notes = append(notes, v.Say("The reading lies just beyond what brine at %v can show; it was taken as %v.", r.Sample.Temperature, c.Reading.True))
	}
	if c.Reading.Solid {
		notes = append(notes, v.Say("Brine this strong is part solid at %v: stir, let the sample clear, and read again.", r.Sample.Temperature))
	}
	return append(notes, v.DensityNotes(c.Reading.True, r.Sample.Temperature)...)
}

// pumpCautions go with a tank that may be pumped.
func pumpCautions(c brine.CheckResult) []string {
	if c.Decision != yard.MayPump {
		return nil
	}
	return []string{show.CautionPump, show.CautionLocal}
}

// naiveWords say how the reading looks without the thermometer.
var naiveWords = map[yard.Decision]string{yard.MayPump: "right", yard.TooStrong: "too strong", yard.TooWeak: "too weak"}
