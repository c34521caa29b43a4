package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"brineyard/internal/quantity"
)

// What a cell of each kind of column is, between commas (,) and between semicolons or tabs
// (;). The numbers are what a person reads there.
func TestNumbers(t *testing.T) {
	const clear = "gal"
	for _, c := range []struct {
		separator, text, unit string
		want                  float64
	}{
		{",", "1,750", clear, 1750}, {",", "1,234,567.5", clear, 1234567.5}, {",", "1.750", clear, 1.75}, {",", "23.3", clear, 23.3},
		{",", "1,750 gal", "", 1750}, {",", "1,750gal", "L", 1750}, {",", ".5", clear, 0.5}, {",", "12.", clear, 12}, {",", "1e3", clear, 1000},
		{";", "23,3", clear, 23.3}, {";", "23.3", clear, 23.3}, {";", "0,25", clear, 0.25}, {";", "1750", clear, 1750}, {";", ",5", clear, 0.5},
		{";", "1.750,5", clear, 1750.5}, {";", "1,750.5", clear, 1750.5}, {";", "1.234.567", clear, 1234567}, {";", "1,234,567", clear, 1234567},
		{";", "1.234.567,125", clear, 1234567.125}, {";", "0,750", clear, 0.75}, {";", "0.750", clear, 0.75}, {";", "1,7500", clear, 1.75},
		{";", "1750,125", clear, 1750.125}, {";", "23,3gal", "L", 23.3}, {";", "1.750,5 gal", "", 1750.5}, {";", "1,5e3", clear, 1500}, {";", "12,", clear, 12},
	} {
		in := &manner{decimalComma: c.separator == ";"}
		v, bare, err := number(cell{c.text, c.unit, in}, quantity.ParseVolume)
		require.NoError(t, err, "%s %s", c.separator, c.text)
		require.False(t, bare)
		require.InEpsilon(t, c.want, float64(v/quantity.Gallon), 1e-12, "%s %s", c.separator, c.text)
	}
}

// A number that could be two is refused, unless the column can hold only one of them.
func TestUnclearNumbers(t *testing.T) {
	semicolons := &manner{decimalComma: true}
	for text, want := range map[string]string{
		"1.750":     `"1.750" is unclear: 1750 or 1.750; allowed: no mark of thousands, and not three decimals: 1750 or 1.7500`,
		"1,750":     `"1,750" is unclear: 1750 or 1.750; allowed: no mark of thousands, and not three decimals: 1750 or 1,7500`,
		"1,750 L":   `"1,750 L" is unclear: 1750 or 1.750; allowed: no mark of thousands, and not three decimals: 1750 or 1,7500`,
		"1.75.5":    `"1.75.5": not a volume; write it like 500gal or 1900L`,
		"1,75,5":    `"1,75,5": a volume takes no commas; write it like 500gal or 1900L`,
		"1234.567.": `"1234.567.": not a volume; write it like 500gal or 1900L`,
		"a 1,5":     `"a 1,5": not a volume; write it like 500gal or 1900L`,
		",":         `",": not a volume; write it like 500gal or 1900L`,
	} {
		_, _, err := number(cell{text, "gal", semicolons}, quantity.ParseVolume)
		require.EqualError(t, err, want)
	}
	for text, want := range map[string]float64{"1,750": 0.0175, "23.300": 0.233, "23,300 %": 0.233} {
		s, _, err := number(cell{text, "", semicolons}, quantity.ParseStrength)
		require.NoError(t, err)
		require.InEpsilon(t, want, float64(s), 1e-12)
	}
	reading, _, err := number(cell{"1,178", "", semicolons}, parseReading)
	require.NoError(t, err)
	require.Equal(t, 1.178, reading)
	m, _, err := number(cell{"$12,50", "", semicolons}, quantity.ParseMoney)
	require.NoError(t, err)
	require.EqualValues(t, 12.5, m)
	_, _, err = number(cell{"$1.250", "", semicolons}, quantity.ParseMoney)
	require.ErrorContains(t, err, "is unclear: ")
	_, _, err = number(cell{"23,3", "gal", &manner{}}, quantity.ParseVolume)
	require.EqualError(t, err, `"23,3": a volume takes no commas; write it like 500gal or 1900L`)
	_, _, err = number(cell{"1,178", "", &manner{}}, parseReading)
	require.EqualError(t, err, `"1,178": out of range; allowed: below 1000, as an instrument shows it`)
}

// The columns that came with the second version of the journal.
func TestLaterColumns(t *testing.T) {
	m := "time=Date,kind=Kind,line=Line,ticket=Ticket,purity=Purity,moisture=Moist,hours=Hours,distance=Way,due=Due,salt=Salt:ton,operator=Who"
	log := "Date;Kind;Line;Ticket;Purity;Moist;Hours [h];Way (km);Due;Salt;Who\n" +
		"2026-01-15;work;;;;;7,5;12,4;;;P. Quill\n" +
		"2026-01-15;work;;;;;45min;8mi;;;P. Quill\n" +
		"2026-01-16;delivery;;0042;96,5%;2,1;;;;25;\n" +
		"2026-01-16;order;;;;;;;1/20/2026 6:00 PM;25;\n" +
		"2026-01-17;rinse;north line;;;;;;;;\n"
	rows, err := Read(strings.NewReader(log), mapping(t, m), Options{})
	require.NoError(t, err)
	require.Empty(t, texts(rows.Faults))
	e := rows.Entries
	require.InEpsilon(t, 7.5*3600, float64(*e[0].Hours), 1e-12)
	require.InEpsilon(t, 12400, float64(*e[0].Distance), 1e-12)
	require.InEpsilon(t, 45*60, float64(*e[1].Hours), 1e-12)
	require.InEpsilon(t, 8*1609.344, float64(*e[1].Distance), 1e-12) // the international mile, exact
	require.Equal(t, "0042", e[2].Ticket)
	require.InEpsilon(t, 0.965, float64(*e[2].Purity), 1e-12)
	require.InEpsilon(t, 0.021, float64(*e[2].Moisture), 1e-12)
	require.Equal(t, "2026-01-20 18:00", e[3].Due.Format("2006-01-02 15:04"))
	require.Equal(t, "north line", e[4].Line)

	rows, err = Read(strings.NewReader("Date,Hours,Way\n2026-01-15,8,12\n"), mapping(t, "time=Date,hours=Hours,distance=Way,kind==work"), Options{})
	require.NoError(t, err)
	require.Equal(t, []string{
		`line 2: Hours: "8" has no unit; allowed: one in the cell, in the heading, or in the mapping, like hours=HEADING:h`,
		`line 2: Way: "12" has no unit; allowed: one in the cell, in the heading, or in the mapping, like distance=HEADING:mi`,
	}, texts(rows.Faults))
}
