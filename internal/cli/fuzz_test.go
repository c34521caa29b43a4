package cli

import (
	"bytes"
	"encoding/csv"
	"io"
	"strings"
	"testing"

	"brineyard/internal/cli/run"

	"github.com/stretchr/testify/require"
)

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
		env := run.System()
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
