package words

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestMatch(t *testing.T) {
	known := []string{"north", "North tank", "big-sprayer", "lot-pickup", "lot-truck", "mixer", "mixer 2", "SOUTH", "south"}
	for typed, want := range map[string]string{
		"north": "north", "NORTH": "north", "north tank": "North tank", "north-tank": "North tank", "  north   TANK ": "North tank",
		"Big Sprayer": "big-sprayer", "big_sprayer": "big-sprayer", "big": "big-sprayer", "b": "big-sprayer", "lot-p": "lot-pickup",
		"mixer": "mixer", "Mixer": "mixer", "mixer2": "", "mixer-2": "mixer 2", "mix": "", // two begin so
		"lot": "", "south": "south", "SOUTH": "SOUTH", "South": "", // two are the same
		"": "", "east": "", "norths": "",
	} {
		got, ok := Match(typed, known)
		require.Equal(t, want, got, typed)
		require.Equal(t, want != "", ok, typed)
	}
}
