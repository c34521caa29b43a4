package report

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Temperatures and strengths of a column have one fineness; amounts keep theirs, and a zero percent is 0%.
func TestEven(t *testing.T) {
	column := func(texts ...string) (cells []string) {
		table := Table{Columns: []Column{{Label: "head"}}}
		for _, text := range texts {
			v := Value{Text: text}
			if m := degreeOrPercent.FindStringSubmatch(text); m != nil || text[len(text)-1] == 'l' {
				x := map[string]float64{"32 F": 32, "30.9 F": 30.91, "-3 F": -3.04, "0 F": -0.01, "23%": 0.23 * 100, "23.3%": 23.3, "0%": 0, "24%": 24.4}[text]
				v.Number = &x
			}
			table.Rows = append(table.Rows, []Value{v})
		}
		for _, line := range tableTexts(&table)[1:] {
			cells = append(cells, line[0])
		}
		return cells
	}
	require.Equal(t, []string{"32.0 F", "30.9 F", "-3.0 F", "0.0 F", "-", "above 104 F"}, column("32 F", "30.9 F", "-3 F", "0 F", "-", "above 104 F"))
	require.Equal(t, []string{"23.0%", "23.3%", "0%", "24.4%"}, column("23%", "23.3%", "0%", "24%"))
	require.Equal(t, []string{"23%", "0%"}, column("23%", "0%"))
	require.Equal(t, []string{"32 F", "23.3%"}, column("32 F", "23.3%"), "two units are no scale")
	require.Equal(t, []string{"72 gal", "6.1 gal"}, column("72 gal", "6.1 gal"))
}
