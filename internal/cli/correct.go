package cli

import (
	"fmt"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/spf13/pflag"
)

// agentFlags say what a tank is corrected with.
type agentFlags struct {
	with     choice
	stock    *input[quantity.Strength]
	purity   *input[quantity.Strength]
	moisture *input[quantity.Strength]
}

// agentWords are the choices of --with.
var agentWords = map[string]brine.Additive{"water": brine.AddWater, "salt": brine.AddSalt, "stock": brine.AddStock}

func addAgentFlags(f *pflag.FlagSet) *agentFlags {
	a := &agentFlags{with: choice{words: []string{"water", "salt", "stock"}}}
	f.Var(&a.with, "with", "what to add: water, salt or stock (default water or salt, as it needs)")
	a.stock = strengthFlag(f, "stock", "strength of the stored brine, for --with stock")
	a.purity, a.moisture = saltFlagsOf(f)
	return a
}

func saltFlagsOf(f *pflag.FlagSet) (purity, moisture *input[quantity.Strength]) {
	return strengthFlag(f, "purity", "NaCl in the dry rock salt; 100% unless given"),
		strengthFlag(f, "moisture", "water in the rock salt as delivered; 0% unless given")
}

// agent settles what is added, and of what quality.
func (a *agentFlags) agent(s *setting) (brine.Additive, quantity.Strength, yard.RockSalt, error) {
	agent := agentWords[a.with.value]
	switch {
	case a.stock.given && a.with.value == "":
		agent = brine.AddStock
	case a.stock.given && agent != brine.AddStock:
		return 0, 0, yard.RockSalt{}, usagef("--stock %s and --with %s: two things to add; allowed: --stock with --with stock",
			words.Quoted(a.stock.text), a.with.value)
	case agent == brine.AddStock && !a.stock.given:
		return 0, 0, yard.RockSalt{}, usagef("--with stock: needs the stored brine's strength; allowed: like --stock 18%%")
	}
	s.origin[fault.FieldWith] = said("--with " + a.with.value)
	stock := take(s, fault.FieldStock, "stock", a.stock, nil, "", 0)
	return agent, stock, rockSalt(s, a.purity, a.moisture), nil
}

// rockSalt settles the salt's quality.
func rockSalt(s *setting, purity, moisture *input[quantity.Strength]) yard.RockSalt {
	file := yard.RockSalt{}
	if s.yard != nil {
		file = s.yard.Pile.Quality
	}
	return yard.RockSalt{
		Purity:   take(s, fault.FieldPurity, "purity", purity, ifKnown(file.Purity), "salt.purity", yard.PureSalt().Purity),
		Moisture: take(s, fault.FieldMoisture, "moisture", moisture, ifKnown(file.Moisture), "salt.moisture", yard.PureSalt().Moisture),
	}
}

// tankFlags say which tank, and how much is in it.
type tankFlags struct {
	name     text
	volume   *input[quantity.Volume]
	capacity *input[quantity.Volume]
}

func addTankFlags(f *pflag.FlagSet, volume string) *tankFlags {
	t := &tankFlags{}
	f.Var(&t.name, "tank", "`name` of a tank in the yard file")
	t.volume = volumeFlag(f, "volume", volume)
	t.capacity = volumeFlag(f, "capacity", "what the tank can hold")
	return t
}

// tank settles volume and capacity (0 when not known).
func (t *tankFlags) tank(s *setting) (tank yard.Tank, volume, capacity quantity.Volume, err error) {
	var usual, size *quantity.Volume
	if t.name.given {
		if tank, err = s.tank("tank", t.name.value); err != nil {
			return tank, 0, 0, err
		}
		if err := s.brineTank(tank); err != nil {
			return tank, 0, 0, err
		}
		usual = ifKnown(tank.Usual())
		size = &tank.Capacity
	}
	if !t.volume.given && usual == nil {
		if t.name.given {
			return tank, 0, 0, usagef("--volume is missing, and the yard file does not say what tank %s holds; allowed: like --volume 500gal", words.Quoted(t.name.value))
		}
		return tank, 0, 0, usagef("no volume; allowed: --volume, like --volume 500gal, or --tank with a name from the yard file")
	}
	key := fmt.Sprintf("tank %s", words.Quoted(t.name.value))
	volume = take(s, fault.FieldVolume, "volume", t.volume, usual, key, 0)
	capacity = take(s, fault.FieldCapacity, "capacity", t.capacity, size, key, 0)
	return tank, volume, capacity, notZero("capacity", t.capacity)
}

// notZero refuses nothing where something is meant.
func notZero(name string, in *input[quantity.Volume]) error {
	if in.given && in.value == 0 {
		return usagef("--%s %s: nothing; allowed: above 0", name, words.Quoted(in.text))
	}
	return nil
}

// brineTank refuses a tank that holds something else than plain salt brine.
func (s *setting) brineTank(t yard.Tank) error {
	if !t.HoldsBrine() {
		return usagef("--tank %s: %s says it holds %s (%s), which a reading in salt does not judge; allowed: a tank of salt brine, or blend and store",
			words.Quoted(t.Name), s.yard.Path, t.Liquid.Name, s.compositionText(*t.Liquid))
	}
	return nil
}

// tank finds a tank of the yard file.
func (s *setting) tank(flag, name string) (yard.Tank, error) {
	if s.yard == nil {
		return yard.Tank{}, usagef("--%s %s: there is no yard file; allowed: --yard with a file", flag, words.Quoted(name))
	}
	if t, ok := s.yard.Tank(name); ok {
		return t, nil
	}
	var names []string
	for _, t := range s.yard.Tanks {
		if strings.EqualFold(t.Name, name) {
			return t, nil
		}
		names = append(names, t.Name)
	}
	return yard.Tank{}, usagef("--%s %s: no such tank in %s; %s", flag, words.Quoted(name), s.yard.Path, words.Allowed(name, names))
}

// band settles target and band: the flag's target, else the yard file's, else
// common practice, whose band moves with another target.
func (s *setting) band(to, low, high *input[quantity.Strength]) yard.Band {
	file := yard.Target{}
	if s.yard != nil {
		file = s.yard.Target
	}
	target := take(s, fault.FieldTarget, "to", to, file.Strength, "target.strength", yard.DefaultBand().Target)
	otherwise := yard.BandOf(&target, nil, nil)
	return yard.Band{
		Target: target,
		Low:    take(s, fault.FieldLow, "low", low, file.Low, "target.low", otherwise.Low),
		High:   take(s, fault.FieldHigh, "high", high, file.High, "target.high", otherwise.High),
	}
}

// steps says what to do, in order: "draw off 40 gal, then add 61 gal of water".
func (s *setting) steps(c brine.Correction) string {
	text := ""
	if c.DrawOffFirst > 0 {
		text = s.show("draw off %v first, then ", c.DrawOffFirst)
	}
	switch c.Additive {
	case brine.AddWater:
		return text + s.show("add %v of water", c.Water)
	case brine.AddStock:
		return text + s.show("add %v of stock", c.Stock)
	default:
		return text + s.show("add %v of salt", c.Salt)
	}
}

// correctionFigures are what to add and what comes of it.
func (s *setting) correctionFigures(r brine.CorrectRequest, c brine.Correction) []report.Figure {
	fits := report.Nothing("", "not known")
	switch {
	case r.Capacity > 0 && c.DrawOffFirst > 0:
		fits = report.Word("no")
		fits.Text = s.show("no, it would come to %v and the tank holds %v", c.WholeFinal, r.Capacity)
	case r.Capacity > 0:
		fits = report.Word("yes")
		fits.Text = s.show("yes, the tank holds %v", r.Capacity)
	}
	return []report.Figure{
		quietUnless(c.DrawOffFirst > 0, s.figure("draw_off_first", "Draw off first", c.DrawOffFirst)),
		quietUnless(c.Additive == brine.AddWater, s.figure("water_to_add", "Water to add", c.Water)),
		quietUnless(c.Additive == brine.AddSalt, s.figure("salt_to_add", "Salt to add, as delivered", c.Salt)),
		quietUnless(c.Additive == brine.AddStock, s.figure("stock_to_add", "Stock to add", c.Stock)),
		s.figure("final_volume", "Comes to", c.Final),
		s.figure("final_strength", "True strength then", c.Strength),
		s.figure("expected_reading", s.show("Reading then, at %v", r.Temperature), r.Instrument.Scale.Quantity(c.Reading)),
		quietUnless(r.Capacity > 0, report.Figure{Key: "fits", Label: "Fits the tank", Value: fits}),
	}
}

// correctionNotes say what the figures rest on.
func correctionNotes(s *setting, r brine.CorrectRequest, c brine.Correction) []string {
	var notes []string
	if c.Solid {
		notes = append(notes, s.show("At %v brine of %v is part solid: the tank has to be thawed and stirred before any of this holds.", r.Temperature, r.Strength))
	}
	if c.DrawOffFirst > 0 {
		notes = append(notes, s.show("It does not fit as it is: what is drawn off goes to storage, not to a drain."))
	}
	if c.Additive == brine.AddSalt {
		notes = append(notes, s.show("Salt of %v purity and %v moisture; it cools the tank a little, so let it come back to %v or read the thermometer again.",
			r.RockSalt.Purity, r.RockSalt.Moisture, r.Temperature))
	}
	return notes
}

func correctionCautions(c brine.Correction) []string {
	var cautions []string
	switch c.Additive {
	case brine.AnyAdditive:
		return nil
	case brine.AddWater:
		cautions = append(cautions, cautionBackflow)
	case brine.AddSalt:
		cautions = append(cautions, cautionEntry)
	}
	if c.DrawOffFirst > 0 {
		cautions = append(cautions, cautionDrain)
	}
	return append(cautions, cautionPump, cautionLocal)
}

func (s *setting) cardBand() yard.Band {
	none := &input[quantity.Strength]{}
	return s.band(none, none, none)
}

func (s *setting) cardSalt() yard.RockSalt {
	none := &input[quantity.Strength]{}
	return rockSalt(s, none, none)
}
