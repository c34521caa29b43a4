package cli

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"strings"
	"testing"

	"brineyard/internal/gauge"
	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// FuzzArguments puts any text through the parsers of positional arguments: a part of
// a blend, a lot for a tank, a reading with its time. Each answers with a value that
// makes sense or with an error of one line.
func FuzzArguments(f *testing.F) {
	for _, text := range []string{
		"80:brine@23.3%", "20:cacl2@32%", "10:water", "1e3:KCL@5", ":", "@", "=", "6000gal@23.1%", "500gal:cacl2@32%",
		"north", "10:05=12%", "20=18.5%@45F", "0=1@", "24:00=1", "NaN:brine@3", "0x1p4:brine@3", "5\x00gal@3%", "\u202e:\xff@",
	} {
		f.Add(text)
	}
	s := &setting{origin: map[string]origin{}}
	o := &readyOptions{temp: &input[quantity.Temperature]{}}
	f.Fuzz(func(t *testing.T, text string) {
		if p, err := s.part(text); err == nil {
			require.True(t, p.Amount >= 0 && !math.IsInf(p.Amount, 0))
		} else {
			requireOneLine(t, err)
		}
		if lot, err := s.lot(text); err == nil {
			require.GreaterOrEqual(t, float64(lot.Volume), 0.0)
		} else {
			requireOneLine(t, err)
		}
		sample, _, err := o.timed(text, gauge.Instrument{Calibration: gauge.DefaultCalibration})
		if err == nil {
			require.GreaterOrEqual(t, float64(sample.At), 0.0)
			return
		}
		requireOneLine(t, err)
	})
}

func requireOneLine(t *testing.T, err error) {
	t.Helper()
	for _, r := range err.Error() {
		require.True(t, r >= ' ', "%q", err)
	}
}

// FuzzEach: whatever a table holds, each answers with as many rows as it has, all of one
// width, or refuses it in one line.
func FuzzEach(f *testing.F) {
	for _, text := range []string{
		"hydrometer,temp\n23.3%,40F\n", "hydrometer [%],temp,x\r\n21,50,\"a\nb\"\r\n", "temp\n", "", "\ufeffid,hydrometer,temp\n1\n1,2,3,4\n",
		"hydrometer,temp\n\"23\n", "hydrometer,hydrometer\n", "hydrometr,temp\n", "hydrometer,temp\n\x00,\xff\n", "sg [deg],temp [C]\n1.1,5\n",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var stdout, stderr bytes.Buffer
		env := System()
		env.In, env.Out, env.Err = strings.NewReader(text), &stdout, &stderr
		env.Getenv = func(string) string { return "" }
		status := Run(env, []string{"each", "reading", "--jobs", "2"})
		if stdout.Len() == 0 {
			require.Equal(t, statusInput, status)
			require.Equal(t, 1, strings.Count(stderr.String(), "\n"), "%q", stderr.String())
			return
		}
		rows, err := csv.NewReader(&stdout).ReadAll() // all of one width
		require.NoError(t, err)
		in := csv.NewReader(strings.NewReader(text))
		in.FieldsPerRecord = -1
		given := -1 // the headings
		for {
			_, err := in.Read()
			if err == io.EOF {
				break
			}
			given++
		}
		require.Len(t, rows, given+1)
	})
}
