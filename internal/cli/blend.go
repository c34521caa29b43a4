package cli

import (
	"fmt"
	"sort"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type blendOptions struct {
	by        choice
	volume    *input[quantity.Volume]
	temp      *input[quantity.Temperature]
	cal       *input[quantity.Temperature]
	iceAt     *input[quantity.Temperature]
	keepClear *input[quantity.Temperature]
	into      text
	record    *recordFlags
}

func newBlend(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "blend SHARE:LIQUID ...",
		Short: "What a mix becomes, and the share or base for a temperature",
		Long: "blend tells what a mix of liquids becomes: when ice forms in it, when salt\n" +
			"falls out of it, what it weighs and costs. A liquid is brine, nacl, cacl2,\n" +
			"mgcl2 or kcl with its strength, water, or the name of a liquid in the yard\n" +
			"file. It also finds the share of the last part for an ice point, and the\n" +
			"strength of the first part, the base, at which no salt falls out.",
		Example: "  brineyard blend 80:brine@23.3% 20:cacl2@32%\n" +
			"  brineyard blend 80:brine@23.3% 20:cacl2@32% --keep-clear 0F --volume 1000gal",
	}, newBlendOptions())
}

// flags defines the flags.
func (o *blendOptions) flags(f *pflag.FlagSet) {
	f.Var(&o.by, "by", "shares by volume or weight")
	o.volume = volumeFlag(f, "volume", "blend wanted, for the amounts to meter")
	o.temp = temperatureFlag(f, "temp", "temperature of the parts; 60F unless given")
	o.cal = temperatureFlag(f, "cal", "temperature for which the hydrometer is marked; 60F unless given")
	o.iceAt = temperatureFlag(f, "ice-at", "find the share of the last part that has this ice point")
	o.keepClear = temperatureFlag(f, "keep-clear", "find the strength of the first part at which no salt falls out down to this temperature")
	o.record = addRecordFlags(f)
	f.Var(&o.into, "additive-into", "`tank` of the yard file whose contents are the base, the shares given being of the blend in percent")
}

// ask answers them.
func (o *blendOptions) ask(s *setting, args []string) (reply, error) {
	r, tank, err := o.request(s, args)
	if err != nil {
		return reply{}, err
	}
	solved, err := o.solve(s, &r)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	if solved == nil {
		b, err := brine.NewBlend(r)
		if err != nil {
			return reply{}, s.inputError(err)
		}
		return o.answer(s, r, b, nil, tank), nil
	}
	if base := solved.Request.Parts[0].Amount; tank != nil && base < 0.01 {
		return reply{}, usagef("%s: that takes next to nothing of what stands in the tank; allowed: a warmer ice point", s.place(s.origin[fault.FieldIceAt]))
	}
	return o.answer(s, solved.Request, solved.Blend, solved, tank), nil
}

func (o *blendOptions) answer(s *setting, r brine.BlendRequest, b brine.Blend, solved *brine.Solved, tank *intoTank) reply {
	// The entries first: the document turns the amounts into those for the tank.
	entries := s.blendEntries(r, b, tank)
	return reply{document: o.document(s, r, b, solved, tank), record: o.record, entries: entries}
}

func newBlendOptions() *blendOptions {
	return &blendOptions{by: choice{words: []string{"volume", "weight"}, value: "volume"}}
}

// solve finds what was asked for; nil when nothing was.
func (o *blendOptions) solve(s *setting, r *brine.BlendRequest) (*brine.Solved, error) {
	ice := take(s, fault.FieldIceAt, "ice-at", o.iceAt, nil, "", 0)
	clear := take(s, fault.FieldKeepClear, "keep-clear", o.keepClear, nil, "", 0)
	for _, asked := range []struct {
		given bool
		field string
		t     quantity.Temperature
	}{{o.iceAt.given, "ice-at", ice}, {o.keepClear.given, "keep-clear", clear}} {
		if t := float64(asked.t); asked.given && !(t >= solution.Floor && t <= solution.FitCeiling) {
			return nil, usagef("%s: outside the model; allowed: %v to %v", s.place(s.origin[asked.field]),
				quantity.Temperature(solution.Floor).In(s.system), quantity.Temperature(solution.FitCeiling).In(s.system))
		}
	}
	var solved brine.Solved
	var err error
	switch {
	case o.iceAt.given && o.keepClear.given:
		solved, err = brine.Meet(*r, ice, clear)
	case o.iceAt.given:
		solved, err = brine.ShareForIce(*r, ice)
	case o.keepClear.given:
		solved, err = brine.KeepClear(*r, clear)
	default:
		return nil, nil
	}
	return &solved, err
}

// intoTank is a tank that an additive goes into.
type intoTank struct {
	name     string
	contents quantity.Volume
	capacity quantity.Volume
}

func (o *blendOptions) request(s *setting, args []string) (brine.BlendRequest, *intoTank, error) {
	r := brine.BlendRequest{ByWeight: o.by.value == "weight"}
	s.origin[fault.FieldParts] = said("the parts")
	s.origin[fault.FieldLiquid] = said("the blend")
	if err := o.record.check(o.into.value); err != nil {
		if o.record.on {
			err = usagef("--record: the journal needs to know which tank this is; allowed: with --additive-into and a tank of the yard file")
		}
		return r, nil, err
	}
	for _, text := range args {
		p, err := s.part(text)
		if err != nil {
			return r, nil, err
		}
		r.Parts = append(r.Parts, p)
	}
	tank, err := o.base(s, &r)
	if err != nil {
		return r, nil, err
	}
	if len(r.Parts) == 0 {
		return r, nil, usagef("no parts; allowed: two or more, like 80:brine@23.3%% 20:cacl2@32%%")
	}
	if o.volume.given && o.volume.value == 0 {
		return r, nil, usagef("--volume %s: no blend; allowed: above 0", words.Quoted(o.volume.text))
	}
	r.Volume = take(s, fault.FieldVolume, "volume", o.volume, nil, "", 0)
	r.Temperature = take(s, fault.FieldTemperature, "temp", o.temp, nil, "", quantity.Fahrenheit(60))
	reading := readingFlags{cal: o.cal}
	r.Instrument, err = reading.instrument(s, gauge.PercentSalt)
	return r, tank, err
}

// base puts what a tank holds before the parts, as the rest of 100.
func (o *blendOptions) base(s *setting, r *brine.BlendRequest) (*intoTank, error) {
	if !o.into.given {
		return nil, nil
	}
	t, err := s.tank("additive-into", o.into.value)
	if err != nil {
		return nil, err
	}
	sum := 0.0
	for _, p := range r.Parts {
		sum += p.Amount
	}
	switch {
	case t.Liquid == nil || t.Usual() == 0:
		return nil, usagef("--additive-into %s: the yard file does not say what stands in that tank; allowed: a tank with contents and strength", words.Quoted(o.into.value))
	case len(r.Parts) == 0:
		return nil, usagef("--additive-into %s: no additive; allowed: like 20:cacl2@32%%", words.Quoted(o.into.value))
	case !(sum < 100):
		return nil, usagef("--additive-into %s: additives of %g leave nothing of the tank; allowed: shares in percent of the blend, below 100 in all", words.Quoted(o.into.value), sum)
	case o.keepClear.given:
		return nil, usagef("--additive-into %s and --keep-clear %s: what stands in the tank has its strength; allowed: one of them", words.Quoted(o.into.value), words.Quoted(o.keepClear.text))
	case o.volume.given:
		return nil, usagef("--additive-into %s and --volume %s: the tank sets the volume; allowed: one of them", words.Quoted(o.into.value), words.Quoted(o.volume.text))
	}
	r.Parts = append([]brine.Part{{Liquid: *t.Liquid, Amount: 100 - sum}}, r.Parts...)
	return &intoTank{name: t.Name, contents: t.Usual(), capacity: t.Capacity}, nil
}

func (o *blendOptions) document(s *setting, r brine.BlendRequest, b brine.Blend, solved *brine.Solved, tank *intoTank) *report.Document {
	d := &report.Document{
		Command: "blend",
		Title:   "Blend",
		Verdict: o.verdict(s, r, b, solved),
		Figures: s.blendFigures(r, b, solved),
		Working: blendWorking(s, r, b),
		Notes:   s.coldNotes(b.Cold),
	}
	if tank != nil {
		s.addTank(d, r, b, tank)
	} else {
		d.Tables = append(d.Tables, s.meterTable(r, b, meterOrder(r), r.Volume > 0))
	}
	d.Notes = append(d.Notes, blendNotes(s, r, b)...)
	d.Cautions = liquidCautions(b.Liquid)
	d.Next = nextAfterBlend
	return d
}

// verdict says what was found, then what the cold does to it.
func (o *blendOptions) verdict(s *setting, r brine.BlendRequest, b brine.Blend, solved *brine.Solved) string {
	cold := coldVerdict(s, b.Cold)
	if solved == nil {
		return cold
	}
	last := r.Parts[len(r.Parts)-1].Liquid
	share := s.show("%v of the blend as %s", solved.Share, s.describe(last))
	base := s.show("base brine of up to %v", solved.BaseStrength)
	if solved.AnyBase {
		base = s.show("any base, even saturated (%v)", solved.BaseStrength)
	}
	switch {
	case o.iceAt.given && o.keepClear.given:
		return s.show("Take %s and %s: ice forms at %v and no salt falls out above %v.", share, base, temperatureOf(b.Cold.Ice), o.keepClear.value)
	case o.iceAt.given:
		return s.show("Take %s for an ice point of %v. %s", share, o.iceAt.value, cold)
	}
	return s.show("Take %s: no salt falls out down to %v. Ice forms at %v.", base, o.keepClear.value, temperatureOf(b.Cold.Ice))
}

func (s *setting) blendFigures(r brine.BlendRequest, b brine.Blend, solved *brine.Solved) []report.Figure {
	var figures []report.Figure
	if solved != nil {
		figures = append(figures,
			s.figure("last_share", "Share of "+s.describe(r.Parts[len(r.Parts)-1].Liquid), solved.Share),
			s.figure("base_strength", "Strength of the base", solved.BaseStrength))
	}
	figures = append(figures, s.cold(b.Cold)...)
	figures = append(figures, s.composition(b.Liquid)...)
	figures = append(figures,
		s.figure("density", s.show("Density at %v", r.Temperature), b.Density),
		s.figure("chloride_per_volume", "Chloride", b.Chloride),
		known(s, "cost_per_volume", "Cost", only(b.Cost, b.Priced)),
		s.readingFigure(r, b),
		known(s, "heat_released", "Heat given off (below 0: taken up)", only(b.Heat, b.HeatKnown)),
		known(s, "final_temp", s.show("Temperature, from %v", r.Temperature), only(b.FinalTemp, b.HeatKnown)))
	return figures
}

// known is a figure that may not be known; then it is for programs alone.
func known[Q quantity.Quantity](s *setting, key, label string, q *Q) report.Figure {
	if q == nil {
		var none Q
		return quiet(report.Figure{Key: key, Label: label, Value: report.Nothing(none.In(s.system).Unit, "not known")})
	}
	return s.figure(key, label, *q)
}

// only is a quantity if it is known, for known.
func only[Q any](q Q, ok bool) *Q {
	if !ok {
		return nil
	}
	return &q
}

// readingFigure is what a percent hydrometer shows, where it shows anything.
func (s *setting) readingFigure(r brine.BlendRequest, b brine.Blend) report.Figure {
	label := s.show("Percent hydrometer, at %v", r.Temperature)
	if !b.OnScale {
		return report.Figure{Key: "expected_reading", Label: label, Value: report.Nothing("%", "off the scale")}
	}
	return s.figure("expected_reading", label, r.Instrument.Quantity(b.Reading))
}

// meterTable lists the parts in the order in which they go in.
func (s *setting) meterTable(r brine.BlendRequest, b brine.Blend, order []int, known bool) report.Table {
	t := report.Table{
		Key:   "parts",
		Title: "Parts, in the order in which they go in",
		Columns: []report.Column{
			{Key: "step", Label: ""}, {Key: "liquid", Label: "Liquid"}, {Key: "share", Label: "Share"},
		},
	}
	if known {
		t.Title = s.show("To meter for %v, in this order", b.Total)
		t.Columns = append(t.Columns, report.Column{Key: "volume", Label: "Volume"})
	}
	sum := 0.0
	for _, p := range r.Parts {
		sum += p.Amount
	}
	for n, i := range order {
		p := r.Parts[i]
		row := []report.Value{report.Word(ordinal(n)), report.Word(s.describe(p.Liquid)), s.value(quantity.Fraction(p.Amount / sum))}
		if known {
			row = append(row, s.value(b.Amounts[i]))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// meterOrder puts the light liquids first, so that the heavy ones are pumped into
// what already turns over. Common practice, no source.
func meterOrder(r brine.BlendRequest) []int {
	order := make([]int, len(r.Parts))
	weight := make([]float64, len(r.Parts))
	for i, p := range r.Parts {
		order[i] = i
		rho, err := p.Liquid.Density(r.Temperature)
		if err == nil {
			weight[i] = float64(rho)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return weight[order[a]] < weight[order[b]] })
	return order
}

// addTank says what to put into a tank that holds the base.
func (s *setting) addTank(d *report.Document, r brine.BlendRequest, b brine.Blend, tank *intoTank) {
	scale := tank.contents / b.Amounts[0]
	order, added := make([]int, len(b.Amounts)), quantity.Volume(0)
	for i := range b.Amounts {
		b.Amounts[i] *= scale
		order[i] = i // what stands in the tank comes first
		if i > 0 {
			added += b.Amounts[i]
		}
	}
	b.Total *= scale
	d.Tables = append(d.Tables, s.meterTable(r, b, order, true))
	fits := report.Word("yes")
	if b.Total > tank.capacity {
		fits = report.Word("no")
		d.Verdict = s.show("It does not fit: %v in tank %s of %v. %s", b.Total, tank.name, tank.capacity, d.Verdict)
	}
	fits.Text = fmt.Sprintf("%s, tank %s holds %v", fits.Text, tank.name, tank.capacity.In(s.system))
	d.Figures = append(d.Figures,
		s.figure("additive_to_add", "Additive to pump in, in all", added),
		s.figure("final_volume", "Comes to", b.Total),
		report.Figure{Key: "fits", Label: "Fits the tank", Value: fits})
}

func blendNotes(s *setting, r brine.BlendRequest, b brine.Blend) []string {
	var notes []string
	if _, plain := b.Liquid.Strength(); !plain && b.OnScale {
		notes = append(notes, s.show("A percent hydrometer is marked for plain salt brine: in this blend it shows %v, which is not its strength (%s) and does not tell its ice point. Use it only to see that the blend came out as planned.",
			r.Instrument.Quantity(b.Reading), s.compositionText(b.Liquid)))
	}
	if len(b.Liquid.Products) > 0 {
		notes = append(notes, "What heat a product gives off in mixing is not known.")
	}
	for _, l := range solution.OutOfRange(solution.DensityFit, b.Liquid.Composition, float64(r.Temperature)) {
		notes = append(notes, s.rangeNote(l))
	}
	first := b.Cold.First()
	if first.Found {
		for _, l := range solution.OutOfRange(solution.Saturation, b.Liquid.Composition, first.Temperature) {
			notes = append(notes, s.rangeNote(l))
		}
	}
	notes = append(notes, calciumNotes(b.Liquid)...)
	if len(r.Parts) > 1 && !r.ByWeight {
		notes = append(notes, "Volumes shrink a little in mixing: shares are of what goes in, the total of what comes out.")
	}
	return notes
}

// liquidCautions go with pumping a mix.
func liquidCautions(mix balance.Liquid) []string {
	cautions := []string{cautionPump, cautionDrain, cautionLocal}
	if c := mix.Composition; c.CaCl2 > 0 || c.MgCl2 > 0 {
		return append([]string{cautionChloride}, cautions...)
	}
	return cautions
}

// blendWorking balances the weights of the parts.
func blendWorking(s *setting, r brine.BlendRequest, b brine.Blend) []report.Step {
	if !s.globals.Working {
		return nil
	}
	p := &pocket{system: s.system}
	weights, sum := make([]term, len(r.Parts)), 0.0
	text := ""
	for i, part := range r.Parts {
		amount := number(part.Amount, "")
		name := s.describe(part.Liquid)
		if r.ByWeight {
			weights[i] = p.read("Parts by weight of "+name, "as given", amount)
		} else {
			rho, err := part.Liquid.Density(r.Temperature)
			if err != nil {
				return nil
			}
			density := number(p.density(rho).value, "")
			p.read("Density of "+name, s.show("at %v, %s", r.Temperature, p.density(rho).unit), density)
			weights[i] = p.step("Weight of its share", "parts x density", "{} x {}", []term{amount, density}, amount.value*density.value, "")
		}
		sum += weights[i].value
		if i > 0 {
			text += " + "
		}
		text += "{}"
	}
	total := p.step("Weight of all", "sum of the weights", text, weights, sum, "")
	for salt := range saltFlags {
		p.saltInBlend(r, solution.Salt(salt), weights, total)
	}
	if r.Volume > 0 {
		p.amounts(s, r, b, weights, total)
	}
	return p.steps
}

// amounts are the volumes that make the blend asked for.
func (p *pocket) amounts(s *setting, r brine.BlendRequest, b brine.Blend, weights []term, total term) {
	density := p.read("Density of the blend", s.show("at %v, Laliberte (2009) for its salts", r.Temperature), p.density(b.Density))
	whole := p.weigh("Weight of the blend", p.of(r.Volume), density)
	for i, part := range r.Parts {
		rho, err := part.Liquid.Density(r.Temperature)
		if err != nil {
			return
		}
		own := p.density(rho)
		p.step("To meter of "+s.describe(part.Liquid), "weight of the blend x its weight / weight of all / its density", "{} x {} / {} / {}",
			[]term{whole, weights[i], total, own}, whole.value*weights[i].value/total.value/own.value, p.volumeUnit())
	}
}

// saltInBlend works out the strength of one salt.
func (p *pocket) saltInBlend(r brine.BlendRequest, salt solution.Salt, weights []term, total term) {
	text, terms, sum := "", []term(nil), 0.0
	for i, part := range r.Parts {
		w := part.Liquid.Composition.Fraction(salt)
		if w == 0 {
			continue
		}
		share := number(w, "")
		if text != "" {
			text += " + "
		}
		text += "{} x {}"
		terms = append(terms, weights[i], share)
		sum += weights[i].value * share.value
	}
	if text == "" {
		return
	}
	mass := p.step(salt.String()+" in it", "weight of each part x its strength, summed", text, terms, sum, "")
	p.step("Strength in "+salt.String(), "100 x salt / weight of all", "100 x {} / {}", []term{mass, total}, 100*mass.value/total.value, "%")
}
