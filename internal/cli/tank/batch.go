package tank

import (
	"strings"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/sure"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

var batchCommand = run.Command{
	Screen: true,
	Use:    "batch [TANK]",
	Short:  "Salt and water for a batch",
	Long: "batch tells how much salt to load and how much water to add. It counts the\n" +
		"heel in the tank and the bed of salt. It counts the purity and moisture of the\n" +
		"salt.",
	Example: "  brineyard batch --volume 1200gal --to 23.3% --purity 95% --moisture 2%\n" +
		"  brineyard batch --tank mixer --heel-volume 120gal --heel-strength 23.3%",
	New:  func() run.Question { return &batch{} },
	Rows: true,
}

type batch struct {
	request brine.BatchRequest
	tank    bind.Tank
	record  run.Record
	pile    yard.Pile // as it stands
	clock   func() time.Time
	heel    bind.Stick    // the heel by the stick
	salt    quantity.Mass // that was loaded, where the water to it is asked; 0 else
	// heelStands tells that the heel is what the journal says stands in the tank.
	heelStands bool
}

// Bind binds the request.
func (q *batch) Bind(b *bind.Set) {
	r := &q.request
	bind.Spoken(b, "mixer", "tank")
	q.record.Bind(b, q.tank.Known, run.NeedsTank)
	var loaded *bind.Loaded
	q.tank.Sized = func() bool { return loaded.Given() }
	q.tank.BindFull(b, &r.Volume, &r.Capacity, "brine wanted in the tank, heel counted; the yard file's full batch unless given")
	b.Then(func(*bind.Scope) error {
		if t := q.tank.Is; q.tank.Given() && !t.Mixing {
			return fault.Refuse("--tank %s: no mixing tank, and a batch is made in one; allowed: a mixing tank of the yard file, or --volume", words.Quoted(t.Name))
		}
		r.PumpOff, r.BedCapacity = q.tank.Is.PumpOff, q.tank.Is.BedCapacity
		return nil
	})
	b.Then(func(*bind.Scope) error {
		if loaded.Given() && q.tank.TypedVolume() {
			return fault.Refuse("--volume and --salt: two sizes of a batch; allowed: one of them")
		}
		return nil
	})
	loaded = bind.BindLoaded(b, &q.salt, "salt", "rock salt that was loaded, as delivered: asks for the water to it")
	bind.Target(b, &r.Target)
	bind.RockSalt(b, &r.RockSalt)
	bind.WaterTemperature(b, &r.WaterTemp)
	supply := bind.Of(b, bind.Flow, &r.Supply, "supply", "flow of the water supply",
		bind.Key("supply.flow", func(y *yard.Yard) quantity.Flow { return y.Supply.Flow }))
	supply.NotZero(b, "no flow", "above 0gal/min")
	b.Then(func(s *bind.Scope) error { return q.waterTank(s, supply.Given()) })
	bed := bind.Of(b, bind.Mass, &r.Bed, "bed", "undissolved salt wanted on the bed, as delivered; none unless given",
		bind.KeyNamed(func() string { return "tank " + words.Quoted(q.tank.Is.Name) + " bed" }, func() quantity.Mass { return q.tank.Is.Bed }))
	b.Then(func(s *bind.Scope) error {
		q.pile, q.clock = yard.Pile{}, s.Now
		if now := s.Standing(); now != nil {
			q.pile = now.Pile
		}
		if lies := q.tank.Is.OnFloor; lies != nil && !bed.Given() && q.tank.Is.Said.ByJournal() {
			r.Bed = max(0, r.Bed-*lies) // the rest of the bed is there
		}
		return nil
	})
	q.bindHeel(b)
	bind.Glass(b, &r.Instrument)
}

// waterTank takes the fresh-water tank of the yard file, unless a supply was typed.
func (q *batch) waterTank(s *bind.Scope, typed bool) error {
	r := &q.request
	if r.WaterTank, r.WaterFlow = 0, 0; s.Yard != nil && !typed {
		fed := s.Yard.Supply.Fed(s.Yard.Pump.Flow)
		r.WaterTank, r.WaterFlow = fed.Tank, fed.TankFlow
	}
	return nil
}

// bindHeel binds what stands in the tank: as typed, else as the journal has it.
func (q *batch) bindHeel(b *bind.Set) {
	r, t := &q.request, &q.tank
	var volume *bind.Value[quantity.Volume]
	var strength *bind.Value[quantity.Strength]
	var temp *bind.Value[quantity.Temperature]
	b.Then(func(*bind.Scope) error {
		if !volume.Given() && !q.heel.Given() && !t.Is.Said.ByJournal() && (strength.Given() || temp.Given()) {
			name := "heel-strength"
			if !strength.Given() {
				name = "heel-temp"
			}
			return fault.Refuse("--%s: there is no heel without --heel-volume; allowed: both", name)
		}
		return nil
	})
	q.heel.Bind(b, "depth of the heel on the stick, instead of --heel-volume", func() yard.Tank { return t.Is })
	b.Then(func(*bind.Scope) error {
		if volume.Given() && q.heel.Given() {
			return fault.Refuse("--heel-volume and --depth: two heels; allowed: one of them")
		}
		return nil
	})
	volume = bind.Of(b, bind.Volume, &r.HeelVolume, "heel-volume", "brine that stands in the tank; what the journal has of it unless given",
		q.heel.Source(), bind.Entered(func(*yard.Yard) (*quantity.Volume, yard.Said) { return t.Is.Contents, t.Is.Said }))
	b.Then(func(s *bind.Scope) error {
		q.heelStands = !volume.Given() && !q.heel.Given() && t.Is.Said.ByJournal()
		if q.heelStands && r.HeelVolume >= r.Volume {
			return fault.Refuse("--tank %s: %v stand in it (%s), and the batch is of %v; allowed: pump it off first, or --heel-volume with what is left",
				words.Quoted(t.Name), r.HeelVolume.In(s.System), show.SourceText(t.Is.Said, s.Now()), r.Volume.In(s.System))
		}
		return nil
	})
	strength = bind.Of(b, bind.Strength, &r.HeelStrength, "heel-strength", "true strength of the heel; the journal's, else the target unless given",
		q.heelStrength, bind.DefaultOf(func() quantity.Strength { return r.Target }))
	b.Then(func(*bind.Scope) error {
		r.HeelVolumeHalf, r.HeelSure = q.heel.Half(), sure.Budget{}
		if q.heelStands && !strength.Given() {
			r.HeelSure = t.Sureness(r.HeelStrength)
		}
		return nil
	})
	temp = bind.Of(b, bind.Temperature, &r.HeelTemp, "heel-temp", "temperature of the heel; that of the water unless given",
		bind.DefaultOf(func() quantity.Temperature { return r.WaterTemp }))
}

// heelStrength takes the strength of what the journal says stands in the tank.
func (q *batch) heelStrength(name string, s *bind.Scope) (w quantity.Strength, place bind.Place, found bool) {
	if !q.heelStands {
		return w, place, false
	}
	return q.tank.Strength()(name, s)
}

// Answer sizes the batch.
func (q *batch) Answer(s *run.Session) (run.Reply, error) {
	b, err := q.size()
	if err != nil {
		return run.Reply{}, err
	}
	r, v := q.request, s.View
	if err := b.CheckRoom(r); err != nil {
		return run.Reply{}, err
	}
	span, err := r.Range(b)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: q.figures(v, b, span),
		Words: func(d *report.Document) {
			d.Title, d.Verdict, d.Notes, d.Tables = "Batch", q.verdict(v, b), q.notes(v, b), []report.Table{chargeTable(v, b)}
			d.Brief = q.brief(v, b)
			d.Cautions = []string{show.CautionBackflow, show.CautionEntry, show.CautionDrain, show.CautionPump, show.CautionLocal}
			d.Doubts = show.Said(q.tank.Doubt(v))
			d.Next = "ready, with two or more timed readings, says when it reaches target."
		},
		Working: func() []report.Step {
			steps := append(derive.Batch(v, r, b), derive.BatchRange(v, b, span)...)
			return append(steps, derive.Expected(v, r.Instrument, r.Target, b.BrineTemp)...)
		},
		Record: &q.record, Entries: []journal.Entry{batchEntry(q.tank.Name, r, b)},
	}, nil
}

// size finds the batch of the volume, or of the salt that was loaded: then the request gets that volume.
func (q *batch) size() (b brine.Batch, err error) {
	if q.salt == 0 {
		return brine.NewBatch(q.request)
	}
	q.request, b, err = brine.BatchOfSalt(q.request, q.salt)
	return b, err
}

// batchEntry is a batch that was made as planned.
func batchEntry(tank string, r brine.BatchRequest, b brine.Batch) journal.Entry {
	return journal.Entry{
		Kind: journal.Batch, Tank: tank, Volume: new(r.Volume), NaCl: new(r.Target),
		Salt: new(b.SaltToUse), Water: new(b.Water), Note: "as planned",
	}
}

// leadsWithRecharge reports whether the usual batch is one over a bed that lies there: where nobody has said otherwise. Else
// the batch is reckoned from what stands and lies in the tank.
func (q *batch) leadsWithRecharge() bool {
	return q.salt == 0 && q.request.Bed > 0 && !(q.tank.Is.OnFloor != nil && q.tank.Is.Said.ByJournal())
}

// brief is the verdict in the words of a text message.
func (q *batch) brief(v show.View, b brine.Batch) string {
	r, text := q.request, v.Say("Load %v of salt%s, add %v of water", b.SaltToLoad, q.buckets(v, b.SaltToLoad), b.Water)
	if q.salt > 0 {
		text = v.Say("To %v of salt%s add %v of water", q.salt, q.buckets(v, q.salt), b.Water)
	}
	if q.leadsWithRecharge() {
		text = v.Say("Load %v of salt%s, add %v of water; on a bare floor %v and %v", b.Recharge, q.buckets(v, b.Recharge), b.RechargeWater, b.SaltToLoad, b.Water)
	}
	return v.Say("%s. Look for %v at %v.", text, v.Marked(r.Instrument, b.Reading), b.BrineTemp)
}

// verdict says what to load. In a tank with a bed that is the recharge, and the first charge is the exception.
func (q *batch) verdict(v show.View, b brine.Batch) string {
	r := q.request
	looks := v.Say("and the hydrometer shows %v when the brine is at %v.", v.Marked(r.Instrument, b.Reading), b.BrineTemp)
	if q.salt > 0 {
		return v.Say("To %v of salt%s add %v of water: that makes %v at %v, %s", q.salt, q.buckets(v, q.salt), b.Water, r.Volume, r.Target, looks)
	}
	if q.leadsWithRecharge() {
		return v.Say("Load %v of salt%s and add %v of water for each batch over the bed: that gives %v at %v, %s The first charge, on a bare floor, takes %v of salt%s and %v of water.",
			b.Recharge, q.buckets(v, b.Recharge), b.RechargeWater, b.PumpedOff, r.Target, looks, b.SaltToLoad, q.buckets(v, b.SaltToLoad), b.Water)
	}
	bed := ""
	if r.Bed > 0 {
		bed = v.Say(", of which %v fills up the bed,", r.Bed)
	}
	return v.Say("Load %v of salt%s%s and add %v of water: that makes %v at %v, %s", b.SaltToLoad, q.buckets(v, b.SaltToLoad), bed, b.Water, r.Volume, r.Target, looks)
}

// buckets says a weight of salt in buckets of the loader, in brackets; nothing where the yard file has none.
func (q *batch) buckets(v show.View, salt quantity.Mass) string {
	if q.pile.Bucket == 0 {
		return ""
	}
	return v.Say(" (%s buckets)", strings.TrimSuffix(quantity.Fixed(float64(salt/q.pile.Bucket), 1), ".0"))
}

func (q *batch) figures(v show.View, b brine.Batch, span brine.BatchRange) []report.Figure {
	r, recharges := q.request, q.leadsWithRecharge()
	figures := show.Ranged(v, v.Figure("salt_to_load", "Salt to load, as delivered", b.SaltToLoad), span.Salt.Low, span.Salt.High)
	figures = append(figures, show.QuietUnless(r.Bed > 0, v.Figure("bed", "of which stays on the bed", r.Bed)))
	figures = append(figures, show.Ranged(v, v.Figure("water_to_add", "Water to add", b.Water), span.Water.Low, span.Water.High)...)
	for i := range figures {
		figures[i].Detail = recharges
	}
	figures = append([]report.Figure{
		show.QuietUnless(recharges, v.Figure("recharge_salt", "Salt for each batch over the bed", b.Recharge)),
		show.QuietUnless(recharges, v.Figure("recharge_water", "Water for each batch over the bed", b.RechargeWater)),
	}, figures...)
	return append(figures,
		q.depthFigure(v, b),
		detail(v.Figure("salt_dissolved", "NaCl that dissolves", b.SaltDissolved)),
		detail(show.QuietUnless(b.Insolubles > 0, v.Figure("insolubles", "Sludge that it leaves", b.Insolubles))),
		detail(v.Figure("brine_temp", "Brine temperature when dissolved", b.BrineTemp)),
		detail(v.Figure("cooling", "Cooled by dissolving", b.Cooling)),
		detail(v.Figure("expected_reading", v.Say("Hydrometer then, at %v", b.BrineTemp), v.Marked(r.Instrument, b.Reading))),
		detail(fillTime(v, b)),
		detail(v.Onset("first_solid_temp", "First solid", b.FirstSolid)),
		show.Quiet(v.Figure("volume", "Brine in the tank", r.Volume)),
		show.Quiet(v.Figure("pumped_off", "Pumped off each time", b.PumpedOff)),
	)
}

// detail marks a figure that a short screen leaves out.
func detail(f report.Figure) report.Figure { return show.Detail(f)[0] }

// stockNotes say what the journal has of the bed and the pile.
func (q *batch) stockNotes(v show.View, b brine.Batch) []string {
	var notes []string
	if lies := q.tank.Is.OnFloor; lies != nil && *lies > 0 && q.tank.Is.Said.ByJournal() {
		notes = append(notes, v.Say("About %v of salt lies on the floor of the tank%s.", *lies, q.tank.StandsBy(v)))
	}
	if pile := q.pile.OnHand; pile != nil && q.pile.Said.ByJournal() && *pile < b.SaltToLoad {
		notes = append(notes, v.Say("The pile holds %v (%s), less than this batch takes.", max(0, *pile), show.SourceText(q.pile.Said, q.clock())))
	}
	return notes
}

// fillTime is there when the supply's flow is known.
func fillTime(v show.View, b brine.Batch) report.Figure {
	f := v.Figure("fill_time", "Time to fill", b.FillTime)
	if b.FillTime == 0 {
		f.Quiet, f.Value = true, report.Nothing(f.Value.Unit, "not known")
	}
	return f
}

// chargeTable sets the first charge against what each batch after it takes.
func chargeTable(v show.View, b brine.Batch) report.Table {
	t := report.Table{
		Key:   "charges",
		Title: "First charge, and recharge for each batch pumped off",
		Columns: []report.Column{
			{Key: "charge", Label: "Charge"}, {Key: "salt", Label: "Salt"}, {Key: "water", Label: "Water"}, {Key: "pumped_off", Label: "Gives"},
		},
		Rows: [][]report.Value{
			{report.Word("first"), v.Value(b.SaltToLoad), v.Value(b.Water), v.Value(b.PumpedOff)},
			{report.Word("recharge"), v.Value(b.Recharge), v.Value(b.RechargeWater), v.Value(b.PumpedOff)},
		},
	}
	if b.FillTime > 0 {
		t.Columns = append(t.Columns, report.Column{Key: "fill_time", Label: "Fill"})
		t.Rows[0] = append(t.Rows[0], v.Value(b.FillTime))
		t.Rows[1] = append(t.Rows[1], v.Value(b.RechargeTime))
	}
	return t
}

func (q *batch) notes(v show.View, b brine.Batch) []string {
	r, heel := q.request, ""
	if q.heel.Given() {
		heel = q.heel.Said(v)
	} else if q.heelStands {
		heel = q.tank.StandsBy(v)
	}
	salt := v.Say("Salt of %v purity and %v moisture, as warm as the water (%v).", r.RockSalt.Purity, r.RockSalt.Moisture, r.WaterTemp)
	if r.RockSalt.Purity < 1 {
		salt += " The rest settles as sludge."
	}
	notes := append(q.stockNotes(v, b), salt)
	if r.Bed > 0 {
		notes = append(notes, "The bed takes up room of its own in the tank, beside the brine.")
	}
	if r.HeelVolume > 0 {
		notes = append(notes, v.Say("Counts a heel of %v at %v%s; the recharge leaves the same volume on target.", r.HeelVolume, r.HeelStrength, heel))
	}
	if bed := r.BedCapacity; bed > 0 && b.SaltToLoad > bed {
		notes = append(notes, v.Say("The floor of the tank holds %v of salt: load in turns.", bed))
	}
	if b.BrineTemp < quantity.Celsius(0) {
		notes = append(notes, v.Say("The batch ends below %v; keep the fill line from freezing.", quantity.Celsius(0)))
	}
	return append(notes, v.DensityNotes(r.Target, b.BrineTemp)...)
}
