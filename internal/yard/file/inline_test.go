package file

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TOML lets tables be written on one line, or key by key.
func TestInlineTables(t *testing.T) {
	want := parse(t, "[target]\nlow = \"23%\"\nhigh = \"24%\"\n[[mixing_tank]]\nname = \"a\"\ncapacity = \"10gal\"\n")
	for _, text := range []string{
		`mixing_tank = [{name = "a", capacity = "10gal"}]` + "\n" + `target = {low = "23%", high = "24%"}`,
		`mixing_tank = [ { name="a" , capacity="10gal" } , ]` + "\ntarget.low = \"23%\"\ntarget.high = \"24%\"",
		"target.low = \"23%\"\ntarget . high = \"24%\"\nmixing_tank = [\n  {name = \"a\", # one\n capacity = 10}\n]",
	} {
		require.Equal(t, want, parse(t, text), "%s", text)
	}
	require.Empty(t, parse(t, "mixing_tank = []\nstorage_tank = []").Tanks)
}

// Faults in them are told with the place of the key, or of the list it is in.
func TestInlineFaults(t *testing.T) {
	requireFaults(t, []fault{
		{`target = {low = "24", high = "20"}`, `north.toml:1:1: target: low 24% is above high 20%`},
		{"target.high = \"20\"\ntarget.low = \"24\"", `north.toml:2:1: target: low 24% is above high 20%`},
		{`mixing_tank = [{capacity = "10gal"}]`, `north.toml:1:1: mixing_tank: name is missing`},
		{`mixing_tank = [{name = "a"}]`, `north.toml:1:1: mixing_tank "a": capacity is missing`},
		{`mixing_tank = [{name = "a", capacity = "10gal", working_volume = "12gal"}]`,
			`north.toml:1:1: mixing_tank "a": working_volume 12 gal is above capacity 10 gal`},
		{`mixing_tank = [{name = "a", capacity = "10gal", colour = "red"}]`, `north.toml:1:1: mixing_tank "a": unknown key "colour"; allowed: bed, bed_capacity, capacity, depths, diameter, head_depth, heads, length, mix_time, name, pump_off, shape, stick, width, working_volume, zero`},
		{`mixing_tank = {name = "a"}`, `north.toml:1:1: mixing_tank is a list of tables; write [[mixing_tank]] above the keys of each`},
		{"mixing_tank = [\n  {name = \"a\", pump_off = true, capacity = \"1\"},\n]",
			`north.toml:1:1: mixing_tank "a": pump_off takes a quantity in quotes, not true or false`},
	})
}

// For these the place is not pinned, but the file and the words are there.
func TestInlineFaultsSayWhat(t *testing.T) {
	for text, want := range map[string]string{
		`mixing_tank = [{name = "a", capacity = "1"}, {name = "b"}]`:                                     `mixing_tank "b": capacity is missing`,
		`mixing_tank = [{name = "a", capacity = "1"}, {name = "a", capacity = "1"}]`:                     `mixing_tank: the name "a" is taken`,
		"mixing_tank = [{name = \"a\", capacity = \"1\"},\n {name = \"b\", pump_off = 3, capacity = 1}]": `mixing_tank "b": pump_off 3 gal is above`,
		`mixing_tank = [{name = "a", capacity = "10furlong"}]`:                                           `"furlong" is no unit of a volume`,
		`mixing_tank = [{name = "a", capacity = "-10gal"}]`:                                              `out of range`,
		`mixing_tank.name = "a"`:                        "mixing_tank",
		`mixing_tank = [1]`:                             "mixing_tank",
		`mixing_tank = [[]]`:                            "mixing_tank",
		`mixing_tank = ["a"]`:                           "mixing_tank",
		`target = "23"`:                                 "target",
		"hydrometer = []":                               "hydrometer",
		"[[target]]\nlow = 23":                          "target",
		"name.first = \"a\"":                            "name",
		"[[mixing_tank]]\nname = \"a\"\ncapacity.x = 1": "capacity takes a quantity",
	} {
		_, err := Parse("north.toml", []byte(text))
		var e *Error
		require.ErrorAs(t, err, &e, "%s", text)
		require.Equal(t, "north.toml", e.Path)
		require.Contains(t, e.Message, want, "%s", text)
	}
}
