package file

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The pavement of a storm is refused on either side of the limits, wherever it stands.
func TestPavementLimits(t *testing.T) {
	y := parse(t, good)
	const outside = `outside what is planned for; allowed: -49 F to 104 F (-45 C to 40 C)`
	for text, want := range map[string]string{
		`low = "-50F"`: "north.toml:1:1: low: " + outside,
		`low = "105F"`: "north.toml:1:1: low: " + outside,
		`pavement = [["20:00", "19F"], ["22:00", "-50F"]]`: "north.toml:1:1: row 2 of pavement: " + outside,
		"low = 19\npavement = [[\"20:00\", \"19F\"]]":      "north.toml:1:1: low and pavement are two forecasts; allowed: one of them",
	} {
		_, err := ParseStorm("north.toml", []byte(text), y)
		require.Equal(t, want, allFaults(err), "%s", text)
	}
	for _, text := range []string{`low = "-45C"`, `low = "40C"`, `low = "-49F"`} {
		_, err := ParseStorm("north.toml", []byte(text), y)
		require.NoError(t, err, "%s", text)
	}
}
