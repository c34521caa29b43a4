package cli

import (
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type freezeOptions struct {
	salts    [4]*input[quantity.Strength] // in the order of solution's salts
	liquid   text
	at       *input[quantity.Temperature]
	pavement *input[quantity.Temperature]
	volume   *input[quantity.Volume]
	temp     *input[quantity.Temperature]
	curve    bool
	ascii    *bool
}

// saltFlags name the flags of the salts.
var saltFlags = [...]string{solution.NaCl: "nacl", solution.KCl: "kcl", solution.CaCl2: "cacl2", solution.MgCl2: "mgcl2"}

func newFreeze(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "freeze",
		Short: "What the cold does to a liquid",
		Long: "freeze tells at what temperature ice forms in a liquid, at what temperature\n" +
			"salt falls out of it, and which comes first: that is what a tank or a pump\n" +
			"meets. It also tells what the liquid has become at a temperature below that,\n" +
			"draws its freezing diagram, and says how much ice it melts.",
		Example: "  brineyard freeze --nacl 23.3%\n" +
			"  brineyard freeze --nacl 18% --cacl2 7% --at 0F --volume 4000gal",
		Args: noArguments,
	}, &freezeOptions{})
}

// flags defines the flags.
func (o *freezeOptions) flags(f *pflag.FlagSet) {
	for _, salt := range []solution.Salt{solution.NaCl, solution.CaCl2, solution.MgCl2, solution.KCl} {
		o.salts[salt] = strengthFlag(f, saltFlags[salt], salt.String()+", by weight of the liquid")
	}
	f.Var(&o.liquid, "liquid", "a `liquid` by name, instead of salts: brine@23.3%, or one of the yard file")
	o.at = temperatureFlag(f, "at", "what it has become after standing at this temperature")
	o.pavement = temperatureFlag(f, "pavement", "how much ice it melts on pavement at this temperature")
	o.volume = volumeFlag(f, "volume", "what stands in the tank, for --at")
	o.temp = temperatureFlag(f, "temp", "temperature at which its volume is measured; 60F unless given")
	f.BoolVar(&o.curve, "curve", false, "the freezing diagram, as a table and a chart")
	o.ascii = asciiFlag(f)
}

// ask answers them.
func (o *freezeOptions) ask(s *setting, _ []string) (reply, error) {
	r, err := o.request(s)
	if err != nil {
		return reply{}, err
	}
	f, err := brine.Freeze(r)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	d := freezeDocument(s, r, f)
	d.ASCII = *o.ascii
	return shown(d, nil)
}

func (o *freezeOptions) request(s *setting) (brine.FreezeRequest, error) {
	r := brine.FreezeRequest{Curve: o.curve}
	var err error
	if r.Liquid, err = o.asked(s); err != nil {
		return r, err
	}
	if o.volume.given && !o.at.given {
		return r, usagef("--volume %s: says nothing without --at; allowed: both, like --at 0F", words.Quoted(o.volume.text))
	}
	r.At = take(s, fault.FieldAt, "at", o.at, nil, "", 0)
	r.Pavement = take(s, fault.FieldPavement, "pavement", o.pavement, nil, "", 0)
	r.Volume = take(s, fault.FieldVolume, "volume", o.volume, nil, "", 0)
	r.StoredAt = take(s, fault.FieldTemperature, "temp", o.temp, nil, "", quantity.Fahrenheit(60))
	return r, nil
}

// asked is the liquid: of the salts given, or by name.
func (o *freezeOptions) asked(s *setting) (balance.Liquid, error) {
	var given []string
	at := func(salt solution.Salt) float64 {
		if in := o.salts[salt]; in.given {
			given = append(given, "--"+saltFlags[salt]+" "+words.Quoted(in.text))
		}
		return float64(o.salts[salt].value)
	}
	c := solution.Composition{
		NaCl: at(solution.NaCl), CaCl2: at(solution.CaCl2), MgCl2: at(solution.MgCl2), KCl: at(solution.KCl),
	}
	switch {
	case len(given) > 0 && o.liquid.given:
		return balance.Liquid{}, usagef("--liquid %s and %s: two liquids; allowed: one of them", words.Quoted(o.liquid.value), given[0])
	case o.liquid.given:
		s.origin[fault.FieldLiquid] = said("--liquid " + words.Quoted(o.liquid.value))
		l, err := s.liquid(o.liquid.value)
		if err != nil {
			return balance.Liquid{}, usagef("--liquid %v", err)
		}
		return l.liquid, nil
	case len(given) == 0:
		return balance.Liquid{}, usagef("no liquid; allowed: one or more of --nacl, --cacl2, --mgcl2, --kcl, like --nacl 23.3%%, or --liquid")
	}
	s.origin[fault.FieldLiquid] = said(strings.Join(given, " "))
	return balance.Liquid{Name: "this liquid", Composition: c}, nil
}

func freezeDocument(s *setting, r brine.FreezeRequest, f brine.FreezeResult) *report.Document {
	d := &report.Document{
		Command: "freeze",
		Title:   "What the cold does",
		Verdict: freezeVerdict(s, r, f),
		Figures: s.cold(f.Cold),
		Working: freezeWorking(s, r, f),
	}
	if !f.Stands || f.Stand.Salt > 0 {
		d.Notes = s.coldNotes(f.Cold)
	}
	d.Notes = append(d.Notes, calciumNotes(r.Liquid)...)
	for _, r := range f.OutOfRange {
		d.Notes = append(d.Notes, s.rangeNote(r))
	}
	if f.Stands {
		s.addStand(d, r, f)
	}
	if f.Melts {
		s.addMelt(d, r, f)
	}
	if len(f.Curve) > 0 {
		s.addCurve(d, r, f)
	}
	return d
}

// freezeVerdict answers the narrowest question asked.
func freezeVerdict(s *setting, r brine.FreezeRequest, f brine.FreezeResult) string {
	switch {
	case f.Stands:
		return standVerdict(s, r, f)
	case f.Melts:
		return meltVerdict(s, r, f)
	}
	return coldVerdict(s, f.Cold)
}

// freezeWorking shows the arithmetic behind what was asked.
func freezeWorking(s *setting, r brine.FreezeRequest, f brine.FreezeResult) []report.Step {
	if !s.globals.Working {
		return nil
	}
	p := &pocket{system: s.system}
	if c := r.Liquid.Composition; !f.Cold.Estimated && c.Solute() > 0 && f.Cold.Ice.Found {
		s.iceSteps(p, c, f)
	}
	if first := f.Cold.First(); first.Found && first.Solid != solution.Ice {
		p.read("Where salt falls out", "Pitzer model and solubility products, by trial in temperature", p.of(temperatureOf(first)))
	}
	s.standSteps(p, r, f)
	s.meltSteps(p, r, f)
	return p.steps
}

// standSteps turn fractions at equilibrium into weights in the tank.
func (s *setting) standSteps(p *pocket, r brine.FreezeRequest, f brine.FreezeResult) {
	if !f.Stands || r.Volume == 0 {
		return
	}
	volume := p.of(r.Volume)
	density := p.read(s.show("Density at %v", r.StoredAt), "Laliberte (2009)", p.density(f.Density))
	weight := p.weigh("Weight of what is in the tank", volume, density)
	for _, part := range []struct {
		name string
		x    quantity.Fraction
	}{{"Ice", f.Stand.Ice}, {"Salt crystals", f.Stand.Salt}} {
		if part.x == 0 {
			continue
		}
		share := p.read(s.show("%s at %v, part of the weight", part.name, r.At), "equilibrium of liquid, ice and salts (least Gibbs energy)", number(float64(part.x), ""))
		p.step(part.name+" in the tank", "weight x part", "{} x {}", []term{weight, share}, weight.value*share.value, weight.unit)
	}
}

// meltSteps dilute the liquid to what freezes on the pavement.
func (s *setting) meltSteps(p *pocket, r brine.FreezeRequest, f brine.FreezeResult) {
	if !f.Melts || f.Melt.Dilution == 0 {
		return
	}
	strength := number(r.Liquid.Composition.Solute(), "")
	diluted := p.read(s.show("Strength, at this ratio of salts, that freezes at %v", r.Pavement), "Pitzer model, by trial in strength", number(float64(f.Melt.Diluted), ""))
	water := p.step("Melt water that a unit weight takes up", "strength / diluted strength - 1", "{} / {} - 1",
		[]term{strength, diluted}, strength.value/diluted.value-1, "")
	density := p.density(f.Density)
	unit := density.unit
	p.step("Ice melted by a unit volume", "melt water x density", "{} x {}", []term{water, density}, water.value*density.value, unit)
}

// iceSteps show how the ice point follows from the molalities.
func (s *setting) iceSteps(p *pocket, c solution.Composition, f brine.FreezeResult) {
	text, terms, rest := "1", []term(nil), 1.0
	for salt := range saltFlags {
		if w := c.Fraction(solution.Salt(salt)); w > 0 {
			t := number(w, "")
			text, terms, rest = text+" - {}", append(terms, t), rest-t.value
		}
	}
	water := p.step("Water in one kg of the liquid, kg", "1 - all salt", text, terms, rest, "")
	all := p.ions(c, water)
	osmotic := p.read(s.show("Osmotic coefficient at the ice point, %v", temperatureOf(f.Cold.Ice)),
		"Pitzer model, Toner and Catling (2017); found by trial until the last step is even", number(f.Osmotic, ""))
	perMol := number(solution.MolarMassWater, "")
	p.step("Logarithm of the water activity", "-osmotic coefficient x ions x kg in a mol of water", "-{} x {} x {}",
		[]term{osmotic, all, perMol}, -osmotic.value*all.value*perMol.value, "")
	p.read("Logarithm of the activity of ice at that temperature", "from its own table, log K of ice; equal, so water and ice are in balance", number(f.Ice, ""))
}

// ions adds up mol of ions per kg of water.
func (p *pocket) ions(c solution.Composition, water term) term {
	text, terms, sum := "", []term(nil), 0.0
	for salt := range saltFlags {
		k := solution.Salt(salt)
		w := c.Fraction(k)
		if w == 0 {
			continue
		}
		share, molar := number(w, ""), number(1e3*k.MolarMass(), "")
		m := p.step(k.String()+" per kg of water, mol", "1000 x salt / (molar mass x water)", "1000 x {} / ({} x {})",
			[]term{share, molar, water}, 1000*share.value/(molar.value*water.value), "")
		perSalt := number(k.Ions(), "")
		if text != "" {
			text += " + "
		}
		text += "{} x {}"
		terms = append(terms, perSalt, m)
		sum += perSalt.value * m.value
	}
	return p.step("Ions per kg of water, mol", "ions in the salt x its mol, summed", text, terms, sum, "")
}
