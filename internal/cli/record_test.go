package cli

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"brineyard/internal/cli/run"
	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// fiveAM is when the entries of these tests are made.
var fiveAM = time.Date(2026, 1, 14, 5, 0, 0, 0, time.UTC)

// recordAt runs a command line at five and returns what it recorded.
func recordAt(t *testing.T, line string) []journal.Entry {
	t.Helper()
	path := filepath.Join(t.TempDir(), "journal.csv")
	var stdout, stderr bytes.Buffer
	env := run.System()
	env.Out, env.Err = &stdout, &stderr
	env.Getenv = func(string) string { return "" }
	env.Now = func() time.Time { return fiveAM }
	args := append(strings.Fields(line), "--yard", demoYard, "--record", "--journal", path, "--operator", "Ash")
	require.Zero(t, Run(env, args), "%s: %s", line, stderr.String())
	require.Contains(t, stderr.String(), "journal.csv")
	j, err := disk.Read(path)
	require.NoError(t, err)
	require.Empty(t, j.Faults)
	for _, e := range j.Entries {
		require.True(t, fiveAM.Equal(e.Time))
		require.Equal(t, "Ash", e.Operator)
	}
	return j.Entries
}

// What a command concluded is what it writes: the figures are those that it prints.
func TestRecord(t *testing.T) {
	gal, lb := quantity.Gallon, quantity.Pound
	check := recordAt(t, "check --tank mixer --hydrometer 23.3% --temp 40F")
	require.Len(t, check, 1)
	require.Equal(t, journal.Reading, check[0].Kind)
	require.InEpsilon(t, 23.3, *check[0].Reading, 1e-9)
	require.InDelta(t, 0.2265, float64(*check[0].NaCl), 5e-5)
	require.Equal(t, "too weak", check[0].Note)

	batch := recordAt(t, "batch --tank mixer")
	line := "batch --tank mixer --yard " + demoYard
	require.Len(t, batch, 1)
	require.Equal(t, journal.Batch, batch[0].Kind)
	require.InEpsilon(t, 1180, float64(*batch[0].Volume/gal), 1e-9)
	require.InEpsilon(t, figureOf(t, line, "salt_to_load")-900, float64(*batch[0].Salt/lb), 1e-9) // the bed stays
	require.InEpsilon(t, figureOf(t, line, "water_to_add"), float64(*batch[0].Water/gal), 1e-9)
}

func TestRecordOfCorrections(t *testing.T) {
	gal, lb := quantity.Gallon, quantity.Pound
	correct := recordAt(t, "correct --tank mixer --strength 26% --volume 1300gal")
	require.Len(t, correct, 2) // it has to be drawn off first
	require.Equal(t, []any{journal.Transfer, "mixer", "drawn-off"}, []any{correct[0].Kind, correct[0].From, correct[0].Tank})
	require.Equal(t, journal.Correction, correct[1].Kind)
	line := "correct --tank mixer --strength 26% --volume 1300gal --yard " + demoYard
	require.InEpsilon(t, figureOf(t, line, "draw_off_first"), float64(*correct[0].Volume/gal), 1e-9)
	require.InEpsilon(t, figureOf(t, line, "water_to_add"), float64(*correct[1].Water/gal), 1e-9)

	salt := recordAt(t, "correct --tank mixer --strength 21%")
	require.InEpsilon(t, figureOf(t, "correct --tank mixer --strength 21% --yard "+demoYard, "salt_to_add"), float64(*salt[0].Salt/lb), 1e-9)

	stock := recordAt(t, "correct --tank mixer --strength 22.5% --stock 26%")
	require.InDelta(t, 0.26, float64(*stock[len(stock)-1].NaCl), 1e-12)

	none := recordAt(t, "correct --tank mixer --strength 23.3%")
	require.Equal(t, journal.Note, none[0].Kind)
}

func TestRecordOfMixes(t *testing.T) {
	store := recordAt(t, "store north 400gal@25% 100gal:cacl2@31% --batches 2")
	require.Len(t, store, 3)
	require.Equal(t, "north", store[0].Tank)
	require.InDelta(t, 0.25, float64(*store[0].NaCl), 1e-12)
	require.InDelta(t, 0.31, float64(*store[2].CaCl2), 1e-12)
	require.Empty(t, store[2].Liquid, "typed by its salts, it has no name in the yard")

	blend := recordAt(t, "blend --additive-into north 10:cal31")
	require.Len(t, blend, 1)
	require.Equal(t, "cal31", blend[0].Liquid)
	require.InEpsilon(t, figureOf(t, "blend --additive-into north 10:cal31 --yard "+demoYard, "additive_to_add"), float64(*blend[0].Volume/quantity.Gallon), 1e-9)
}

// A journal that cannot be written is a failure, and the answer is not shown as if it had
// been kept.
func TestRecordFails(t *testing.T) {
	status, out, errs := invoke(t, "check", "--yard", demoYard, "--tank", "mixer", "--hydrometer", "23.3%", "--temp", "40F",
		"--record", "--journal", filepath.Join(t.TempDir(), "no", "such", "folder", "journal.csv"))
	require.Equal(t, statusInput, status)
	require.Empty(t, out)
	require.Contains(t, errs, "folder")
}
