package learn

import (
	"fmt"
	"slices"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

// The sheets about strength: what a reading means, and what corrects a tank.

// cardTank is a mixing tank as a card needs it.
type cardTank struct {
	name             string
	volume, capacity quantity.Volume
	each             bool // a round volume of any tank
}

// No more than tanksOnSheet stand beside each other on paper, and fewer where they would
// be wider than sheetWidth columns.
const tanksOnSheet, sheetWidth = 3, 80

// sampleTemperatures are those of the temperature sheet.
func (k *sheets) sampleTemperatures() []quantity.Temperature {
	var all []quantity.Temperature
	if k.view.System == quantity.Metric {
		for c := -5.0; c <= 30; c += 5 {
			all = append(all, quantity.Celsius(c))
		}
		return all
	}
	for f := 20.0; f <= 90; f += 10 {
		all = append(all, quantity.Fahrenheit(f))
	}
	return all
}

// temperatureSheet is the true strength for readings and temperatures.
func (k *sheets) temperatureSheet() ([]*report.Document, error) {
	t := report.Table{Key: "temperature", Title: "True strength for a reading (left) at a temperature of the sample (above)", Columns: []report.Column{{Key: "reading", Label: "Reading"}}}
	temps := k.sampleTemperatures()
	for _, at := range temps {
		shown := at.In(k.view.System)
		t.Columns = append(t.Columns, report.Column{
			Key: "at_" + strings.ReplaceAll(shown.Digits(), "-", "minus_") + "_" + strings.ToLower(shown.Unit), Label: shown.String(),
		})
	}
	for tenths := 210; tenths <= 260; tenths += 2 {
		shown := quantity.Strength(float64(tenths) / 1000)
		row := []report.Value{k.tenths(shown)}
		for _, at := range temps {
			cell := report.Nothing("%", "-")
			if r, err := brine.Reading(brine.Sample{Instrument: k.glass, Reading: float64(shown), Temperature: at}); err == nil && !r.Clamped && !r.Solid {
				cell = k.pumpOr(r.True)
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	cal := quantity.Temperature(k.glass.Calibration)
	return []*report.Document{{
		Command: "card", Title: k.forShop("what the hydrometer means"),
		Verdict:  k.view.Say("PUMP: %v to %v true. Else the cell is the true strength. The glass is marked for %v: in cold brine it reads too strong.", k.band.Low, k.band.High, cal),
		Tables:   []report.Table{t},
		Notes:    []string{"Take the sample's temperature when you read. A dash: no clear brine shows that.", k.made},
		Cautions: []string{show.CautionLocal},
	}}, nil
}

// tenths shows a strength with as many digits as its neighbours in a column.
func (k *sheets) tenths(w quantity.Strength) report.Value {
	shown := k.view.Value(w)
	shown.Text = quantity.Fixed(*shown.Number, 1) + shown.Unit
	return shown
}

// pump is what a cell says where the tank may be pumped.
const pump = "PUMP"

// pumpOr shows a true strength, or that it may be pumped.
func (k *sheets) pumpOr(w quantity.Strength) report.Value {
	shown := k.tenths(w)
	if k.band.Judge(w) == yard.MayPump {
		shown.Text, shown.Call = pump, true
	}
	return shown
}

// cardTanks are the yard's mixing tanks, or a round volume where there is no yard file.
func (k *sheets) cardTanks() []cardTank {
	var tanks []cardTank
	if k.yard != nil {
		for _, t := range k.yard.Tanks {
			full := t.Usual()
			if full == 0 {
				full = t.Capacity // what it is filled to is not said
			}
			if t.Mixing && full > 0 {
				tanks = append(tanks, cardTank{name: t.Name, volume: full, capacity: t.Capacity})
			}
		}
	}
	if len(tanks) == 0 {
		round := cardTank{name: "any tank", volume: 1000 * quantity.Gallon}
		if k.view.System == quantity.Metric {
			round.volume = 1000 * quantity.Liter
		}
		tanks = append(tanks, round)
	}
	per := cardTank{volume: 100 * quantity.Gallon, each: true}
	if k.view.System == quantity.Metric {
		per.volume = 1000 * quantity.Liter
	}
	return append(tanks, per)
}

// correctionSheets are what brings a full mixing tank to target.
func (k *sheets) correctionSheets() ([]*report.Document, error) {
	var docs []*report.Document
	tanks := k.cardTanks()
	for len(tanks) > 0 {
		t, taken, err := k.widestTable(tanks)
		if err != nil {
			return nil, err
		}
		tanks = tanks[taken:]
		if len(docs) > 0 {
			t.Key = fmt.Sprintf("%s_%d", t.Key, len(docs)+1)
		}
		docs = append(docs, &report.Document{
			Command: "card", Title: k.forShop("what corrects a full mixing tank"),
			Verdict: k.view.Say("To %v; pump between %v and %v. Go by true strength, from the temperature sheet.", k.band.Target, k.band.Low, k.band.High),
			Tables:  []report.Table{t},
			Notes: []string{
				k.view.Say("Salt of %v purity and %v moisture, as delivered; brine and water at %v.", k.rock.Purity, k.rock.Moisture, quantity.Fahrenheit(60)),
				"What is drawn off first goes to storage. Mix, let the temperature settle, and read again before pumping.",
				k.made,
			},
			Cautions: []string{show.CautionEntry, show.CautionBackflow, show.CautionPump, show.CautionDrain, show.CautionLocal},
		})
	}
	return docs, nil
}

// widestTable has as many of the tanks as there is room for beside each other.
func (k *sheets) widestTable(tanks []cardTank) (t report.Table, taken int, err error) {
	for taken = min(tanksOnSheet, len(tanks)); ; taken-- {
		t, err = k.correctionTable(tanks[:taken])
		if err != nil || taken == 1 || report.Width(&t) <= sheetWidth {
			return t, taken, err
		}
	}
}

func (k *sheets) correctionTable(tanks []cardTank) (report.Table, error) {
	t := report.Table{Key: "correction", Title: "By true strength", Columns: []report.Column{{Key: "strength", Label: "True"}}}
	var strengths []quantity.Strength
	for percent := 18.0; percent <= 26; percent += 0.5 {
		strengths = append(strengths, quantity.Strength(percent/100))
		t.Rows = append(t.Rows, []report.Value{k.tenths(quantity.Strength(percent / 100))})
	}
	for _, tank := range tanks {
		all, err := k.corrections(tank, strengths)
		if err != nil {
			return t, err
		}
		key, label := keyOf(tank.name), k.view.Say("%s, %v: add", tank.name, tank.volume)
		if tank.each {
			key, label = "per_volume", k.view.Say("per %v: add", tank.volume)
		}
		drawsOff := slices.ContainsFunc(all, func(c brine.Correction) bool { return c.DrawOffFirst > 0 })
		if drawsOff {
			t.Columns = append(t.Columns, report.Column{Key: key + "_draw_off", Label: "Draw off"})
		}
		t.Columns = append(t.Columns, report.Column{Key: key + "_add", Label: label}, report.Column{Key: key + "_of", Label: "of"})
		for i, c := range all {
			t.Rows[i] = append(t.Rows[i], k.correctionCells(strengths[i], c, drawsOff)...)
		}
	}
	return t, nil
}

// corrections are what brings a full tank of each strength to target.
func (k *sheets) corrections(tank cardTank, strengths []quantity.Strength) ([]brine.Correction, error) {
	var all []brine.Correction
	for _, w := range strengths {
		c, err := brine.Correct(brine.CorrectRequest{
			Volume: tank.volume, Capacity: tank.capacity, Strength: w, Target: k.band.Target,
			Temperature: quantity.Fahrenheit(60), RockSalt: k.rock, Instrument: gauge.Instrument{Calibration: gauge.DefaultCalibration},
		})
		if err != nil {
			return nil, err
		}
		all = append(all, c)
	}
	return all, nil
}

func keyOf(name string) string { return strings.ReplaceAll(name, " ", "_") }

// correctionCells are what to draw off (where the tank ever needs that), how much to
// add, and of what; nothing where the tank may be pumped.
func (k *sheets) correctionCells(w quantity.Strength, c brine.Correction, drawsOff bool) []report.Value {
	var cells []report.Value
	add, of := report.Nothing("", "-"), report.Word("on target")
	switch draw := k.view.Value(c.DrawOffFirst); {
	case drawsOff && c.DrawOffFirst > 0:
		cells = append(cells, draw)
	case drawsOff:
		cells = append(cells, report.Nothing(draw.Unit, "-"))
	}
	switch {
	case k.band.Judge(w) == yard.MayPump:
		return append(cells, add, report.Value{Word: pump, Text: pump, Call: true})
	case c.Additive == brine.AddWater:
		add, of = k.view.Value(c.Water), report.Word("water")
	case c.Additive == brine.AddSalt:
		add, of = k.view.Value(c.Salt), report.Word("salt")
	}
	return append(cells, add, of)
}
