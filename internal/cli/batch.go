package cli

import (
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type batchOptions struct {
	tank             *tankFlags
	to               *input[quantity.Strength]
	heelVolume       *input[quantity.Volume]
	heelStrength     *input[quantity.Strength]
	heelTemp         *input[quantity.Temperature]
	waterTemp, cal   *input[quantity.Temperature]
	purity, moisture *input[quantity.Strength]
	bed              *input[quantity.Mass]
	supply           *input[quantity.Flow]
	record           *recordFlags
}

func newBatch(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "batch",
		Short: "Salt and water for a batch",
		Long: "batch tells how much salt to load and how much water to add for a batch of\n" +
			"brine, counting the heel that stands in the tank, the salt's purity and\n" +
			"moisture, and the bed of undissolved salt.",
		Example: "  brineyard batch --volume 1200gal --to 23.3% --purity 95% --moisture 2%\n" +
			"  brineyard batch --tank mixer --heel-volume 120gal --heel-strength 23.3%",
		Args: noArguments,
	}, &batchOptions{})
}

// flags defines the flags.
func (o *batchOptions) flags(f *pflag.FlagSet) {
	o.tank = addTankFlags(f, "brine wanted in the tank, heel counted; the yard file's full batch unless given")
	o.to = strengthFlag(f, "to", "target")
	o.heelVolume = volumeFlag(f, "heel-volume", "brine that stands in the tank; none unless given")
	o.heelStrength = strengthFlag(f, "heel-strength", "true strength of the heel; the target unless given")
	o.heelTemp = temperatureFlag(f, "heel-temp", "temperature of the heel; that of the water unless given")
	o.waterTemp = temperatureFlag(f, "water-temp", "temperature of water and salt; 50F unless given")
	o.purity, o.moisture = saltFlagsOf(f)
	o.bed = massFlag(f, "bed", "undissolved salt wanted on the bed, as delivered; none unless given")
	o.supply = flowFlag(f, "supply", "flow of the water supply")
	o.cal = temperatureFlag(f, "cal", "temperature for which the hydrometer is marked; 60F unless given")
	o.record = addRecordFlags(f)
}

// ask answers them.
func (o *batchOptions) ask(s *setting, _ []string) (reply, error) {
	r, err := o.request(s)
	if err != nil {
		return reply{}, err
	}
	b, err := brine.NewBatch(r)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	return reply{document: batchDocument(s, r, b), record: o.record, entries: []journal.Entry{batchEntry(o.tank.name.value, r, b)}}, nil
}

// coldTap is the water of a yard that does not say how warm its own is.
var coldTap = quantity.Fahrenheit(50)

func (o *batchOptions) request(s *setting) (brine.BatchRequest, error) {
	r := brine.BatchRequest{}
	if err := o.record.check(o.tank.name.value); err != nil {
		return r, err
	}
	tank, volume, capacity, err := o.tank.tank(s)
	if err != nil {
		return r, err
	}
	if o.tank.name.given && !tank.Mixing {
		return r, usagef("--tank %s: no mixing tank, and a batch is made in one; allowed: a mixing tank of the yard file, or --volume", words.Quoted(tank.Name))
	}
	r.Volume, r.Capacity, r.PumpOff, r.BedCapacity = volume, capacity, tank.PumpOff, tank.BedCapacity
	none := &input[quantity.Strength]{}
	r.Target = s.band(o.to, none, none).Target
	r.RockSalt = rockSalt(s, o.purity, o.moisture)
	file := yard.Supply{}
	if s.yard != nil {
		file = s.yard.Supply
	}
	r.WaterTemp = take(s, fault.FieldWaterTemp, "water-temp", o.waterTemp, ifKnown(file.Temperature), "supply.temperature", coldTap)
	r.Supply = take(s, fault.FieldSupply, "supply", o.supply, ifKnown(file.Flow), "supply.flow", 0)
	if o.supply.given && r.Supply <= 0 {
		return r, usagef("--supply %s: no flow; allowed: above 0gal/min", words.Quoted(o.supply.text))
	}
	var bed *quantity.Mass
	if tank.Bed > 0 {
		bed = &tank.Bed
	}
	r.Bed = take(s, fault.FieldBed, "bed", o.bed, bed, "tank "+words.Quoted(tank.Name)+" bed", 0)
	if err := o.heel(s, &r); err != nil {
		return r, err
	}
	reading := readingFlags{cal: o.cal}
	r.Instrument, err = reading.instrument(s, 0)
	return r, err
}

// heel settles what stands in the tank.
func (o *batchOptions) heel(s *setting, r *brine.BatchRequest) error {
	if !o.heelVolume.given && (o.heelStrength.given || o.heelTemp.given) {
		name := "heel-strength"
		if !o.heelStrength.given {
			name = "heel-temp"
		}
		return usagef("--%s: there is no heel without --heel-volume; allowed: both", name)
	}
	r.HeelVolume = take(s, fault.FieldHeelVolume, "heel-volume", o.heelVolume, nil, "", 0)
	r.HeelStrength = take(s, fault.FieldHeelStrong, "heel-strength", o.heelStrength, nil, "", r.Target)
	r.HeelTemp = take(s, fault.FieldHeelTemp, "heel-temp", o.heelTemp, nil, "", r.WaterTemp)
	return nil
}

func batchDocument(s *setting, r brine.BatchRequest, b brine.Batch) *report.Document {
	return &report.Document{
		Command:  "batch",
		Title:    "Batch",
		Verdict:  batchVerdict(s, r, b),
		Figures:  s.batchFigures(r, b),
		Tables:   []report.Table{s.chargeTable(b)},
		Working:  append(batchWorking(s, r, b), expectedWorking(s, r.Instrument, r.Target, b.BrineTemp, b.Reading)...),
		Notes:    batchNotes(s, r, b),
		Cautions: []string{cautionBackflow, cautionEntry, cautionDrain, cautionPump, cautionLocal},
		Next:     nextAfterBatch,
	}
}

func batchVerdict(s *setting, r brine.BatchRequest, b brine.Batch) string {
	makes := s.show("that makes %v at %v, and the hydrometer shows %v when the brine is at %v.", r.Volume, r.Target, brine.OnScale(r.Instrument, b.Reading), b.BrineTemp)
	if r.Bed > 0 {
		return s.show("For the first charge load %v of salt, of which %v stay as the bed, and add %v of water: %s Each later charge takes %v of salt and %v of water.",
			b.SaltToLoad, r.Bed, b.Water, makes, b.Recharge, b.RechargeWater)
	}
	return s.show("Load %v of salt and add %v of water: %s", b.SaltToLoad, b.Water, makes)
}

func (s *setting) batchFigures(r brine.BatchRequest, b brine.Batch) []report.Figure {
	return []report.Figure{
		s.figure("salt_to_load", "Salt to load, as delivered", b.SaltToLoad),
		quietUnless(r.Bed > 0, s.figure("bed", "of which stays on the bed", r.Bed)),
		s.figure("water_to_add", "Water to add", b.Water),
		s.figure("salt_dissolved", "NaCl that dissolves", b.SaltDissolved),
		quietUnless(b.Insolubles > 0, s.figure("insolubles", "Sludge that it leaves", b.Insolubles)),
		s.figure("brine_temp", "Brine temperature when dissolved", b.BrineTemp),
		s.figure("cooling", "Cooled by dissolving", b.Cooling),
		s.figure("expected_reading", s.show("Hydrometer then, at %v", b.BrineTemp), brine.OnScale(r.Instrument, b.Reading)),
		s.fillTime(b),
		s.onset("first_solid_temp", "First solid", b.FirstSolid),
		quiet(s.figure("volume", "Brine in the tank", r.Volume)),
		quiet(s.figure("recharge_salt", "Salt for each further batch", b.Recharge)),
		quiet(s.figure("recharge_water", "Water for each further batch", b.RechargeWater)),
		quiet(s.figure("pumped_off", "Pumped off each time", b.PumpedOff)),
	}
}

// fillTime is there when the supply's flow is known.
func (s *setting) fillTime(b brine.Batch) report.Figure {
	f := s.figure("fill_time", "Time to fill", b.FillTime)
	if b.FillTime == 0 {
		f.Quiet, f.Value = true, report.Nothing(f.Value.Unit, "not known")
	}
	return f
}

// chargeTable sets the first charge against what each batch after it takes.
func (s *setting) chargeTable(b brine.Batch) report.Table {
	t := report.Table{
		Key:   "charges",
		Title: "First charge, and recharge for each batch pumped off",
		Columns: []report.Column{
			{Key: "charge", Label: "Charge"}, {Key: "salt", Label: "Salt"}, {Key: "water", Label: "Water"}, {Key: "pumped_off", Label: "Gives"},
		},
		Rows: [][]report.Value{
			{report.Word("first"), s.value(b.SaltToLoad), s.value(b.Water), s.value(b.PumpedOff)},
			{report.Word("recharge"), s.value(b.Recharge), s.value(b.RechargeWater), s.value(b.PumpedOff)},
		},
	}
	if b.FillTime > 0 {
		t.Columns = append(t.Columns, report.Column{Key: "fill_time", Label: "Fill"})
		t.Rows[0] = append(t.Rows[0], s.value(b.FillTime))
		t.Rows[1] = append(t.Rows[1], s.value(b.RechargeTime))
	}
	return t
}

func batchNotes(s *setting, r brine.BatchRequest, b brine.Batch) []string {
	salt := s.show("Salt of %v purity and %v moisture, as warm as the water (%v).", r.RockSalt.Purity, r.RockSalt.Moisture, r.WaterTemp)
	if r.RockSalt.Purity < 1 {
		salt += " What is not NaCl is taken to settle."
	}
	notes := []string{salt}
	if r.Bed > 0 {
		notes = append(notes, "The bed takes up room of its own in the tank, beside the brine.")
	}
	if r.HeelVolume > 0 {
		notes = append(notes, s.show("Counts a heel of %v at %v; the recharge leaves the same volume on target.", r.HeelVolume, r.HeelStrength))
	}
	if bed := r.BedCapacity; bed > 0 && b.SaltToLoad > bed {
		notes = append(notes, s.show("The floor of the tank holds %v of salt: load in turns.", bed))
	}
	if b.BrineTemp < quantity.Celsius(0) {
		notes = append(notes, s.show("The batch ends below %v; keep the fill line from freezing.", quantity.Celsius(0)))
	}
	return append(notes, densityNotes(s, r.Target, b.BrineTemp)...)
}

// batchWorking balances salt and water at the temperature that results.
func batchWorking(s *setting, r brine.BatchRequest, b brine.Batch) []report.Step {
	if !s.globals.Working {
		return nil
	}
	p := &pocket{system: s.system}
	volume, target := p.of(r.Volume), p.share(r.Target)
	density := p.read(s.show("Density of brine on target at %v, which it cools to", b.BrineTemp),
		s.show("brine of %v, Laliberte (2009)", r.Target), p.density(b.BrineDensity))
	whole := p.weigh("Weight of the batch", volume, density)
	salt := p.step("Salt in it", "weight x strength", "{} x {}", []term{whole, target}, whole.value*target.value, whole.unit)
	water := p.step("Water in it", "weight - salt", "{} - {}", []term{whole, salt}, whole.value-salt.value, whole.unit)
	if r.HeelVolume > 0 {
		salt, water = p.heelSteps(s, r, b, salt, water)
	}
	load := p.loadSteps(r, salt)
	p.waterSteps(r, b, load, water)
	return p.steps
}

// heelSteps take off what the heel brings.
func (p *pocket) heelSteps(s *setting, r brine.BatchRequest, b brine.Batch, salt, water term) (term, term) {
	volume, strength := p.of(r.HeelVolume), p.share(r.HeelStrength)
	density := p.read("Density of the heel", s.show("brine of %v at %v, Laliberte (2009)", r.HeelStrength, r.HeelTemp),
		p.density(quantity.Density(float64(b.HeelMass)/float64(r.HeelVolume))))
	heel := p.weigh("Weight of the heel", volume, density)
	brought := p.step("Salt in the heel", "weight x strength", "{} x {}", []term{heel, strength}, heel.value*strength.value, heel.unit)
	rest := p.step("Water in the heel", "weight - salt", "{} - {}", []term{heel, brought}, heel.value-brought.value, heel.unit)
	salt = p.step("Salt still wanted", "salt in the batch - salt in the heel", "{} - {}", []term{salt, brought}, salt.value-brought.value, salt.unit)
	water = p.step("Water still wanted", "water in the batch - water in the heel", "{} - {}", []term{water, rest}, water.value-rest.value, water.unit)
	return salt, water
}

// loadSteps turn NaCl into rock salt to load.
func (p *pocket) loadSteps(r brine.BatchRequest, salt term) term {
	purity, moisture := p.share(r.RockSalt.Purity), p.share(r.RockSalt.Moisture)
	pure := p.step("NaCl in each unit of rock salt as delivered", "(1 - moisture) x purity", "(1 - {}) x {}",
		[]term{moisture, purity}, (1-moisture.value)*purity.value, "")
	load := p.step("Rock salt that dissolves", "salt wanted / NaCl in each", "{} / {}", []term{salt, pure}, salt.value/pure.value, salt.unit)
	if r.Bed > 0 {
		bed := p.of(r.Bed)
		load = p.step("Rock salt to load", "what dissolves + bed", "{} + {}", []term{load, bed}, load.value+bed.value, load.unit)
	}
	return load
}

// waterSteps turn the water wanted into gallons and minutes.
func (p *pocket) waterSteps(r brine.BatchRequest, b brine.Batch, load, water term) {
	if r.RockSalt.Moisture > 0 {
		moisture := p.share(r.RockSalt.Moisture)
		wet := p.step("Water that comes with the salt", "rock salt x moisture", "{} x {}", []term{load, moisture}, load.value*moisture.value, load.unit)
		water = p.step("Water to add, by weight", "water wanted - moisture", "{} - {}", []term{water, wet}, water.value-wet.value, water.unit)
	}
	density := p.density(b.WaterDensity)
	volume := p.step("Water to add, by volume", "weight / density of water", "{} / {}", []term{water, density}, water.value/density.value, p.volumeUnit())
	if b.FillTime > 0 {
		flow := p.of(r.Supply)
		p.step("Time to fill", "volume / flow", "{} / {}", []term{volume, flow}, volume.value/flow.value, "min")
	}
}
