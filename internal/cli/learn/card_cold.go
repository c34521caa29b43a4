package learn

import (
	"math"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/chart"
	"brineyard/internal/cli/show"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// The sheets about the cold: the freezing diagram with its table, and the blends.

// tableStrengths are those of the freezing sheet, in percent: close where it matters.
var tableStrengths = []float64{10, 15, 18, 20, 22, 23, 23.3, 24, 25, 26}

func (k *sheets) freezingSheet() ([]*report.Document, error) {
	t := report.Table{Key: "freezing", Title: k.view.Say("Salt brine by strength, read and weighed at %v", quantity.Fahrenheit(60)), Columns: []report.Column{
		{Key: "strength", Label: "Strength"}, {Key: "first_solid_temp", Label: "First solid at"}, {Key: "first_solid", Label: "that is"},
		{Key: "salt_per_volume", Label: "Salt in it"}, {Key: "gravity", Label: "Gravity, 60/60 F"}, {Key: "salometer", Label: "Salometer"},
	}}
	sixty := quantity.Fahrenheit(60)
	for _, percent := range tableStrengths {
		r, err := brine.Reading(brine.Sample{
			Instrument: gauge.Instrument{Calibration: gauge.DefaultCalibration}, Reading: percent / 100, Temperature: sixty,
		})
		if err != nil {
			return nil, err
		}
		salometer, err := brine.Expected(gauge.Instrument{Scale: gauge.Salometer, Calibration: gauge.DefaultCalibration}, r.True, sixty)
		if err != nil {
			return nil, err
		}
		first := r.Freezing.First()
		t.Rows = append(t.Rows, []report.Value{
			k.tenths(quantity.Strength(percent / 100)), k.view.Value(show.TemperatureOf(first)), report.Word(show.SolidKind(first.Solid)),
			k.view.Value(r.SaltPerVolume), k.view.Value(r.Gravity()), k.view.Value(quantity.SalometerDegrees(salometer)),
		})
	}
	c, err := k.cardDiagram()
	if err != nil {
		return nil, err
	}
	band := k.band
	return []*report.Document{{
		Command: "card", Title: k.forShop("what the cold does to salt brine"),
		Verdict: k.view.Say("Too weak, and ice forms; too strong, and salt falls out. Target %v, pumped from %v to %v.", band.Target, band.Low, band.High),
		Tables:  []report.Table{t},
		Charts:  []chart.Chart{c},
		Notes: []string{
			"Beyond the salt line salt falls out of the brine: it lies on the floor and in the filter, and what is left is weaker.",
			k.made,
		},
		Cautions: []string{show.CautionEntry, show.CautionLocal},
	}}, nil
}

// cardDiagram is the freezing diagram with the target and the band.
func (k *sheets) cardDiagram() (chart.Chart, error) {
	f, err := brine.Freeze(brine.FreezeRequest{Liquid: balance.SaltBrine(k.band.Target), StoredAt: quantity.Fahrenheit(60), Curve: true})
	if err != nil {
		return chart.Chart{}, err
	}
	c := k.view.FreezingChart(f.Curve)
	c.Title = "Freezing diagram of salt brine"
	band := k.band
	bottom, top := math.Inf(1), quantity.Celsius(10).In(k.view.System).Value
	for _, series := range c.Series {
		for _, p := range series.Points {
			bottom = math.Min(bottom, p.Y)
		}
	}
	x := func(w quantity.Strength) float64 { return 100 * float64(w) }
	c.Series = append(c.Series[:2:2],
		chart.Series{Name: "band to pump in", Mark: 'b', Line: true, Points: []chart.Point{
			{X: x(band.Low), Y: bottom}, {X: x(band.Low), Y: top}, {X: x(band.High), Y: top}, {X: x(band.High), Y: bottom},
		}},
		chart.Series{Name: "target", Mark: 'T', Line: true, Points: []chart.Point{{X: x(band.Target), Y: bottom}, {X: x(band.Target), Y: top}}})
	at := func(x, celsius float64, text string) {
		c.Labels = append(c.Labels, chart.Label{At: chart.Point{X: x, Y: quantity.Celsius(celsius).In(k.view.System).Value}, Text: text})
	}
	at(3, 4, "all liquid")
	at(2, -16, "ice side: ice and brine")
	at(25.8, -18.5, "salt side")
	return c, nil
}

// blendsSheet is what the yard's blends become; none where it has none.
func (k *sheets) blendsSheet() ([]*report.Document, error) {
	if k.yard == nil || len(k.yard.Blends) == 0 {
		return nil, nil
	}
	t := report.Table{Key: "blends", Title: k.view.Say("Blends by volume, weighed at %v", quantity.Fahrenheit(60)), Columns: []report.Column{
		{Key: "blend", Label: "Blend"}, {Key: "share", Label: "Share"}, {Key: "additive", Label: "Of"}, {Key: "ice_point", Label: "Ice point"},
		{Key: "salt_out_temp", Label: "Salt out below"}, {Key: "density", Label: "Weighs"}, {Key: "holds", Label: "Holds"},
	}}
	band, sixty := k.band, quantity.Fahrenheit(60)
	cautions := []string{}
	for _, b := range k.yard.Blends {
		l, ok := k.yard.Liquid(b.Additive)
		if !ok {
			continue
		}
		mixed, err := brine.NewBlend(brine.BlendRequest{
			Parts:       []brine.Part{{Liquid: balance.SaltBrine(band.Target), Amount: 1 - float64(b.Share)}, {Liquid: l.Liquid, Amount: float64(b.Share)}},
			Temperature: sixty, Instrument: gauge.Instrument{Calibration: gauge.DefaultCalibration},
		})
		if err != nil {
			return nil, err
		}
		t.Rows = append(t.Rows, k.blendRow(b, mixed))
		for _, c := range show.LiquidCautions(mixed.Liquid) {
			if !strings.Contains(strings.Join(cautions, "\n"), c) {
				cautions = append(cautions, c)
			}
		}
	}
	return []*report.Document{{
		Command: "card", Title: k.forShop("the yard's blends"),
		Verdict:  k.view.Say("What %v brine becomes with the yard's liquids.", band.Target),
		Tables:   []report.Table{t},
		Notes:    []string{"Salt can fall out of a blend in a tank long before ice forms: meter it in as the truck loads, and do not store it below that.", k.made},
		Cautions: cautions,
	}}, nil
}

// blendRow is a blend with what the cold does to it.
func (k *sheets) blendRow(b yard.Blend, mixed brine.Blend) []report.Value {
	return []report.Value{
		report.Word(b.Name), k.view.Value(b.Share), report.Word(b.Additive), k.shortOnset(mixed.Cold.Ice, mixed.Cold), k.shortOnset(mixed.Cold.Salt, mixed.Cold),
		k.view.Value(mixed.Density), report.Word(k.view.CompositionText(mixed.Liquid)),
	}
}

// shortOnset is when a solid forms, without its name.
func (k *sheets) shortOnset(o solution.Onset, cold balance.Cold) report.Value {
	at := k.view.Onset("", "", o).Value
	switch {
	case o.Found:
		at.Text = show.TemperatureOf(o).In(k.view.System).String()
	case cold.Estimated:
		at.Text = "not known"
	}
	return at
}
