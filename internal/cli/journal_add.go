package cli

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// addKind is what one kind of entry takes.
type addKind struct {
	kind     journal.Kind
	short    string
	example  string
	another  string
	flags    string // names, besides those that every kind takes
	required string
}

// addKinds are the kinds that people record, with their flags.
var addKinds = []addKind{
	{journal.Batch, "A batch was made: what the mixing tank then holds", "--tank mixer --volume 1095gal --strength 23.4%", "--tank mixer --salt 2650lb --water 982gal",
		"tank volume strength cacl2 mgcl2 kcl salt water", "tank"},
	{journal.Reading, "An instrument was read in a tank", "--tank mixer --hydrometer 23.9% --temp 41F", "--tank mixer --sg 1.178 --temp 12C",
		"tank " + strings.Join(scaleNames, " ") + " cal temp", "tank"},
	{journal.Correction, "Water, salt or brine went into a tank to correct it", "--tank mixer --water 40gal", "--tank north --volume 300gal --strength 26%",
		"tank water salt volume strength from", "tank"},
	{journal.Transfer, "A volume went from one tank into another", "--from mixer --tank north --volume 1095gal", "--from north --tank south --volume 2kL",
		"from tank volume", "from tank volume"},
	{journal.Load, "A truck was loaded for a route", "--from north --volume 487gal --route ridge-road", "--from south --volume 60gal --liquid cold-mix",
		"from truck route volume liquid", "from volume"},
	{journal.Delivery, "Salt or a liquid was delivered", "--salt 25ton --cost 1790", "--tank south --liquid cal31 --volume 1500gal",
		"salt tank liquid volume strength cacl2 mgcl2 kcl cost", ""},
	{journal.Clean, "A tank was emptied and cleaned", "--tank mixer", "--tank mixer --note \"sludge to the pad\"", "tank cost", "tank"},
	{journal.Count, "A tank, or the salt pile, was measured", "--tank north --volume 3450gal", "--tank pile --salt 38ton",
		"tank volume strength liquid cacl2 mgcl2 kcl salt", ""},
	{journal.Note, "Anything else", "--note \"valve F3 drips\"", "--note \"first flake\" --at \"2026-01-14 05:40\"", "tank", "note"},
}

// addOptions hold every flag; a kind has some of them.
type addOptions struct {
	tank, from, truck, route, liquid text
	volume, water                    *input[quantity.Volume]
	strength, kcl, cacl2, mgcl2      *input[quantity.Strength]
	salt                             *input[quantity.Mass]
	temp                             *input[quantity.Temperature]
	instrument                       *readingFlags
	cost                             *input[quantity.Money]
	operator, note, at               text
	journal                          *text
}

func newJournalAdd(env *Env, g *globals) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "add KIND",
		Short: "Record an event",
		Long: "add writes one row: batch, reading, correction, transfer, load, delivery, clean,\n" +
			"count or note. When it returns without an error, the row is on the disk.",
		Example: "  brineyard journal add batch " + addKinds[0].example + "\n  brineyard journal add load " + addKinds[4].example,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Help()
			}
			return usagef("no such kind of entry: %s; %s", words.Quoted(args[0]), words.Allowed(args[0], kindNames()))
		},
	}
	for _, k := range addKinds {
		cmd.AddCommand(newAddKind(env, g, k))
	}
	return cmd
}

func kindNames() []string {
	var names []string
	for _, k := range addKinds {
		names = append(names, string(k.kind))
	}
	return names
}

func newAddKind(env *Env, g *globals, k addKind) *cobra.Command {
	o := &addOptions{}
	cmd := &cobra.Command{
		Use:     string(k.kind),
		Short:   k.short,
		Long:    k.short + ".\nNames are those of the yard file, if there is one.\nThe row is on the disk when this returns without an error.",
		Example: "  brineyard journal add " + string(k.kind) + " " + k.example + "\n  brineyard journal add " + string(k.kind) + " " + k.another,
		Args:    noArguments,
		RunE:    func(cmd *cobra.Command, _ []string) error { return runAdd(env, g, k, o, cmd.Flags()) },
	}
	all := pflag.NewFlagSet("", pflag.ContinueOnError)
	o.add(all)
	names := append(strings.Fields(k.flags), "operator", "note", "at", "journal")
	all.VisitAll(func(f *pflag.Flag) {
		if slices.Contains(names, f.Name) {
			cmd.Flags().AddFlag(f)
		}
	})
	return cmd
}

// add defines every flag.
func (o *addOptions) add(f *pflag.FlagSet) {
	f.Var(&o.tank, "tank", "`tank` that it is about, or that it went into")
	f.Var(&o.from, "from", "`tank` that it came from")
	f.Var(&o.truck, "truck", "`truck` that took it")
	f.Var(&o.route, "route", "`route` that it was for")
	f.Var(&o.liquid, "liquid", "`liquid` of the yard file; salt brine unless given")
	o.volume = volumeFlag(f, "volume", "how much")
	o.strength = strengthFlag(f, "strength", "true strength in salt")
	o.kcl = strengthFlag(f, "kcl", "potassium chloride in it")
	o.cacl2 = strengthFlag(f, "cacl2", "calcium chloride in it")
	o.mgcl2 = strengthFlag(f, "mgcl2", "magnesium chloride in it")
	o.salt = massFlag(f, "salt", "rock salt, as delivered")
	o.water = volumeFlag(f, "water", "fresh water")
	o.temp = temperatureFlag(f, "temp", "temperature of the sample")
	o.instrument = addReadingFlags(f)
	o.cost = flag(f, "money", quantity.ParseMoney, "cost", "what was paid")
	f.Var(&o.operator, "operator", "who did it")
	f.Var(&o.note, "note", "`words` of your own")
	f.Var(&o.at, "at", "`time` of it, like \"2026-01-14 05:40\"; now unless given")
	o.journal = journalFlag(f)
}

func runAdd(env *Env, g *globals, k addKind, o *addOptions, f *pflag.FlagSet) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	for _, name := range strings.Fields(k.required) {
		if !f.Changed(name) {
			return usagef("--%s is missing: a %s needs it; allowed: like brineyard journal add %s %s", name, k.kind, k.kind, k.example)
		}
	}
	e, err := o.entry(s, k.kind)
	if err != nil {
		return err
	}
	if err := e.Sense(); err != nil {
		return usagef("%v", err)
	}
	if err := s.fits(&e); err != nil {
		return err
	}
	return s.keep(s.journalPath(o.journal), "journal add", e)
}

// entry gathers the row.
func (o *addOptions) entry(s *setting, kind journal.Kind) (journal.Entry, error) {
	e := journal.Entry{
		Time: s.env.Now(), Kind: kind, Tank: o.tank.value, From: o.from.value, Liquid: o.liquid.value,
		Volume: given(o.volume), NaCl: given(o.strength), KCl: given(o.kcl), CaCl2: given(o.cacl2), MgCl2: given(o.mgcl2),
		Salt: given(o.salt), Water: given(o.water), Cost: given(o.cost),
		Operator: o.operator.value, Truck: o.truck.value, Route: o.route.value, Note: o.note.value,
	}
	var err error
	if o.at.given {
		if e.Time, err = s.when("at", &o.at); err != nil {
			return e, err
		}
	}
	if err := o.names(s, &e); err != nil {
		return e, err
	}
	if kind != journal.Reading {
		return e, nil
	}
	sample, err := o.instrument.sample(s, o.temp)
	if err != nil {
		return e, err
	}
	r, err := brine.Reading(sample)
	if err != nil {
		return e, s.inputError(err)
	}
	read := readingEntry(e.Tank, r)
	e.Scale, e.Reading, e.Temp, e.NaCl = read.Scale, read.Reading, read.Temp, read.NaCl
	return e, nil
}

// given is what a flag holds, if it was given.
func given[Q quantity.Quantity](in *input[Q]) *Q {
	if !in.given {
		return nil
	}
	return &in.value
}

// names checks names against the yard file, and takes over what it says of a liquid, so that
// the row stands on its own.
func (o *addOptions) names(s *setting, e *journal.Entry) error {
	if s.yard == nil {
		return nil
	}
	if err := s.knownNames(e); err != nil {
		return usagef("--%v", err)
	}
	if l, ok := s.yard.Liquid(e.Liquid); ok && e.Kind != journal.Load && len(l.Products) == 0 && e.NaCl == nil && e.CaCl2 == nil && e.MgCl2 == nil && e.KCl == nil {
		compositionInto(e, l.Liquid)
	}
	return nil
}

// knownNames refuses names that the yard file does not have.
func (s *setting) knownNames(e *journal.Entry) error {
	for _, n := range []struct {
		flag, name string
		known      []string
	}{
		{"tank", e.Tank, s.tankNames(e.Kind)}, {"from", e.From, s.tankNames(e.Kind)},
		{"truck", e.Truck, s.truckNames()}, {"route", e.Route, s.routeNames()}, {"liquid", e.Liquid, s.liquidNames()},
	} {
		if n.name != "" && !slices.Contains(n.known, n.name) {
			return fmt.Errorf("%s %s: not in %s; %s", n.flag, words.Quoted(n.name), s.yard.Path, words.Allowed(n.name, n.known))
		}
	}
	return nil
}

// toCome tells whether a time lies ahead: by more than a day, as clocks and zones differ.
func (s *setting) toCome(t time.Time) bool { return t.After(s.env.Now().AddDate(0, 0, 1)) }

// fitsTruck refuses a load larger than the truck's tank.
func (s *setting) fitsTruck(e *journal.Entry) error {
	for _, t := range s.yard.Trucks {
		if full := t.Tank; t.Name == e.Truck && e.Volume != nil && full > 0 && *e.Volume > full {
			return usagef("--volume: more than the tank of truck %s can hold; allowed: up to %v", words.Quoted(e.Truck), full.In(s.system))
		}
	}
	return nil
}

// fits refuses what the yard file contradicts.
func (s *setting) fits(e *journal.Entry) error {
	if s.toCome(e.Time) {
		return usagef("--at %s: that is to come; allowed: up to now", e.Time.Format(timeLayouts[1]))
	}
	if s.yard == nil {
		return nil
	}
	if e.Kind == journal.Load {
		return s.fitsTruck(e)
	}
	if e.Kind != journal.Batch {
		return nil
	}
	t, ok := s.yard.Tank(e.Tank)
	switch {
	case !ok:
		return nil
	case !t.Mixing:
		return usagef("--tank %s: no mixing tank, and a batch is made in one; allowed: a mixing tank of the yard file", words.Quoted(e.Tank))
	case e.Volume != nil && t.Capacity > 0 && *e.Volume > t.Capacity:
		return usagef("--volume: more than tank %s can hold; allowed: up to %v", words.Quoted(e.Tank), t.Capacity.In(s.system))
	}
	return nil
}
