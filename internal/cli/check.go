package cli

import (
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/report"

	"github.com/spf13/cobra"
)

type checkOptions struct {
	tank       *tankFlags
	instrument *readingFlags
	temp       *input[quantity.Temperature]
	to         *input[quantity.Strength]
	low, high  *input[quantity.Strength]
	agent      *agentFlags
	gate       bool
}

func newCheck(env *Env, g *globals) *cobra.Command {
	o := &checkOptions{}
	cmd := &cobra.Command{
		Use:   "check",
		Short: "May this tank be pumped, and if not, what corrects it",
		Long: "check judges a tank by the true strength behind its reading. When it is not to be pumped, it says\n" +
			"what to add, whether that fits, and what the instrument shows at this temperature when it is right.",
		Example: "  brineyard check --volume 500gal --hydrometer 23.3% --temp 40F\n" +
			"  brineyard check --tank NAME --sg 1.185 --temp 12C",
		Args: noArguments,
		RunE: func(*cobra.Command, []string) error { return runCheck(env, g, o) },
	}
	f := cmd.Flags()
	o.tank = addTankFlags(f, "brine in the tank; the yard file's usual volume unless given")
	o.instrument = addReadingFlags(f)
	o.temp = temperatureFlag(f, "temp", "temperature of the sample; required")
	o.to = strengthFlag(f, "to", "target")
	o.low = strengthFlag(f, "low", "lowest true strength that may be pumped")
	o.high = strengthFlag(f, "high", "highest true strength that may be pumped")
	o.agent = addAgentFlags(f)
	f.BoolVar(&o.gate, "gate", false, "exit with status 3 when the tank is not to be pumped")
	return cmd
}

func runCheck(env *Env, g *globals, o *checkOptions) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	r, err := o.request(s)
	if err != nil {
		return err
	}
	c, err := brine.Check(r)
	if err != nil {
		return s.inputError(err)
	}
	if err := s.write(checkDocument(s, r, c)); err != nil {
		return err
	}
	if o.gate && c.Decision != brine.Pump {
		return errHeld
	}
	return nil
}

func (o *checkOptions) request(s *setting) (brine.CheckRequest, error) {
	r := brine.CheckRequest{}
	var err error
	if r.Sample, err = o.instrument.sample(s, o.temp); err != nil {
		return r, err
	}
	if _, r.Volume, r.Capacity, err = o.tank.tank(s); err != nil {
		return r, err
	}
	if r.With, r.Stock, r.RockSalt, err = o.agent.agent(s); err != nil {
		return r, err
	}
	r.Band = s.band(o.to, o.low, o.high)
	return r, nil
}

func checkDocument(s *setting, r brine.CheckRequest, c brine.CheckResult) *report.Document {
	fix := c.Correction
	if c.Decision == brine.Pump {
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
	d.Figures = append(d.Figures, quiet(report.Figure{Key: "decision", Label: "Decision", Value: report.Word(c.Decision.String())}))
	for _, f := range s.correctionFigures(q, fix) {
		f.Quiet = f.Quiet || c.Decision == brine.Pump
		d.Figures = append(d.Figures, f)
	}
	d.Figures = append(d.Figures, s.bandFigures(r, c)...)
	d.Figures = append(d.Figures, s.readingFigures(c.Reading)...)
	d.Figures = append(d.Figures, s.freezing(c.Reading.Freezing)...)
	d.Working = readingWorking(s, c.Reading)
	if c.Decision != brine.Pump {
		d.Working = append(d.Working, correctWorking(s, q, fix)...)
	}
	return d
}

// bandFigures are the readings between which this tank may be pumped now.
func (s *setting) bandFigures(r brine.CheckRequest, c brine.CheckResult) []report.Figure {
	low, high := brine.OnScale(r.Sample.Instrument, c.LowReading), brine.OnScale(r.Sample.Instrument, c.HighReading)
	span := s.figure("low_reading", s.show("Readings to pump at, at %v", r.Sample.Temperature), low)
	span.Value.Text = s.show("%v to %v", low, high)
	return []report.Figure{
		quiet(s.figure("target", "Target", r.Band.Target)),
		quiet(s.figure("low", "Lowest to pump", r.Band.Low)),
		quiet(s.figure("high", "Highest to pump", r.Band.High)),
		span,
		quiet(s.figure("high_reading", "Highest reading to pump at", high)),
	}
}

// checkVerdict is the one sentence of the command: the decision; whether the
// reading alone would have misled; what to do, and what to look for then.
func checkVerdict(s *setting, r brine.CheckRequest, c brine.CheckResult) string {
	finding := s.finding(r, c)
	if c.Decision == brine.Pump {
		return s.show("Pump: %s, within %v to %v.", finding, r.Band.Low, r.Band.High)
	}
	limit := s.show("too strong (above %v)", r.Band.High)
	if c.Decision == brine.TooWeak {
		limit = s.show("too weak (below %v)", r.Band.Low)
	}
	return s.show("Do not pump: %s, %s; %s, mix, and look for %v on %s at %v.",
		finding, limit, s.steps(c.Correction), brine.OnScale(r.Sample.Instrument, c.ReadingWanted),
		scaleWords[r.Sample.Instrument.Scale], r.Sample.Temperature)
}

// naiveWords say how the reading looks without the thermometer.
var naiveWords = map[brine.Decision]string{brine.Pump: "right", brine.TooStrong: "too strong", brine.TooWeak: "too weak"}

// finding states the true strength, with a warning where the reading misleads.
func (s *setting) finding(r brine.CheckRequest, c brine.CheckResult) string {
	if c.Misled() {
		return s.show("%s's %v looks %s, but at %v it is %v true", scaleWords[r.Sample.Instrument.Scale],
			r.Sample.Shown(), naiveWords[c.Naive], r.Sample.Temperature, c.Reading.True)
	}
	return s.show("%v true strength at %v", c.Reading.True, r.Sample.Temperature)
}

func checkNotes(s *setting, r brine.CheckRequest, c brine.CheckResult) []string {
	var notes []string
	if c.Decision == brine.Pump && c.Correction.Agent != brine.Auto {
		notes = append(notes, s.show("Dead on %v would take this, which is not needed: %s.", r.Band.Target, s.steps(c.Correction)))
	}
	first, target := c.Reading.Freezing.First(), c.TargetSolid
	if c.Decision != brine.Pump && first.Found && target.Found {
		notes = append(notes, s.show("As it stands the first %s comes at %v; on target nothing does above %v.",
			solidKind(first.Solid), temperatureOf(first), temperatureOf(target)))
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
	if c.Decision != brine.Pump {
		return nil
	}
	return []string{cautionPump, cautionLocal}
}
