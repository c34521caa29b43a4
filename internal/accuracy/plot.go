package main

import (
	"bytes"
	"os"

	"brineyard/internal/chart"
	"brineyard/internal/picture"
	"brineyard/internal/solution"
)

// plot draws the deviations that matter most in a yard: of the ice point and the density
// of salt brine, by its strength.
func plot(folder, path string) error {
	ice := chart.Chart{
		Title: "First solid of salt brine: program less table", X: chart.Axis{Label: "strength, % of salt by weight"}, Y: chart.Axis{Label: "C"},
	}
	weight := chart.Chart{
		Title: "Density of salt brine: program less table", X: chart.Axis{Label: "strength, % of salt by weight"}, Y: chart.Axis{Label: "kg/m3"},
	}
	for _, c := range []struct {
		to   *chart.Chart
		name string
		c    comparison
	}{
		{&ice, "CRC", comparison{table: "crc-2021-nacl.csv", column: "freezing_C", scale: 1, got: icePoint(solution.NaCl)}},
		{&ice, "Lange", comparison{table: "lange-nacl.csv", column: "freezing_C", scale: 1, got: firstSolid}},
		{&ice, "Melinder", comparison{table: "melinder-freezing.csv", salt: "NaCl", column: "freezing_C", scale: 1, got: icePoint(solution.NaCl)}},
		{&weight, "CRC, 20 C", comparison{table: "crc-2021-nacl.csv", column: "density_20C_g_cm3", scale: 1000, got: densityAt20(solution.NaCl)}},
		{&weight, "Simion, 0 to 100 C", comparison{table: "simion-nacl-density.csv", column: "density", scale: 1, got: density(solution.NaCl)}},
		{&weight, "Melinder, -20 to 40 C", comparison{table: "melinder-nacl-density.csv", column: "density", scale: 1, got: density(solution.NaCl)}},
	} {
		series, err := deviations(folder, c.name, c.c)
		if err != nil {
			return err
		}
		c.to.Series = append(c.to.Series, series)
	}
	var out bytes.Buffer
	if err := picture.SVG(&out, []chart.Chart{ice, weight}); err != nil {
		return err
	}
	return os.WriteFile(path, out.Bytes(), 0o644)
}

// deviations are the points of a table.
func deviations(folder, name string, c comparison) (chart.Series, error) {
	s := chart.Series{Name: name}
	rows, err := readTable(folder, c.table)
	if err != nil {
		return s, err
	}
	for _, r := range rows {
		d, ok, err := c.deviation(r)
		if err != nil {
			return s, err
		}
		if ok {
			s.Points = append(s.Points, chart.Point{X: 100 * strengthOf(r), Y: d})
		}
	}
	return s, nil
}
