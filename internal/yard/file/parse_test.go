package file

import (
	"strings"
	"testing"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// good says everything that a yard file can.
const good = `# A small yard.
name = "North yard"
units = "metric"

[target]
strength = "23.3%"
low = "23%"
high = "24%"

[hydrometer]
calibration = "60F"

[salt]
purity = "97%"
moisture = "3%"

[supply]
flow = "30gal/min"
temperature = "5C"

[[mixing_tank]]
name = "mixer"
capacity = "1200gal"
working_volume = "1000gal"
pump_off = "900gal"
bed = "2ton"

[[mixing_tank]]
name = "small mixer"
capacity = "2kL"

[[storage_tank]]
name = "tank 1"
capacity = "6000gal"
contents = "4000gal"

[[storage_tank]]
name = "Tänk 2"
capacity = "6000gal"
`

const (
	gallon = 3.785411784e-3 // m3, exact
	pound  = 0.45359237     // kg, exact
)

// near allows for a few roundings.
func near[Q ~float64](t *testing.T, want float64, got Q) {
	t.Helper()
	require.InEpsilon(t, want, float64(got), 1e-14)
}

func parse(t *testing.T, text string) *yard.Yard {
	t.Helper()
	y, err := Parse("yard.toml", []byte(text))
	require.NoError(t, err)
	return y
}

func TestParse(t *testing.T) {
	y := parse(t, good)
	require.Equal(t, "yard.toml", y.Path)
	require.Equal(t, "North yard", y.Name)
	require.Equal(t, quantity.Metric, *y.Units)
	near(t, 0.233, *y.Target.Strength)
	near(t, 0.23, *y.Target.Low)
	near(t, 0.24, *y.Target.High)
	near(t, 273.15+28/1.8, y.Calibration)
	near(t, 0.97, y.Pile.Quality.Purity)
	near(t, 0.03, y.Pile.Quality.Moisture)
	near(t, 30*gallon/60, y.Supply.Flow)
	near(t, 278.15, y.Supply.Temperature)
	require.Len(t, y.MixingTanks(), 2)
	require.Len(t, y.StorageTanks(), 2)

	small := y.MixingTanks()[1]
	require.Equal(t, quantity.Volume(2), small.Capacity)
	require.Zero(t, small.WorkingVolume)
	require.Zero(t, small.PumpOff)
	require.Zero(t, small.Bed)
	require.Nil(t, y.StorageTanks()[1].Contents)
}

// Mixing tanks come first, each list in the file's order; what the file does not
// say is 0.
func TestTanks(t *testing.T) {
	y := parse(t, good)
	var names []string
	for _, tank := range y.Tanks {
		names = append(names, tank.Name)
	}
	require.Equal(t, []string{"mixer", "small mixer", "tank 1", "Tänk 2"}, names)

	mixer, ok := y.Tank("mixer")
	require.True(t, ok)
	near(t, 1200*gallon, mixer.Capacity)
	near(t, 1000*gallon, mixer.Usual())
	near(t, 900*gallon, mixer.PumpOff)
	near(t, 4000*pound, mixer.Bed)

	store, ok := y.Tank("tank 1")
	require.True(t, ok)
	near(t, 6000*gallon, store.Capacity)
	near(t, 4000*gallon, store.Usual())
	require.Zero(t, store.PumpOff)
	require.Zero(t, store.Bed)

	small, ok := y.Tank("small mixer")
	require.True(t, ok)
	require.Equal(t, yard.Tank{Name: "small mixer", Mixing: true, Capacity: 2}, small)
}

// A tank's name is matched to the letter.
func TestUnknownTank(t *testing.T) {
	y := parse(t, good)
	for _, name := range []string{"", "Mixer", "mixer ", "tank", "North yard"} {
		_, ok := y.Tank(name)
		require.False(t, ok, "%q", name)
	}
	require.Empty(t, parse(t, "").Tanks)
}

// Numbers without a unit, in quotes or not, are in the units of US crews.
func TestBareNumbers(t *testing.T) {
	for _, quote := range []string{"", `"`} {
		y := parse(t, strings.NewReplacer("'", quote).Replace(`
target = {strength = '23.3'}
hydrometer.calibration = '60'
supply.flow = '30'
[[mixing_tank]]
name = "m"
capacity = '1200'
bed = '4000'
`))
		near(t, 0.233, *y.Target.Strength)
		near(t, 273.15+28/1.8, y.Calibration)
		near(t, 30*gallon/60, y.Supply.Flow)
		near(t, 1200*gallon, y.MixingTanks()[0].Capacity)
		near(t, 4000*pound, y.MixingTanks()[0].Bed)
	}
}

// What editors leave behind is taken: a byte order mark, ends of lines of two
// characters, no end of the last line, spaces, comments, nothing at all.
func TestEditorsAreForgiven(t *testing.T) {
	want := parse(t, good)
	for name, text := range map[string]string{
		"BOM":           "\ufeff" + good,
		"CRLF":          strings.ReplaceAll(good, "\n", "\r\n"),
		"BOM and CRLF":  "\ufeff" + strings.ReplaceAll(good, "\n", "\r\n"),
		"no last end":   strings.TrimSuffix(good, "\n"),
		"trailing tabs": strings.ReplaceAll(good, "\n", " \t\n"),
		"indented":      strings.ReplaceAll(good, "\n", "\n\t "),
		"comments":      strings.ReplaceAll(good, "\n", " # [[x]] y = 1\n"),
		"quoted keys":   strings.NewReplacer("[target]", `["target"]`, "\nlow =", "\n'low' =").Replace(good),
	} {
		require.Equal(t, want, parse(t, text), name)
	}
	for _, text := range []string{"", "\n", "\ufeff", "# nothing\n", "\r\n\r\n"} {
		require.Equal(t, &yard.Yard{Path: "yard.toml"}, parse(t, text), "%q", text)
	}
}

// Limits that may be met: a band of no width, a full tank, a batch pumped off whole.
func TestEdgesAreTaken(t *testing.T) {
	y := parse(t, `
target = {low = "23.3%", high = "23.3%"}
[[mixing_tank]]
name = "full"
capacity = "1000gal"
working_volume = "1000gal"
pump_off = "1000gal"
[[mixing_tank]]
name = "part"
capacity = "1000gal"
working_volume = "500gal"
pump_off = "500gal"
[[storage_tank]]
name = "brim"
capacity = "1000gal"
contents = "1000gal"
`)
	require.Len(t, y.Tanks, 3)
}
