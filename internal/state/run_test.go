package state

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// The readings of a mixing are those since something was put into the tank or taken out; those before are kept.
func TestRuns(t *testing.T) {
	made := []string{"batch tank=mixer salt=2650lb water=982gal"}
	read := func(nacl ...string) (rows []string) {
		for _, w := range nacl {
			rows = append(rows, "reading tank=mixer scale=hydrometer reading="+w+" temp=60F")
		}
		return rows
	}
	rows := append(made, read("8", "14", "18", "20")...)
	now, past := tankOf(t, replay(rows...), "mixer").Runs()
	require.Len(t, now.Readings, 4)
	require.Empty(t, past)
	require.InDelta(t, 0.14, now.Readings[1].Shown, 1e-12)
	// All the salt in all the water: 2650 x 0.984 x 0.962 of salt, 982 x 8.344 lb and 2650 x 0.016 of water.
	salt, water := 2650*0.984*0.962, 982*8.3443+2650*0.016
	require.InDelta(t, salt/(salt+water), float64(now.End), 2e-4)
	require.Greater(t, float64(now.Volume), float64(982*quantity.Gallon))

	rows = append(rows, "transfer from=mixer tank=north volume=100gal")
	now, past = tankOf(t, replay(rows...), "mixer").Runs()
	require.Empty(t, now.Readings)
	require.Len(t, past, 1)

	rows = append(append(rows, read("9")...), "correction tank=mixer salt=50lb")
	rows = append(rows, read("12", "15")...)
	now, past = tankOf(t, replay(rows...), "mixer").Runs()
	require.Len(t, now.Readings, 2)
	require.Len(t, past, 1, "one reading alone tells nothing")

	for range 2 * mostRuns {
		rows = append(append(rows, "correction tank=mixer salt=1lb"), read("12", "13", "14")...)
	}
	now, past = tankOf(t, replay(rows...), "mixer").Runs()
	require.Len(t, now.Readings, 3)
	require.Len(t, past, mostRuns)
}

// A strength that was read on an instrument that nobody named is one of a sample of the hydrometer's temperature.
func TestRunOfStrengths(t *testing.T) {
	now, _ := tankOf(t, replay("reading tank=mixer nacl=12%", "reading tank=mixer nacl=15%"), "mixer").Runs()
	require.Len(t, now.Readings, 2)
	require.InDelta(t, float64(quantity.Fahrenheit(60)), float64(now.Readings[0].Temperature), 1e-9)
	require.InDelta(t, 0.12, now.Readings[0].Shown, 1e-12)
	require.Zero(t, now.End)
}

// A batch of which the time is known tells how fast brine left the bed.
func TestPassages(t *testing.T) {
	s := replay("batch tank=mixer volume=600gal nacl=23% hours=30min", "batch tank=mixer volume=700gal nacl=23%")
	tank := tankOf(t, s, "mixer")
	require.Len(t, tank.passages, 1)
	require.InEpsilon(t, float64(20*quantity.GallonPerMinute), float64(tank.passages[0].Flow), 1e-9)
}
