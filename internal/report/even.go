package report

import (
	"regexp"
	"strconv"
	"strings"
)

// degreeOrPercent is a shown number of a scale with a fixed fineness: a temperature, or a strength.
var degreeOrPercent = regexp.MustCompile(`^(-?[0-9]+)(?:\.([0-9]+))?( F| C|%)$`)

// even gives the temperatures and the strengths of a column as many decimals as the finest of them has. Amounts
// stay as they are: a column of them may go from tens to thousands. A zero percent stays 0%.
func even(cells [][]string, rows [][]Value) {
	for column := range cells[0] {
		most, unit, alike := 0, "", true
		for i, row := range rows {
			m := onScale(row[column], cells[i+1][column])
			if m == nil {
				continue
			}
			alike = alike && (unit == "" || unit == m[3])
			most, unit = max(most, len(m[2])), m[3]
		}
		if most == 0 || !alike {
			continue
		}
		for i, row := range rows {
			text := cells[i+1][column]
			if m := onScale(row[column], text); m != nil && text != "0%" {
				cells[i+1][column] = fixed(*row[column].Number, m, most)
			}
		}
	}
}

// onScale parts what is shown of a temperature or a strength; nil for anything else.
func onScale(v Value, text string) []string {
	if v.Number == nil || text == "" || !strings.ContainsRune("FC%", rune(text[len(text)-1])) {
		return nil
	}
	return degreeOrPercent.FindStringSubmatch(text)
}

// fixed shows a number with more decimals than it was shown with: its own, where they are what was shown, else
// zeros.
func fixed(x float64, shown []string, decimals int) string {
	fine := strconv.FormatFloat(x, 'f', decimals, 64)
	coarse, err := strconv.ParseFloat(strings.TrimSuffix(shown[0], shown[3]), 64)
	near, wrong := strconv.ParseFloat(fine, 64)
	step := 1.0
	for range len(shown[2]) {
		step /= 10
	}
	if err != nil || wrong != nil || near-coarse > step/2 || coarse-near > step/2 {
		fine = strconv.FormatFloat(coarse, 'f', decimals, 64)
	}
	if strings.Trim(fine, "-0.") == "" {
		fine = strings.TrimPrefix(fine, "-")
	}
	return fine + shown[3]
}
