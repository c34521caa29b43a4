package cli

import (
	"math"
	"strconv"

	"brineyard/internal/brine"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type checkOptions struct {
	tank       *tankFlags
	instrument *readingFlags
	temp       *input[quantity.Temperature]
	to         *input[quantity.Strength]
	low, high  *input[quantity.Strength]
	agent      *agentFlags
	record     *recordFlags
	gate       bool
}

func newCheck(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "check",
		Short: "May this tank be pumped, and if not, what corrects it",
		Long: "check judges a tank by the true strength behind its reading. When it is not to\n" +
			"be pumped, it says what to add, whether that fits, and what the instrument\n" +
			"shows at this temperature when it is right.",
		Example: "  brineyard check --volume 500gal --hydrometer 23.3% --temp 40F\n" +
			"  brineyard check --tank mixer --sg 1.185 --temp 12C",
		Args: noArguments,
	}, &checkOptions{})
}

// flags defines the flags.
func (o *checkOptions) flags(f *pflag.FlagSet) {
	o.tank = addTankFlags(f, "brine in the tank; the yard file's usual volume unless given")
	o.instrument = addReadingFlags(f)
	o.temp = temperatureFlag(f, "temp", "temperature of the sample; required")
	o.to = strengthFlag(f, "to", "target")
	o.low = strengthFlag(f, "low", "lowest true strength that may be pumped")
	o.high = strengthFlag(f, "high", "highest true strength that may be pumped")
	o.agent = addAgentFlags(f)
	o.record = addRecordFlags(f)
	f.BoolVar(&o.gate, "gate", false, "exit with status 3 when the tank is not to be pumped")
}

// ask answers them.
func (o *checkOptions) ask(s *setting, _ []string) (reply, error) {
	r, err := o.request(s)
	if err != nil {
		return reply{}, err
	}
	c, err := brine.Check(r)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	e := readingEntry(o.tank.name.value, c.Reading)
	e.Note = c.Decision.String()
	d := checkDocument(s, r, c)
	d.Next = s.afterCheck(o.tank.name.value, c.Decision)
	a := reply{document: d, record: o.record, entries: []journal.Entry{e}}
	if o.gate && c.Decision != yard.MayPump {
		a.end = errHeld
	}
	return a, nil
}

func (o *checkOptions) request(s *setting) (brine.CheckRequest, error) {
	r := brine.CheckRequest{}
	err := o.record.check(o.tank.name.value)
	if err != nil {
		return r, err
	}
	if r.Sample, err = o.instrument.sample(s, o.temp); err != nil {
		return r, err
	}
	tank, volume, capacity, err := o.tank.tank(s)
	if err != nil {
		return r, err
	}
	r.Volume, r.Capacity, r.Bed = volume, capacity, tank.Bed
	if r.With, r.Stock, r.RockSalt, err = o.agent.agent(s); err != nil {
		return r, err
	}
	r.Band = s.band(o.to, o.low, o.high)
	return r, nil
}

func checkDocument(s *setting, r brine.CheckRequest, c brine.CheckResult) *report.Document {
	fix := c.Correction
	if c.Decision == yard.MayPump {
		// Nothing need be added; what would bring it to target is a note.
		fix = brine.Correction{Final: r.Volume, Strength: c.Reading.True, Reading: r.Sample.Reading}
	}
	q := r.Correction(c)
	d := &report.Document{
		Command:  "check",
		Title:    "Tank check",
		Verdict:  checkVerdict(s, r, c),
		Notes:    append(checkNotes(s, r, c), correctionNotes(s, q, fix)...),
		Cautions: append(correctionCautions(fix), pumpCautions(c)...),
	}
	d.Figures = append(d.Figures, s.figure("volume", "Brine in the tank", r.Volume))
	d.Figures = append(d.Figures, quiet(report.Figure{Key: "decision", Label: "Decision", Value: report.Word(c.Decision.String())}))
	for _, f := range s.correctionFigures(q, fix) {
		f.Quiet = f.Quiet || c.Decision == yard.MayPump
		d.Figures = append(d.Figures, f)
	}
	d.Figures = append(d.Figures, s.bandFigures(r, c)...)
	d.Figures = append(d.Figures, s.readingFigures(c.Reading)...)
	d.Figures = append(d.Figures, s.freezing(c.Reading.Freezing)...)
	d.Working = readingWorking(s, c.Reading)
	if c.Decision != yard.MayPump {
		d.Working = append(d.Working, correctWorking(s, q, fix)...)
		d.Working = append(d.Working, expectedWorking(s, q.Instrument, fix.Strength, q.Temperature, fix.Reading)...)
	}
	return d
}

// bandFigures are the readings between which this tank may be pumped now. As printed
// they are rounded inward, so that a reading on either is in the band.
func (s *setting) bandFigures(r brine.CheckRequest, c brine.CheckResult) []report.Figure {
	low, high := brine.OnScale(r.Sample.Instrument, c.LowReading), brine.OnScale(r.Sample.Instrument, c.HighReading)
	span := s.figure("low_reading", s.show("Readings to pump at, at %v", r.Sample.Temperature), low)
	span.Value.Text = s.inward(low, 1) + " to " + s.inward(high, -1)
	return []report.Figure{
		quiet(s.figure("target", "Target", r.Band.Target)),
		quiet(s.figure("low", "Lowest to pump", r.Band.Low)),
		quiet(s.figure("high", "Highest to pump", r.Band.High)),
		span,
		quiet(s.figure("high_reading", "Highest reading to pump at", high)),
	}
}

// inward shows a quantity rounded up (way 1) or down (way -1) in its last digit.
func (s *setting) inward(q quantity.Quantity, way float64) string {
	shown := q.In(s.system)
	unit := math.Pow(10, -float64(quantity.Decimals(shown.Digits())))
	if rounded := math.Round(shown.Value/unit) * unit; way*(rounded-shown.Value) < -1e-9*unit {
		shown.Words = quantity.Fixed(rounded+way*unit, quantity.Decimals(shown.Digits()))
	}
	return shown.String()
}

// checkVerdict is the one sentence of the command: the decision; whether the
// reading alone would have misled; what to do, and what to look for then.
func checkVerdict(s *setting, r brine.CheckRequest, c brine.CheckResult) string {
	finding := s.finding(r, c)
	if c.Decision == yard.MayPump {
		return s.show("Pump: %s, within %v to %v.", finding, r.Band.Low, r.Band.High)
	}
	limit := s.show("too strong (above %v)", r.Band.High)
	if c.Decision == yard.TooWeak {
		limit = s.show("too weak (below %v)", r.Band.Low)
	}
	do := s.show("to its %v %s", r.Volume, s.steps(c.Correction))
	if r.Bed > 0 && c.Decision == yard.TooWeak {
		do = "circulate over its bed and read again; if it stays so, " + do
	}
	if c.Correction.DrawOffFirst > 0 {
		do = s.show("of its %v %s", r.Volume, s.steps(c.Correction))
	}
	return s.show("Do not pump: %s, %s; %s, mix, and look for %v on %s at %v.",
		finding, limit, do, brine.OnScale(r.Sample.Instrument, c.ReadingWanted),
		scaleWords[r.Sample.Instrument.Scale], r.Sample.Temperature)
}

// naiveWords say how the reading looks without the thermometer.
var naiveWords = map[yard.Decision]string{yard.MayPump: "right", yard.TooStrong: "too strong", yard.TooWeak: "too weak"}

// finding states the true strength, with a warning where the reading misleads.
func (s *setting) finding(r brine.CheckRequest, c brine.CheckResult) string {
	if c.Misled() {
		return s.show("%s's %v looks %s, but at %v it is %v true", scaleWords[r.Sample.Instrument.Scale],
			r.Sample.Shown(), naiveWords[c.Naive], r.Sample.Temperature, s.strengthBeside(c.Reading.True, r.Band))
	}
	return s.show("%v true strength at %v", s.strengthBeside(c.Reading.True, r.Band), r.Sample.Temperature)
}

// strengthBeside shows a strength with as many digits as tell it from the ends of
// the band.
func (s *setting) strengthBeside(w quantity.Strength, b yard.Band) string {
	for _, end := range []quantity.Strength{b.Low, b.High} {
		if w != end && w.In(s.system).Digits() == end.In(s.system).Digits() {
			return strconv.FormatFloat(100*float64(w), 'f', 4, 64) + "%"
		}
	}
	return w.In(s.system).String()
}

func checkNotes(s *setting, r brine.CheckRequest, c brine.CheckResult) []string {
	var notes []string
	if c.Decision == yard.MayPump && c.Correction.Additive != brine.AnyAdditive {
		notes = append(notes, s.show("It need not be exactly %v; that would take: %s.", r.Band.Target, s.steps(c.Correction)))
	}
	first, target := c.Reading.Freezing.First(), c.TargetSolid
	if c.Decision != yard.MayPump && first.Found && target.Found {
		notes = append(notes, s.show("As it stands the first %s comes at %v; on target nothing forms above %v.",
			solidKind(first.Solid), temperatureOf(first), temperatureOf(target)))
	}
	if r.Bed > 0 && c.Decision != yard.MayPump {
		notes = append(notes, s.show("A bed of about %v of salt is kept in this tank: circulate and read again before adding anything, since it goes on dissolving.", r.Bed))
	}
	if c.Decision == yard.MayPump && r.With != brine.AnyAdditive {
		notes = append(notes, "Nothing need be added, so --with was left aside.")
	}
	if c.Reading.Clamped {
		notes = append(notes, s.show("The reading lies just beyond what brine at %v can show; it was taken as %v.", r.Sample.Temperature, c.Reading.True))
	}
	if c.Reading.Solid {
		notes = append(notes, s.show("Brine this strong is part solid at %v: stir, let the sample clear, and read again.", r.Sample.Temperature))
	}
	return append(notes, densityNotes(s, c.Reading.True, r.Sample.Temperature)...)
}

// pumpCautions go with a tank that may be pumped.
func pumpCautions(c brine.CheckResult) []string {
	if c.Decision != yard.MayPump {
		return nil
	}
	return []string{cautionPump, cautionLocal}
}
