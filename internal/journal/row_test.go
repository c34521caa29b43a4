package journal

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"brineyard/internal/quantity"
)

func TestNumbers(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", math.Copysign(0, -1): "0", 1095: "1095", -6.1: "-6.1", 23.3: "23.3", 0.1 + 0.2: "0.3",
		1.0 / 3: "0.33333333333", 100.0 / 3: "33.3333333333", 123456789012: "123456789012", 1234567890123456: "1.23456789012e+15",
		100000: "100000", 1e-10: "0.0000000001", 1e-12: "0", -1e-12: "0", 999999999999.9: "1000000000000", 1e300: "1e+300",
	} {
		require.Equal(t, want, numberText(x))
	}
	for _, text := range []string{"", "-", "NaN", "inf", "0x10", "1_000", "1,5", "12 gal", "1e999", "..1"} {
		_, err := Number(text)
		require.Error(t, err, text)
	}
}

// The rows as they stand in the file. The checks are those of CRC-32C; the one of
// the digits 1 to 9, e3069283, is the one that descriptions of CRCs give (from memory).
func TestRows(t *testing.T) {
	require.Equal(t, "odagjcid", CheckOf([]byte("123456789")))
	e := batch()
	e.Number = 12
	row := string(NewEncoder().Row(&e, Form{quantity.US, newest}))
	require.Equal(t, `12,2026-01-15T06:40:00-05:00,batch,mixer,,,1095,23.3,,,,41,hydrometer,23.3,,,ines,,,,,"first of the day, all well",,,,,,,`, row[:strings.LastIndexByte(row, ',')])
	row = string(NewEncoder().Row(&e, Form{quantity.Metric, newest}))
	require.Contains(t, row, ",4145.02590348,23.3,,,,5,hydrometer,")
}

func TestHeader(t *testing.T) {
	require.Equal(t, "brineyard journal 2,time,kind,tank,from,liquid,volume [gal],nacl [%],kcl [%],cacl2 [%],mgcl2 [%],temp [F],"+
		"scale,reading,salt [lb],water [gal],operator,truck,route,cost,cancels,note,line,ticket,purity [%],moisture [%],hours [h],distance [mi],due,check\n", HeaderLine(Form{quantity.US, newest}))
	require.Equal(t, "brineyard journal 1,time,kind,tank,from,liquid,volume [gal],nacl [%],kcl [%],cacl2 [%],mgcl2 [%],temp [F],"+
		"scale,reading,salt [lb],water [gal],operator,truck,route,cost,cancels,note,check\n", HeaderLine(Form{quantity.US, 1}))
	require.Contains(t, HeaderLine(Form{quantity.Metric, newest}), ",volume [L],")
	require.Contains(t, HeaderLine(Form{quantity.Metric, newest}), ",temp [C],")
	require.Contains(t, HeaderLine(Form{quantity.Metric, newest}), ",salt [kg],water [L],")
	us := strings.TrimSpace(HeaderLine(Form{quantity.US, newest}))
	quotedAll := `"` + strings.ReplaceAll(us, ",", `","`) + `"`
	for _, line := range []string{us, "\ufeff" + us, quotedAll} {
		f, err := ParseHeader([]byte(line))
		require.NoError(t, err)
		require.Equal(t, Form{quantity.US, newest}, f)
	}
	for line, want := range map[string]string{
		"":                        `not a journal: its first heading is not "brineyard journal 2"`,
		"date,tank":               `not a journal: its first heading is not "brineyard journal 2"`,
		"brineyard journal 3,a":   `journal of version "3"; allowed: versions 1 to 2`,
		"brineyard journal 1,a":   `not a journal: heading 2 is "a"; expected "time", and US or metric units throughout`,
		"brineyard journal 1":     `not a journal: heading 2 is missing; expected "time"`,
		"brineyard journal 1,\"b": `not a journal: its header is not a line of comma-separated headings`,
		us + ",extra":             `not a journal: heading 31 is "extra"; expected none`,
		strings.Replace(us, "salt [lb]", "salt [kg]", 1): `not a journal: heading 15 is "salt [kg]"; expected "salt [lb]", and US or metric units throughout`,
	} {
		_, err := ParseHeader([]byte(line))
		require.EqualError(t, err, want)
	}
}

// drawEntry draws an entry of any kind with any of its cells filled.
func drawEntry(t *rapid.T) Entry {
	offset := rapid.SampledFrom([]int{0, -5 * 3600, 19800, -12600, 3600 + 17}).Draw(t, "offset")
	e := Entry{
		Number: rapid.IntRange(1, MostEntries).Draw(t, "number"),
		Time:   time.Unix(rapid.Int64Range(1, 4e9).Draw(t, "time"), 0).In(time.FixedZone("", offset)),
		Kind:   rapid.SampledFrom(Kinds()).Draw(t, "kind"),
	}
	for _, field := range []*string{&e.Tank, &e.From, &e.Liquid, &e.Scale, &e.Operator, &e.Truck, &e.Route, &e.Note, &e.Line, &e.Ticket} {
		*field = rapid.String().Draw(t, "text")
	}
	if e.Kind.AboutAnother() {
		e.Cancels = rapid.IntRange(1, MostEntries).Draw(t, "cancels")
	}
	number := func(name string, low, high float64) *float64 {
		if rapid.Bool().Draw(t, name+" is there") {
			return to(rapid.Float64Range(low, high).Draw(t, name))
		}
		return nil
	}
	e.Volume = (*quantity.Volume)(number("volume", 0, 1e5))
	e.NaCl = (*quantity.Strength)(number("nacl", 0, 1))
	e.MgCl2 = (*quantity.Strength)(number("mgcl2", 0, 1))
	e.Temp = (*quantity.Temperature)(number("temp", 173, 423))
	e.Reading = number("reading", -100, 100)
	e.Salt = (*quantity.Mass)(number("salt", 0, 1e8))
	e.Water = (*quantity.Volume)(number("water", 0, 1e5))
	e.Cost = (*quantity.Money)(number("cost", -1e6, 1e6))
	e.Purity = (*quantity.Strength)(number("purity", 0, 1))
	e.Moisture = (*quantity.Strength)(number("moisture", 0, 1))
	e.Hours = (*quantity.Duration)(number("hours", 0, 1e6))
	e.Distance = (*quantity.Length)(number("distance", 0, 1e6))
	if rapid.Bool().Draw(t, "is due") {
		e.Due = to(e.Time.AddDate(0, 0, 9))
	}
	return e
}

// Whatever is written is read again, and written the same way again.
func TestAnyEntryComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sys := rapid.SampledFrom([]quantity.System{quantity.US, quantity.Metric}).Draw(t, "units")
		e := drawEntry(t)
		row := string(NewEncoder().Row(&e, Form{sys, newest}))
		require.NotContains(t, row, "\n")
		got, err := NewDecoder(Form{sys, newest}).Row([]byte(row))
		require.NoError(t, err)
		require.Equal(t, row, string(NewEncoder().Row(&got, Form{sys, newest})))
		require.True(t, e.Time.Equal(got.Time))
		if e.Volume != nil {
			require.InDelta(t, float64(*e.Volume), float64(*got.Volume), 1e-11*float64(*e.Volume)+1e-13) // 12 digits, 11 decimals
		}
		if e.Temp != nil {
			require.InDelta(t, float64(*e.Temp), float64(*got.Temp), 1e-9) // 12 digits
		}
		require.Equal(t, e.Due != nil, got.Due != nil)
		for _, x := range []*Entry{&e, &got} { // compared above, or as text
			x.Time, x.Due = time.Time{}, nil
			x.Purity, x.Moisture, x.Hours, x.Distance = nil, nil, nil, nil
			x.Volume, x.Water, x.NaCl, x.MgCl2, x.Temp, x.Reading, x.Salt, x.Cost = nil, nil, nil, nil, nil, nil, nil, nil
		}
		require.Equal(t, e, got)
	})
}

// A temperature of nought comes back as such in both systems.
func TestTemperatureOfNought(t *testing.T) {
	for _, c := range []struct {
		sys  quantity.System
		temp quantity.Temperature
	}{{quantity.US, quantity.Fahrenheit(0)}, {quantity.Metric, quantity.Celsius(0)}, {quantity.Metric, quantity.Fahrenheit(32)}} {
		e := batch()
		e.Number, e.Temp = 1, &c.temp
		require.Contains(t, string(NewEncoder().Row(&e, Form{c.sys, newest})), ",23.3,,,,0,hydrometer,")
	}
}

func FuzzRow(f *testing.F) {
	e := batch()
	e.Number = 1
	f.Add(string(NewEncoder().Row(&e, Form{quantity.US, newest})))
	f.Add(`1,"2`)
	f.Add(strings.Repeat(",", 22))
	f.Fuzz(func(t *testing.T, line string) {
		line = strings.SplitN(line, "\n", 2)[0]
		d := NewDecoder(Form{quantity.US, newest})
		e, err := d.Row([]byte(line))
		if err == nil {
			again, err := d.Row(NewEncoder().Row(&e, Form{quantity.US, newest}))
			require.NoError(t, err)
			require.Equal(t, e.Number, again.Number)
		}
		// A bad line does not reach into the next.
		good := batch()
		good.Number = 7
		got, err := d.Row(NewEncoder().Row(&good, Form{quantity.US, newest}))
		require.NoError(t, err)
		require.Equal(t, 7, got.Number)
	})
}
