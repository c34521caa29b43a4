package cli

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/season"
	"cmp"

	"github.com/spf13/cobra"
)

func newJournalTanks(env *Env, g *globals) *cobra.Command {
	return ofJournal(env, g, &cobra.Command{
		Use:   "tanks",
		Short: "What stands in each tank and on the pile, by the journal",
		Long: "tanks replays the journal: volume, strength and first solid of every tank, and\n" +
			"the last reading beside what the entries say. A tank begins with a count.",
		Example: "  brineyard journal tanks\n  brineyard journal tanks --journal second.csv --units metric",
	}, func(s *setting, file string) error {
		j, err := s.readJournal(file)
		if err != nil {
			return err
		}
		r, replay := season.Season(season.Request{Shop: s.shop()}, journal.Effective(j.Entries))
		d, err := s.tanksDocument(file, r, replay)
		if err != nil {
			return err
		}
		return s.write(d)
	})
}

// shop gathers what the yard file says for a replay.
func (s *setting) shop() season.Shop {
	shop := season.DefaultShop()
	none := &input[quantity.Strength]{}
	shop.Band, shop.RockSalt = s.band(none, none, none), rockSalt(s, none, none)
	if s.yard == nil {
		return shop
	}
	y := s.yard
	shop.Calibration = cmp.Or(y.Calibration, shop.Calibration)
	shop.WaterTemp = cmp.Or(y.Supply.Temperature, shop.WaterTemp)
	shop.CleanEvery, shop.SaltPrice, shop.WaterPrice = y.CleanEvery, y.Prices.Salt, y.Prices.Water
	shop.LiquidPrices = map[string]quantity.PricePerVolume{}
	shop.Liquids = map[string]balance.Liquid{balance.BrineName: balance.SaltBrine(shop.Band.Target)}
	for _, l := range y.Liquids {
		shop.Liquids[l.Name] = l.Liquid
		if l.Price != nil {
			shop.LiquidPrices[l.Name] = *l.Price
		}
	}
	shop.Capacities = map[string]quantity.Volume{}
	for _, t := range y.Tanks {
		shop.Capacities[t.Name] = t.Capacity
	}
	shop.Lanes = map[string]quantity.Length{}
	for _, route := range y.Routes {
		shop.Lanes[route.Name] = route.Length()
	}
	return shop
}

func (s *setting) tanksDocument(path string, r season.Report, replay *season.Replay) (*report.Document, error) {
	t := report.Table{Key: "tanks", Title: "Tanks", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "volume", Label: "Holds"}, {Key: "strength", Label: "Salt"}, {Key: "liquid", Label: "Of"},
		{Key: "first_solid_temp", Label: "First solid"}, {Key: "read", Label: "Last read"}, {Key: "drift", Label: "Drift"},
	}}
	drifted := ""
	for _, tank := range replay.Tanks() {
		row, err := s.tankRow(tank)
		if err != nil {
			return nil, err
		}
		t.Rows = append(t.Rows, row)
		if tank.Reading != nil && tank.Reading.Drifted() && drifted == "" {
			drifted = tank.Name
		}
	}
	d := &report.Document{
		Command: "journal tanks", Title: "Tanks by the journal",
		Verdict:  s.show("By %s in %s: %s, and %s.", plural(r.Entries, "entry", "entries"), path, plural(len(t.Rows), "tank", "tanks"), s.pileText(replay)),
		Figures:  []report.Figure{quiet(s.figure("pile", "Salt on the pile", replay.Pile))},
		Notes:    s.problems(replay.Problems),
		Cautions: []string{cautionLocal},
	}
	if drifted != "" {
		d.Verdict += " The last reading of " + drifted + " does not agree with the entries: read it again, or look for what was not recorded."
	}
	if replay.Pile < 0 && replay.PileKnown {
		d.Notes = append(d.Notes, "More salt was used than was counted or delivered: a delivery, or the opening count of the pile, is missing.")
	}
	if c := replay.PileCount; c != nil {
		d.Notes = append(d.Notes, s.show("At its last count, entry %d, the pile held %v; by the entries it was %v.", c.Entry, c.Counted, c.Expected))
	}
	if len(t.Rows) > 0 {
		d.Tables = []report.Table{t}
	}
	return d, nil
}

func (s *setting) pileText(r *season.Replay) string {
	if !r.PileKnown {
		return "a pile of salt that was never counted"
	}
	return s.show("%v of salt on the pile", r.Pile)
}

func (s *setting) tankRow(tank *season.Tank) ([]report.Value, error) {
	first, read, drift := report.Nothing("", "-"), report.Nothing("%", "-"), report.Nothing("%", "-")
	c := tank.Liquid.Composition
	if tank.Mass > 0 && c.Solute() > 0 {
		cold, err := tank.Liquid.Cold()
		if err != nil {
			return nil, err
		}
		o := cold.First()
		first = s.onset("", "", o).Value
		if o.Found {
			first.Text = s.show("%v %s", temperatureOf(o), solidKind(o.Solid))
		}
	}
	if seen := tank.Reading; seen != nil {
		read = s.value(seen.True)
		if seen.Comparable {
			drift = s.value(seen.True - seen.Expected)
		}
	}
	of, salt := tank.Liquid.Name, s.value(quantity.Strength(c.NaCl))
	if _, plain := tank.Liquid.Strength(); !plain {
		of = s.compositionText(tank.Liquid)
	}
	if tank.Mass == 0 {
		of, salt = "empty", report.Nothing("%", "-")
	}
	return []report.Value{
		report.Word(tank.Name), s.value(tank.Volume(quantity.Fahrenheit(60))), salt, report.Word(of), first, read, drift,
	}, nil
}

// mostProblems is how many are listed: more hide the rest.
const mostProblems = 8

// problems lists entries that do not fit what came before them.
func (s *setting) problems(list []season.Problem) []string {
	var notes []string
	for i, p := range list {
		if i == mostProblems {
			return append(notes, s.show("And %d more entries like these.", len(list)-i))
		}
		notes = append(notes, "Entry "+itoa(p.Entry)+": "+fault.Sentence(p.Text, p.Args, s.system)+".")
	}
	return notes
}
