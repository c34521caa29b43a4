package file

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// The example holds every key there is, and nothing wrong; the demo yard is the same
// file.
func TestExample(t *testing.T) {
	y, err := Parse("example.toml", Example)
	require.NoError(t, err)
	require.Len(t, y.Trucks, 2)
	require.Len(t, y.Routes, 4)
	require.Len(t, y.Blends, 1)
	require.NotNil(t, y.Prices.Labour)
	require.NotNil(t, y.Units)
	require.Len(t, y.Plumbing.Links, 15)
	require.Equal(t, []string{"mixer", "tote", "north", "south"}, y.Plumbing.Tanks)
	require.Equal(t, "2025-11-01", y.Checked.Format(time.DateOnly))
	for _, p := range []any{y.Pump.Flow, y.Pump.Power, y.CleanEvery, y.Prices.Salt, y.Pile.Bucket, y.Pile.OnHand, y.Tanks[0].MixTime} {
		require.NotZero(t, p)
	}
	demo, err := os.ReadFile(filepath.Join("..", "..", "..", "testdata", "yard", "thistlewick.toml"))
	require.NoError(t, err)
	require.Equal(t, string(Example), string(demo))
}

// Every key that a yard file may have stands in the example, in its tables or its comments.
func TestExampleHasEveryKey(t *testing.T) {
	for _, s := range sections() {
		head := "[" + s.name + "]"
		if s.names != "" {
			head = "[[" + s.name + "]]"
		}
		_, err := Parse("north.toml", []byte(head+"\nunheard_of = 1"))
		_, keys, found := strings.Cut(allFaults(err), "unknown key \"unheard_of\"; allowed: ")
		require.True(t, found, s.name)
		keys, _, _ = strings.Cut(keys, "\n")
		for _, key := range strings.Split(keys, ", ") {
			require.Regexp(t, `\b`+key+`\b`, string(Example), s.name)
		}
		require.Regexp(t, `(?m)^(# )?`+regexp.QuoteMeta(head)+`$`, string(Example))
	}
}

func TestTrucksAndRoutes(t *testing.T) {
	y, err := Parse("example.toml", Example)
	require.NoError(t, err)
	truck, ok := y.Truck("lot-pickup")
	require.True(t, ok)
	near(t, 210*gallon, truck.Tank)
	near(t, 8*0.3048, truck.Width)
	require.Equal(t, 6, truck.Nozzles)
	_, ok = y.Truck("nosuch")
	require.False(t, ok)
	lots := y.Routes[2]
	require.Zero(t, lots.Rate)
	near(t, 0.55*gallon/(1000*0.3048*0.3048), lots.AreaRate)
	near(t, 3.4*4046.8564224, lots.Area)
}

func TestTank(t *testing.T) {
	y, err := Parse("example.toml", Example)
	require.NoError(t, err)
	north, ok := y.Tank("north")
	require.True(t, ok)
	strength, plain := north.Liquid.Strength()
	require.True(t, plain)
	require.Equal(t, quantity.Strength(0.231), strength)
	south, _ := y.Tank("south")
	require.Equal(t, 0.31, south.Liquid.Composition.CaCl2)
	mixer, _ := y.Tank("mixer")
	require.Nil(t, mixer.Liquid)
	require.True(t, mixer.Mixing)
	acetate, ok := y.Liquid("larch-acetate")
	require.True(t, ok)
	require.Len(t, acetate.Products, 1)
}

// two makes a second table of a kind behind a good first, so that a fault is told
// where it is: the second begins on line 5.
func two(kind, good, lines string) string {
	return "[[" + kind + "]]\n" + good + "\n\n\n[[" + kind + "]]\nname = \"b\"\n" + lines
}

func TestEquipmentFaults(t *testing.T) {
	truck := func(lines string) string { return two("truck", `name = "a"`+"\n"+`tank = "200gal"`, lines) }
	requireFaults(t, []fault{
		{"[pump]\nflow = \"0gpm\"", `north.toml:2:1: pump: flow is nothing; allowed: above 0`},
		{"[pump]\npower = \"5 oxen\"", `north.toml:2:1: pump: power = "5 oxen": "oxen" is no unit of a power; allowed: hp, kW, W`},
		{"[supply]\nflow = 0", `north.toml:2:1: supply: flow is nothing; allowed: above 0`},
		{"[supply]\ntemperature = \"-5C\"", `north.toml:2:1: supply: temperature 23 F: fresh water is ice there; allowed: 32 F and above`},
		{"[salt]\npurity = \"40%\"", `north.toml:2:1: salt: purity 40% is of no rock salt; allowed: 50% to 100%`},
		{"[salt]\nmoisture = \"40%\"", `north.toml:2:1: salt: moisture 40% is of no rock salt; allowed: 0% to 20%`},
		{"[salt]\nprice = \"70/bag\"", `north.toml:2:1: salt: price = "70/bag": "/bag" is no unit of a price; allowed: /ton, /t, /lb, /kg`},
		{"[salt]\nbucket = 0", `north.toml:2:1: salt: bucket is nothing; allowed: above 0`},
		{"[cleaning]\nevery = 0", `north.toml:2:1: cleaning: every is nothing; allowed: above 0`},
		{"[cleaning]\nevry = 0", `north.toml:2:1: cleaning: unknown key "evry"; did you mean "every"?`},
		{tank(`name = "a"`, `capacity = "10gal"`, `mix_time = "long"`), `north.toml:4:1: mixing_tank "a": mix_time = "long": not a time; write it like 45min or 1.5h`},
		{tank(`name = "a"`, `capacity = "10gal"`, `bed = "9lb"`, `bed_capacity = "8lb"`), `north.toml:4:1: mixing_tank "a": bed 9 lb is above bed_capacity 8 lb`},
		{tank(`name = "a"`, `capacity = "10gal"`, `pump_off = 0`), `north.toml:4:1: mixing_tank "a": pump_off is nothing; allowed: above 0`},
		{tank(`name = "a"`, `capacity = "10gal"`, `working_volume = 0`), `north.toml:4:1: mixing_tank "a": working_volume is nothing; allowed: above 0`},
		{truck(``), `north.toml:6:3: truck "b": tank is missing`},
		{truck(`tank = 0`), `north.toml:8:1: truck "b": tank is nothing; allowed: above 0`},
		{truck("tank = 100\nempty_weight = \"9000lb\"\ngross_limit = \"8000lb\""), `north.toml:10:1: truck "b": gross_limit 8000 lb is not above empty_weight 9000 lb`},
		{truck("tank = 100\nempty_weight = \"9000lb\""), `north.toml:6:3: truck "b": gross_limit and empty_weight go together; allowed: both or neither`},
		{truck("tank = 100\nnozzles = 2.5"), `north.toml:9:1: truck "b": nozzles takes a whole number; allowed: 1 to 1000`},
		{truck("tank = 100\nnozzles = 0"), `north.toml:9:1: truck "b": nozzles takes a whole number; allowed: 1 to 1000`},
		{truck("tank = 100\nspray_width = \"9gal\""), `north.toml:9:1: truck "b": spray_width = "9gal": "gal" is no unit of a width; allowed: ft, in, m`},
		{truck("tank = 100\nspeed = 0"), `north.toml:9:1: truck "b": speed is nothing; allowed: above 0`},
		{"[[blend]]\nname = \"b\"\nshare = \"10%\"", `north.toml:1:3: blend "b": additive is missing`},
		{"[[blend]]\nname = \"b\"\nadditive = \"c\"\nshare = \"100%\"", "north.toml:3:1: blend \"b\": no liquid is named \"c\"\nnorth.toml:4:1: blend \"b\": share 100% is no part of a blend; allowed: above 0% and below 100%"},
		{"[prices]\nlabour = \"34/day\"", `north.toml:2:1: prices: labour = "34/day": "/day" is no unit of a wage; allowed: /h`},
	})
}

func TestRouteFaults(t *testing.T) {
	route := func(lines string) string { return two("route", `name = "a"`+"\n"+`area = "1acre"`, lines) }
	requireFaults(t, []fault{
		{route(``), `north.toml:6:3: route "b": its size is missing; allowed: lane_miles or area`},
		{route("area = 1\nlane_miles = 1"), `north.toml:8:1: route "b": lane_miles and area are two sizes; allowed: one of them`},
		{route("lane_miles = 0"), `north.toml:8:1: route "b": lane_miles is nothing; allowed: above 0`},
		{route("lane_miles = 1\nrate = \"0.5gal/1000ft2\""), `north.toml:9:1: route "b": rate = "0.5gal/1000ft2": "gal/1000ft2" is no unit of a rate per lane; allowed: gal/mi, L/km`},
		{route("area = 1\nrate = \"40gal/mi\""), `north.toml:9:1: route "b": rate = "40gal/mi": "gal/mi" is no unit of a rate per area; allowed: gal/acre, gal/1000ft2, L/m2, L/ha`},
		{route("area = true\nrate = \"0.5gal/1000ft2\""), `north.toml:8:1: route "b": area takes a quantity in quotes, not true or false`},
		{route("area = 1\ncolour = 1"), `north.toml:9:1: route "b": unknown key "colour"; allowed: area, lane_miles, liquid, name, passes, prewet, priority, rate, salt_rate, truck`},
		{route("lane_miles = 1\nprewet = \"9gal/ton\""), `north.toml:9:1: route "b": prewet and salt_rate go together; allowed: both or neither`},
		{route("lane_miles = 1\nrate = 40\nsalt_rate = 200\nprewet = 9"), `north.toml:11:1: route "b": a pre-wetted route has lane_miles and salt_rate, and no rate or area`},
		{route("lane_miles = 1\nliquid = \"beer\""), `north.toml:9:1: route "b": no liquid and no blend is named "beer"`},
		{route("lane_miles = 1\ntruck = \"beer\""), `north.toml:9:1: route "b": no truck is named "beer"`},
		{route("lane_miles = 1\npriority = 0"), `north.toml:9:1: route "b": priority takes a whole number; allowed: 1 to 1000`},
		{route("area = 1\npasses = \"two\""), `north.toml:9:1: route "b": passes takes a whole number; allowed: 1 to 1000`},
	})
}

func TestPlumbingFaults(t *testing.T) {
	tanks := "[[storage_tank]]\nname = \"n\"\ncapacity = 9\n" // three lines
	valve := func(lines string) string { return tanks + "[[valve]]\nname = \"v\"\n" + lines }
	requireFaults(t, []fault{
		{valve(``), `north.toml:4:3: valve "v": joins is missing`},
		{valve(`joins = "n"`), "north.toml:6:1: valve \"v\": joins takes a list of names in quotes\nnorth.toml:6:1: valve \"v\": joins takes two places, like [\"north\", \"pump-in\"], or three of a three-way valve, the common one first"},
		{valve(`joins = ["n"]`), `north.toml:6:1: valve "v": joins takes two places, like ["north", "pump-in"], or three of a three-way valve, the common one first`},
		{valve(`joins = ["n", "n"]`), `north.toml:6:1: valve "v": it joins "n" with itself`},
		{valve(`joins = ["n", "nowhere"]`), `north.toml:6:1: valve "v": "nowhere" is no tank, no outlet, and joins nothing else; allowed: a tank, an outlet, pump-in, pump-out, supply, water-tank, or a joint that another link shares`},
		{valve("joins = [\"n\", \"pump-in\"]\nside = \"left\""), `north.toml:7:1: valve "v": side "left" is none of the pump's; allowed: suction, discharge, fill`},
		{valve("joins = [\"n\", \"supply\"]\nprotection = \"hope\""), `north.toml:7:1: valve "v": protection "hope" is unknown; allowed: air gap, backflow preventer`},
		{valve("joins = [\"n\", \"pump-in\"]\n[[line]]\nname = \"v\"\njoins = [\"n\", \"pump-out\"]"), `north.toml:5:1: valve: the name "v" is taken`},
		{tanks + "[plumbing]\noutlets = [\"hose\"]", `north.toml:5:1: plumbing: nothing joins outlet "hose"`},
		{valve("joins = [\"n\", \"pump-in\"]\n[plumbing]\noutlets = [\"n\"]"), `north.toml:8:1: plumbing: outlet "n" has the name of a tank or of the pump`},
		{tanks + "[plumbing]\noutlets = \"hose\"", `north.toml:5:1: plumbing: outlets takes a list of names in quotes`},
		{tanks + "[[line]]\nname = \"l\"\njoins = [\"n\", \"gap\"]", `north.toml:6:1: line "l": "gap" is no tank, no outlet, and joins nothing else; allowed: a tank, an outlet, pump-in, pump-out, supply, water-tank, or a joint that another link shares`},
	})
	y, err := Parse("north.toml", []byte(valve(`joins = ["n", "pump-in"]`)))
	require.NoError(t, err)
	require.Equal(t, []yard.Link{{Name: "v", A: "n", B: "pump-in", Valve: true}}, y.Plumbing.Links)
}

// A route is served by one truck, or by those of a list.
func TestRouteTrucks(t *testing.T) {
	for text, want := range map[string][]string{`"a"`: {"a"}, `["a", "b"]`: {"a", "b"}} {
		y := parse(t, good+"\n[[truck]]\nname = \"a\"\ntank = \"200gal\"\nempty_weight = \"9000lb\"\ngross_limit = \"15000lb\"\n[[truck]]\nname = \"b\"\ntank = \"200gal\"\nempty_weight = \"9000lb\"\ngross_limit = \"15000lb\"\n[[route]]\nname = \"of-two\"\nlane_miles = \"3mi\"\nrate = \"40gal/mi\"\ntruck = "+text+"\n")
		r, known := y.Route("of-two")
		require.True(t, known)
		require.Equal(t, want, r.Trucks)
	}
}
