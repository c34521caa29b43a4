package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"sort"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"brineyard/internal/yard/file"

	"github.com/spf13/cobra"
)

func newYard(env *Env, g *globals) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "yard",
		Short: "Write, check and show the yard file",
		Long: "The yard file holds what a yard has and how it works, so that it need not be\n" +
			"typed each time: tanks, pump, water, salt, liquids, trucks, routes, plumbing.",
		Example: "  brineyard yard init\n  brineyard yard check\n  brineyard yard show",
		Args:    subcommand,
		RunE:    func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newYardInit(env, g), newYardCheck(env, g), newYardShow(env, g))
	return cmd
}

// oneFile takes at most one file name.
func oneFile(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return usagef("unexpected word %s; allowed: one file", words.Quoted(args[1]))
	}
	return nil
}

func newYardInit(env *Env, g *globals) *cobra.Command {
	return &cobra.Command{
		Use:   "init [FILE]",
		Short: "Write a complete yard file to start from, with every key explained",
		Long: "init writes a complete, working yard file (" + defaultYard + " unless named) in\n" +
			"which every key is explained. It never overwrites a file.",
		Example: "  brineyard yard init\n  brineyard yard init north.toml",
		Args:    oneFile,
		RunE: func(_ *cobra.Command, args []string) error {
			path := defaultYard
			if g.NamesYard() {
				path = g.YardPath
			}
			if len(args) == 1 {
				path = args[0]
			}
			return writeExample(env, path)
		},
	}
}

// writeExample creates the file, and leaves nothing behind when that fails.
func writeExample(env *Env, path string) error {
	if err := createNew(env, "", path, file.Example); err != nil {
		return err
	}
	_, err := fmt.Fprintf(env.Err, "brineyard yard init: wrote %s; put your own yard's numbers in it\n", words.Quoted(path))
	return err
}

// createNew writes a file that is not there yet; flag is what named it.
func createNew(env *Env, flag, path string, text []byte) error {
	place := strings.TrimSpace(flag + " " + words.Quoted(path))
	switch err := env.Create(path, text); {
	case errors.Is(err, fs.ErrExist):
		return usagef("%s: there is one already, and it is left as it is; allowed: another name", place)
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrPermission):
		return usagef("%s: cannot be written there: %v; allowed: a folder that is there and can be written to", place, reasonOf(err))
	default:
		return err
	}
}

// reasonOf is the cause of a failure, without the path again.
func reasonOf(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

func newYardCheck(env *Env, g *globals) *cobra.Command {
	return &cobra.Command{
		Use:   "check [FILE]",
		Short: "Report everything that is wrong in the yard file",
		Long: "check reads the yard file (the one that the other commands would read, unless\n" +
			"named) and lists every fault at once, each with its line and column.",
		Example: "  brineyard yard check\n  brineyard yard check north.toml",
		Args:    oneFile,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 1 {
				if err := g.UseYard(args[0]); err != nil {
					return err
				}
			}
			return checkYard(env, g)
		},
	}
}

// checkYard lists all faults on the error stream, a line each.
func checkYard(env *Env, g *globals) error {
	s, err := newSetting(env, g)
	var faults file.Faults
	switch {
	case errors.As(err, &faults):
		return listOf(faults)
	case err != nil:
		return err
	case s.yard == nil:
		return usagef("no yard file; allowed: %s in the folder, --yard, or $%s", defaultYard, yardEnv)
	}
	y := s.yard
	return s.write(&report.Document{
		Command: "yard check",
		Title:   "Yard file",
		Verdict: fmt.Sprintf("%s: nothing wrong found.", y.Path),
		Figures: []report.Figure{
			s.figure("tanks", "Tanks", quantity.Count(len(y.Tanks))),
			s.figure("liquids", "Liquids", quantity.Count(len(y.Liquids))),
			s.figure("trucks", "Trucks", quantity.Count(len(y.Trucks))),
			s.figure("routes", "Routes", quantity.Count(len(y.Routes))),
			s.figure("links", "Lines and valves", quantity.Count(len(y.Plumbing.Links))),
		},
	})
}

func newYardShow(env *Env, g *globals) *cobra.Command {
	return &cobra.Command{
		Use:   "show",
		Short: "What the yard can do: batches, gallons an hour, what is in store",
		Long: "show reckons from the yard file how long a batch takes, how many gallons an\n" +
			"hour the yard makes, what stands in its tanks, and how many batches the salt\n" +
			"makes.",
		Example: "  brineyard yard show\n  brineyard yard show --yard north.toml --working",
		Args:    noArguments,
		RunE:    func(*cobra.Command, []string) error { return showYard(env, g) },
	}
}

func showYard(env *Env, g *globals) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	if s.yard == nil {
		return usagef("no yard file; allowed: %s in the folder, --yard, or $%s", defaultYard, yardEnv)
	}
	var plants []brine.Capability
	for _, m := range s.yard.MixingTanks() {
		p, err := s.plant(m)
		if err != nil {
			return s.inputError(err)
		}
		plants = append(plants, p)
	}
	return s.write(s.yardDocument(plants))
}

// plant works out what a mixing tank can do; nothing when it has no working volume.
func (s *setting) plant(m yard.Tank) (brine.Capability, error) {
	if m.WorkingVolume == 0 {
		return brine.Capability{}, nil
	}
	y := s.yard
	none := &input[quantity.Strength]{}
	r := brine.CapabilityRequest{
		WorkingVolume: m.WorkingVolume,
		Target:        s.band(none, none, none).Target,
		RockSalt:      rockSalt(s, none, none),
		WaterTemp:     take(s, fault.FieldWaterTemp, "water-temp", &input[quantity.Temperature]{}, ifKnown(y.Supply.Temperature), "supply.temperature", coldTap),
		SaltPrice:     y.Prices.Salt,
		PumpOff:       m.PumpOff,
		MixTime:       m.MixTime,
		Supply:        y.Supply.Flow,
		PumpFlow:      y.Pump.Flow,
		Bucket:        y.Pile.Bucket,
		Pile:          valueOr(y.Pile.OnHand),
		CleanEvery:    y.CleanEvery,
	}
	return brine.CanDo(r)
}

// ifKnown is nil for what is not known.
func ifKnown[Q comparable](q Q) *Q {
	var none Q
	if q == none {
		return nil
	}
	return &q
}

// valueOr is what the file says, or nothing.
func valueOr[Q any](p *Q) Q {
	if p == nil {
		var none Q
		return none
	}
	return *p
}

func (s *setting) yardDocument(plants []brine.Capability) *report.Document {
	y := s.yard
	d := &report.Document{Command: "yard show", Title: "What the yard can do", Cautions: []string{cautionLocal}}
	anHour := brine.SharedFlow(plants)
	var stored, others quantity.Volume
	d.Tables = append(d.Tables, s.plantTable(plants), s.stockTable())
	for _, t := range y.Tanks {
		if t.Mixing {
			continue
		}
		stored += t.Held()
		if !t.HoldsBrine() {
			others += t.Held()
		}
	}
	inStore := s.show("%v in store", stored)
	if others > 0 {
		inStore = s.show("%v of brine and %v of other liquids in store", stored-others, others)
	}
	name := y.Name
	if name == "" {
		name = y.Path
	}
	perHour := quantity.Volume(float64(anHour) * 3600)
	switch {
	case anHour > 0:
		d.Verdict = s.show("%s makes up to %v of brine an hour and has %s.", name, perHour, inStore)
	default:
		d.Verdict = s.show("%s has %s; how fast it makes brine is not known.", name, inStore)
		d.Notes = append(d.Notes, "For a cycle time the file needs working_volume and mix_time of a mixing tank, and the flows of supply and pump.")
	}
	d.Figures = []report.Figure{
		s.perHour(perHour),
		s.figure("stored", "In store", stored),
	}
	if anHour > 0 && len(y.MixingTanks()) > 1 {
		d.Notes = append(d.Notes, "The mixing tanks share one pump and one supply, which bound what they make together.")
	}
	d.Figures = append(d.Figures, s.saltFigures(plants)...)
	d.Working = s.yardWorking(plants)
	return d
}

// yardWorking follows a batch of each mixing tank.
func (s *setting) yardWorking(plants []brine.Capability) []report.Step {
	y, none := s.yard, &input[quantity.Strength]{}
	k := &pocket{system: s.system}
	for i, m := range y.MixingTanks() {
		p := plants[i]
		if p.PumpOff == 0 {
			continue
		}
		k.chargeSteps(s, charge{
			name: m.Name, off: p.PumpOff, mix: m.MixTime, target: s.band(none, none, none).Target, at: p.BrineTemp, rock: rockSalt(s, none, none),
			waterAt: take(s, fault.FieldWaterTemp, "water-temp", &input[quantity.Temperature]{}, ifKnown(y.Supply.Temperature), "supply.temperature", coldTap),
			supply:  y.Supply.Flow, pump: y.Pump.Flow, density: p.Density, waterDensity: p.WaterDensity,
		})
	}
	return k.steps
}

// perHour is what the yard makes in an hour, when that is known.
func (s *setting) perHour(v quantity.Volume) report.Figure {
	shown := v.In(s.system)
	f := report.Figure{Key: "brine_per_hour", Label: "Brine an hour, all mixing tanks", Value: report.Nothing(shown.Unit+"/h", "not known")}
	if v > 0 {
		f.Value = report.Number(shown.Value, shown.Unit+"/h", shown.String()+"/h")
	}
	return f
}

// saltFigures tell what the pile makes, by the first mixing tank.
func (s *setting) saltFigures(plants []brine.Capability) []report.Figure {
	if len(plants) == 0 {
		return nil
	}
	p := plants[0]
	figures := []report.Figure{
		quietUnless(p.Batches > 0, s.figure("pile_batches", "Batches that the pile makes", quantity.Count(p.Batches))),
		quietUnless(p.Batches > 0, s.figure("pile_volume", "Brine that the pile makes", p.FromPile)),
		quietUnless(p.Buckets > 0, s.figure("buckets", "Buckets of salt a batch", quantity.Count(p.Buckets))),
		quietUnless(p.Clean > 0, s.figure("clean_batches", "Batches between cleanings", quantity.Count(p.Clean))),
	}
	return append(figures, show.IfKnown(s.view(), "salt_cost_per_volume", "Salt in a volume of brine costs", p.SaltCost, p.Priced))
}

// plantTable has a row for each mixing tank.
func (s *setting) plantTable(plants []brine.Capability) report.Table {
	t := report.Table{Key: "mixing", Title: "Mixing tanks, batch after batch", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "pumped_off", Label: "Gives"}, {Key: "salt", Label: "Salt"}, {Key: "water", Label: "Water"},
		{Key: "fill_time", Label: "Fill"}, {Key: "mix_time", Label: "Mix"}, {Key: "pump_off_time", Label: "Pump off"}, {Key: "cycle_time", Label: "Cycle"},
	}}
	for i, m := range s.yard.MixingTanks() {
		p := plants[i]
		t.Rows = append(t.Rows, []report.Value{
			report.Word(m.Name), orUnknown(s, p.PumpOff), orUnknown(s, p.SaltABatch), orUnknown(s, p.Water),
			orUnknown(s, p.Fill), orUnknown(s, m.MixTime), orUnknown(s, p.PumpOffTime), orUnknown(s, p.Cycle),
		})
	}
	return t
}

// orUnknown shows a quantity, or that it is not known.
func orUnknown[Q interface {
	~float64
	quantity.Quantity
}](s *setting, q Q) report.Value {
	if q == 0 {
		return report.Nothing(q.In(s.system).Unit, "?")
	}
	return s.value(q)
}

// stockTable sums what stands in the tanks and on hand, by liquid.
func (s *setting) stockTable() report.Table {
	t := report.Table{Key: "stock", Title: "In store, by liquid", Columns: []report.Column{
		{Key: "liquid", Label: "Liquid"}, {Key: "volume", Label: "Volume"}, {Key: "usable", Label: "Above the suction"},
	}}
	all, usable := map[string]quantity.Volume{}, map[string]quantity.Volume{}
	for _, tank := range s.yard.StorageTanks() {
		name := tank.LiquidName
		if strength, plain := tank.Holds().Strength(); tank.Liquid != nil && name == "" && plain {
			name = s.show("%v brine", strength)
		}
		if name == "" {
			name = "not said"
		}
		contents := tank.Held()
		all[name] += contents
		usable[name] += max(0, contents-tank.DeadVolume)
	}
	names := make([]string, 0, len(all))
	for n := range all {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, n := range names {
		t.Rows = append(t.Rows, []report.Value{report.Word(n), s.value(all[n]), s.value(usable[n])})
	}
	return t
}
