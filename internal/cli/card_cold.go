package cli

import (
	"math"
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/chart"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// The sheets about the cold: the freezing diagram with its table, and the blends.

// tableStrengths are those of the freezing sheet, in percent: close where it matters.
var tableStrengths = []float64{5, 10, 15, 18, 20, 21, 22, 23, 23.3, 24, 25, 26}

func (s *setting) freezingSheet() ([]*report.Document, error) {
	t := report.Table{Key: "freezing", Title: "Salt brine by strength", Columns: []report.Column{
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
			s.value(quantity.Strength(percent / 100)), s.value(temperatureOf(first)), report.Word(solidKind(first.Solid)),
			s.value(r.SaltPerVolume), s.value(r.Gravity()), s.value(quantity.SalometerDegrees(salometer)),
		})
	}
	c, err := s.cardDiagram()
	if err != nil {
		return nil, err
	}
	band := s.cardBand()
	return []*report.Document{{
		Command: "card", Title: s.forShop("what the cold does to salt brine"),
		Verdict:  s.show("Too weak, and ice forms; too strong, and salt falls out. Target %v, pumped from %v to %v.", band.Target, band.Low, band.High),
		Tables:   []report.Table{t},
		Charts:   []chart.Chart{c},
		Notes:    []string{s.show("Gravity, salometer and salt are those at %v.", sixty)},
		Cautions: []string{cautionEntry, cautionLocal},
	}}, nil
}

// cardDiagram is the freezing diagram with the target and the band.
func (s *setting) cardDiagram() (chart.Chart, error) {
	f, err := brine.Freeze(brine.FreezeRequest{Liquid: balance.SaltBrine(s.cardBand().Target), StoredAt: quantity.Fahrenheit(60), Curve: true})
	if err != nil {
		return chart.Chart{}, err
	}
	c := s.freezingChart(f.Curve)
	c.Title = "Freezing diagram of salt brine"
	band := s.cardBand()
	bottom, top := math.Inf(1), quantity.Celsius(10).In(s.system).Value
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
		c.Labels = append(c.Labels, chart.Label{At: chart.Point{X: x, Y: quantity.Celsius(celsius).In(s.system).Value}, Text: text})
	}
	at(3, 4, "all liquid")
	at(2, -16, "ice side: ice and brine")
	at(25.4, -18, "salt side")
	return c, nil
}

// freezingChart draws where ice and where salt comes first.
func (s *setting) freezingChart(curve []brine.CurvePoint) chart.Chart {
	ice := chart.Series{Name: "ice forms", Mark: 'i', Line: true}
	salt := chart.Series{Name: "salt falls out", Mark: 's', Line: true}
	own := chart.Series{Name: "this liquid", Mark: 'X'}
	for _, p := range curve {
		first := p.Cold.First()
		x, y := 100*float64(p.Strength), temperatureOf(first).In(s.system).Value
		if p.IsLiquid && first.Found {
			own.Points = append(own.Points, chart.Point{X: x, Y: y})
		}
		if p.Cold.Ice.Found && (first.Solid == solution.Ice || len(salt.Points) == 0) {
			ice.Points = append(ice.Points, chart.Point{X: x, Y: temperatureOf(p.Cold.Ice).In(s.system).Value})
		}
		if first.Found && first.Solid != solution.Ice && !p.Saturated {
			salt.Points = append(salt.Points, chart.Point{X: x, Y: y})
		}
	}
	return chart.Chart{
		Title:  "What comes first on cooling",
		X:      chart.Axis{Label: "strength, % of salt by weight"},
		Y:      chart.Axis{Label: quantity.Temperature(0).In(s.system).Unit},
		Series: []chart.Series{ice, salt, own},
	}
}

// blendsSheet is what the yard's blends become; none where it has none.
func (s *setting) blendsSheet() ([]*report.Document, error) {
	if s.yard == nil || len(s.yard.Blends) == 0 {
		return nil, nil
	}
	t := report.Table{Key: "blends", Title: "Blends by volume, of salt brine on target and a liquid", Columns: []report.Column{
		{Key: "blend", Label: "Blend"}, {Key: "share", Label: "Share"}, {Key: "additive", Label: "Of"}, {Key: "ice_point", Label: "Ice point"},
		{Key: "salt_out_temp", Label: "Salt out below"}, {Key: "density", Label: "Weighs"}, {Key: "holds", Label: "Holds"},
	}}
	band, sixty := s.cardBand(), quantity.Fahrenheit(60)
	cautions := []string{}
	for _, b := range s.yard.Blends {
		l, ok := s.yard.Liquid(b.Additive)
		if !ok {
			continue
		}
		share := b.Share
		mixed, err := brine.NewBlend(brine.BlendRequest{
			Parts:       []brine.Part{{Liquid: balance.SaltBrine(band.Target), Amount: 1 - float64(share)}, {Liquid: l.Liquid, Amount: float64(share)}},
			Temperature: sixty, Instrument: gauge.Instrument{Calibration: gauge.DefaultCalibration},
		})
		if err != nil {
			return nil, err
		}
		t.Rows = append(t.Rows, []report.Value{
			report.Word(b.Name), s.value(share), report.Word(b.Additive), s.shortOnset(mixed.Cold.Ice, mixed.Cold), s.shortOnset(mixed.Cold.Salt, mixed.Cold),
			s.value(mixed.Density), report.Word(s.compositionText(mixed.Liquid)),
		})
		for _, c := range liquidCautions(mixed.Liquid) {
			if !strings.Contains(strings.Join(cautions, "\n"), c) {
				cautions = append(cautions, c)
			}
		}
	}
	return []*report.Document{{
		Command: "card", Title: s.forShop("the yard's blends"),
		Verdict:  s.show("What %v brine becomes with the yard's liquids.", band.Target),
		Tables:   []report.Table{t},
		Notes:    []string{"Salt can fall out of a blend in a tank long before ice forms: meter it in as the truck loads, and do not store it below that.", s.show("Weighed at %v.", sixty)},
		Cautions: cautions,
	}}, nil
}

// shortOnset is when a solid forms, without its name.
func (s *setting) shortOnset(o solution.Onset, cold balance.Cold) report.Value {
	v := s.onset("", "", o).Value
	switch {
	case o.Found:
		v.Text = temperatureOf(o).In(s.system).String()
	case cold.Estimated:
		v.Text = "not known"
	}
	return v
}
