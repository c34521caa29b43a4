package cli

import (
	"strconv"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type storeOptions struct {
	to, with *input[quantity.Strength]
	capacity *input[quantity.Volume]
	temp     *input[quantity.Temperature]
	cal      *input[quantity.Temperature]
	batches  int
	record   *recordFlags
}

func newStore(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "store LOT LOT ...",
		Short: "What transfers make of a tank, and what brings it to target",
		Long: "store tells what lots of liquid make together in a tank. A lot is a volume and\n" +
			"the strength of salt brine (6000gal@23.1%), a volume and a liquid\n" +
			"(500gal:cacl2@32%), or the name of a storage tank in the yard file. The first\n" +
			"is what the tank holds, the others are pumped into it.",
		Example: "  brineyard store 6000gal@23.1% 800gal@25%\n" +
			"  brineyard store 6000gal@22.4% --to 23.3% --with 25.5% --capacity 8000gal",
	}, &storeOptions{})
}

// flags defines the flags.
func (o *storeOptions) flags(f *pflag.FlagSet) {
	o.to = strengthFlag(f, "to", "target; with --with")
	o.with = strengthFlag(f, "with", "strength of the batch that is to bring it to target")
	o.capacity = volumeFlag(f, "capacity", "what the tank can hold; the yard file's for a tank by name")
	o.temp = temperatureFlag(f, "temp", "temperature of it all; 60F unless given")
	o.cal = temperatureFlag(f, "cal", "temperature for which the hydrometer is marked; 60F unless given")
	o.record = addRecordFlags(f)
	f.Var(&count{&o.batches}, "batches", "add the last lot so many times, and show the tank after each")
}

// count is a flag that takes a whole number above zero.
type count struct{ to *int }

// Set reads the number.
func (c *count) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil || n == 0 || n > 1000 {
		return allowed("not a number of batches", []string{"1 to 1000"})
	}
	*c.to = int(n)
	return nil
}

// reset takes back what was given.
func (c *count) reset() { *c.to = 0 }

// String returns the number in force.
func (c *count) String() string {
	if c.to == nil || *c.to == 0 {
		return ""
	}
	return strconv.Itoa(*c.to)
}

// Type names the kind of value in help.
func (c *count) Type() string { return "number" }

// ask answers them.
func (o *storeOptions) ask(s *setting, args []string) (reply, error) {
	r, err := o.request(s, args)
	if err != nil {
		return reply{}, err
	}
	out, err := brine.Store(r)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	return reply{document: storeDocument(s, r, out), record: o.record, entries: s.storeEntries(args, r, out)}, nil
}

func (o *storeOptions) request(s *setting, args []string) (brine.StoreRequest, error) {
	r := brine.StoreRequest{Batches: o.batches}
	s.origin[fault.FieldParts] = said("the lots")
	s.origin[fault.FieldBatches] = said("--batches " + strconv.Itoa(o.batches))
	if len(args) == 0 {
		return r, usagef("no lots; allowed: like 6000gal@23.1%% 800gal@25%%, or the name of a storage tank")
	}
	if err := o.recordable(s, args); err != nil {
		return r, err
	}
	for _, text := range args {
		lot, err := s.lot(text)
		if err != nil {
			return r, err
		}
		r.Lots = append(r.Lots, lot)
	}
	switch {
	case o.to.given && !o.with.given:
		return r, usagef("--to %s: needs the strength of what is added; allowed: with --with, like --with 25%%", words.Quoted(o.to.text))
	case o.with.given && !o.to.given:
		return r, usagef("--with %s: needs a target; allowed: with --to, like --to 23.3%%", words.Quoted(o.with.text))
	}
	var size *quantity.Volume
	if s.yard != nil {
		if t, ok := s.yard.Tank(args[0]); ok {
			size = &t.Capacity
		}
	}
	if o.to.given && o.to.value == 0 {
		return r, usagef("--to %s: no target; allowed: above 0%%", words.Quoted(o.to.text))
	}
	if err := notZero("capacity", o.capacity); err != nil {
		return r, err
	}
	r.Capacity = take(s, fault.FieldCapacity, "capacity", o.capacity, size, "tank "+words.Quoted(args[0])+" capacity", 0)
	r.Target = take(s, fault.FieldTarget, "to", o.to, nil, "", 0)
	r.With = take(s, fault.FieldWith, "with", o.with, nil, "", 0)
	r.Temperature = take(s, fault.FieldTemperature, "temp", o.temp, nil, "", quantity.Fahrenheit(60))
	s.origin[fault.FieldStrength] = said("the lots")
	var err error
	reading := readingFlags{cal: o.cal}
	r.Instrument, err = reading.instrument(s, gauge.PercentSalt)
	return r, err
}

// recordable refuses to record what has no tank to go into.
func (o *storeOptions) recordable(s *setting, args []string) error {
	tank := ""
	if s.isTank(args[0]) {
		tank = args[0]
	}
	switch err := o.record.check(tank); {
	case err != nil && o.record.on:
		return usagef("--record: the journal needs to know which tank this is; allowed: with the name of a tank in the yard file as the first lot")
	case err != nil:
		return err
	case o.record.on && len(args) == 1 && !o.to.given:
		return usagef("--record: nothing goes into %s; allowed: with further lots, or with --to and --with", words.Quoted(tank))
	}
	return nil
}

// storeEntries are the lots that went into the first one's tank, and what brought it to
// target.
func (s *setting) storeEntries(args []string, r brine.StoreRequest, out brine.StoreResult) []journal.Entry {
	var entries []journal.Entry
	for range max(1, r.Batches) {
		if r.Batches > 1 && len(entries) > 0 {
			last := len(args) - 1
			entries = append(entries, s.lotEntries(args[0], args[last:], r.Lots[last:])...)
			continue
		}
		entries = s.lotEntries(args[0], args[1:], r.Lots[1:])
	}
	if out.Corrected {
		entries = append(entries, correctionEntries(args[0], r.Correction(out), out.Correction)...)
	}
	return entries
}

func storeDocument(s *setting, r brine.StoreRequest, out brine.StoreResult) *report.Document {
	d := &report.Document{
		Command:  "store",
		Title:    "Storage tank",
		Verdict:  storeVerdict(s, r, out),
		Notes:    s.coldNotes(out.Cold),
		Working:  storeWorking(s, r, out),
		Cautions: liquidCautions(out.Now.Liquid),
	}
	if c := out.Correction; out.Corrected {
		d.Figures = append(d.Figures,
			quietUnless(c.DrawOffFirst > 0, s.figure("draw_off_first", "Draw off first", c.DrawOffFirst)),
			s.figure("stock_to_add", s.show("Add of %v", r.With), c.Stock),
			s.figure("corrected_volume", "Comes to", c.Final),
			s.figure("corrected_strength", "True strength then", c.Strength))
		d.Working = append(d.Working, correctWorking(s, r.Correction(out), c)...)
	}
	d.Figures = append(d.Figures, s.storeFigures(r, out)...)
	if len(out.Each) > 0 {
		d.Tables = append(d.Tables, s.eachTable(r, out))
	}
	return d
}

func storeVerdict(s *setting, r brine.StoreRequest, out brine.StoreResult) string {
	made := s.show("The tank holds %v of %s", out.Now.Volume, s.contents(out.Now.Liquid))
	if !out.Fits {
		made = s.show("It does not fit: %v of %s, and the tank holds %v", out.Now.Volume, s.contents(out.Now.Liquid), r.Capacity)
	}
	c := out.Correction
	switch {
	case !out.Corrected:
		return made + "."
	case c.Additive == brine.AnyAdditive:
		return made + ", which is on target."
	case c.DrawOffFirst > 0:
		return s.show("%s; draw off %v first, then %v of %v brings it to %v at %v.", made, c.DrawOffFirst, c.Stock, r.With, r.Target, c.Final)
	}
	return s.show("%s; %v of %v brings it to %v at %v.", made, c.Stock, r.With, r.Target, c.Final)
}

// contents names a liquid by its strength, or by what is in it.
func (s *setting) contents(l balance.Liquid) string {
	if w, plain := l.Strength(); plain && w > 0 {
		return s.show("%v brine", w)
	}
	return s.compositionText(l)
}

func (s *setting) storeFigures(r brine.StoreRequest, out brine.StoreResult) []report.Figure {
	strength := report.Figure{Key: "strength", Label: "True strength", Value: report.Nothing("%", s.compositionText(out.Now.Liquid))}
	if w, plain := out.Now.Liquid.Strength(); plain {
		strength = s.figure("strength", "True strength", w)
	}
	reading := report.Figure{Key: "expected_reading", Label: s.show("Percent hydrometer, at %v", r.Temperature), Value: report.Nothing("%", "off the scale")}
	if out.OnScale {
		reading = s.figure(reading.Key, reading.Label, r.Instrument.Quantity(out.Reading))
	}
	fits := report.Nothing("", "not known")
	if r.Capacity > 0 {
		fits = report.Word("yes")
		if !out.Fits || out.Correction.DrawOffFirst > 0 {
			fits = report.Word("no")
		}
		fits.Text += s.show(", the tank can hold %v", r.Capacity)
	}
	volume := "Volume"
	if out.Corrected {
		volume, strength.Label = "In the tank now", "True strength now"
		reading.Label += ", now"
	}
	figures := []report.Figure{
		s.figure("volume", volume, out.Now.Volume),
		strength,
		s.figure("density", s.show("Density at %v", r.Temperature), out.Density),
		reading,
		quietUnless(r.Capacity > 0, report.Figure{Key: "fits", Label: "Fits the tank", Value: fits}),
	}
	for _, f := range s.composition(out.Now.Liquid) {
		figures = append(figures, quiet(f))
	}
	return append(figures, s.cold(out.Cold)...)
}

// eachTable shows the tank after each batch.
func (s *setting) eachTable(r brine.StoreRequest, out brine.StoreResult) report.Table {
	t := report.Table{
		Key:   "batches",
		Title: "The tank after each batch",
		Columns: []report.Column{
			{Key: "batch", Label: "Batch"}, {Key: "volume", Label: "Volume"}, {Key: "strength", Label: "Salt"}, {Key: "fits", Label: "Fits"},
		},
	}
	for i, state := range out.Each {
		fits := "yes"
		switch {
		case r.Capacity == 0:
			fits = "not known"
		case state.Volume > r.Capacity:
			fits = "no"
		}
		t.Rows = append(t.Rows, []report.Value{
			s.value(quantity.Count(i + 1)), s.value(state.Volume),
			s.value(quantity.Strength(state.Liquid.Composition.Solute())), report.Word(fits),
		})
	}
	return t
}

// storeWorking adds up weights and salts of the lots.
func storeWorking(s *setting, r brine.StoreRequest, out brine.StoreResult) []report.Step {
	if !s.globals.Working {
		return nil
	}
	p := &pocket{system: s.system}
	var weights []term
	salts := map[solution.Salt][]term{}
	for i, lot := range r.Lots {
		weight, ok := p.lotStep(s, r, i)
		if !ok {
			return nil // of a product only the data sheet is known
		}
		weights = append(weights, weight)
		for salt := range saltFlags {
			k := solution.Salt(salt)
			if w := lot.Liquid.Composition.Fraction(k); w > 0 {
				share := p.share(quantity.Strength(w))
				salts[k] = append(salts[k], p.step(k.String()+" in it", "weight x strength", "{} x {}", []term{weight, share}, weight.value*share.value, weight.unit))
			}
		}
	}
	all := p.sum("Weight of all", weights)
	for salt := range saltFlags {
		k := solution.Salt(salt)
		if len(salts[k]) == 0 {
			continue
		}
		dissolved := p.sum(k.String()+" in all", salts[k])
		p.step("Strength of the mix in "+k.String(), "100 x salt / weight", "100 x {} / {}", []term{dissolved, all}, 100*dissolved.value/all.value, "%")
	}
	end := p.read("Density of the mix", s.show("at %v, Laliberte (2009)", r.Temperature), p.density(out.Density))
	p.step("Volume of the mix", "weight / density", "{} / {}", []term{all, end}, all.value/end.value, p.volumeUnit())
	return p.steps
}

// lotStep is the weight of a lot, so many times as it is pumped in; false where its
// density is that of a product.
func (p *pocket) lotStep(s *setting, r brine.StoreRequest, i int) (term, bool) {
	lot := r.Lots[i]
	rho, err := lot.Liquid.Density(r.Temperature)
	if err != nil || len(lot.Liquid.Products) > 0 {
		return term{}, false
	}
	volume := p.of(lot.Volume)
	if r.Batches > 1 && i == len(r.Lots)-1 {
		times := number(float64(r.Batches), "")
		volume = p.step(s.show("Lot %d, in all", i+1), "volume x batches", "{} x {}", []term{volume, times}, volume.value*times.value, volume.unit)
	}
	density := p.read("Density of "+s.contents(lot.Liquid), s.show("at %v, Laliberte (2009)", r.Temperature), p.density(rho))
	return p.weigh(s.show("Weight of lot %d", i+1), volume, density), true
}

// sum adds terms of one unit.
func (p *pocket) sum(what string, terms []term) term {
	if len(terms) == 1 {
		return terms[0]
	}
	total := 0.0
	for _, t := range terms {
		total += t.value
	}
	return p.step(what, "sum", strings.TrimSuffix(strings.Repeat("{} + ", len(terms)), " + "), terms, total, terms[0].unit)
}
