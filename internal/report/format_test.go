package report

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFormats(t *testing.T) {
	var names []string
	for _, f := range Formats() {
		names = append(names, f.Name)
	}
	require.Equal(t, []string{"text", "json", "csv", "markdown"}, names) // text first, as the default
}

// Every format gives its answer first: behind the heading or the command at most.
func TestVerdictComesFirst(t *testing.T) {
	before := map[string]string{
		"text":     "",
		"json":     "{\n  \"command\": \"freeze\",\n  \"verdict\": \"",
		"csv":      "figure,value,unit\nverdict,",
		"markdown": "# Title\n\n**",
	}
	for _, f := range Formats() {
		d := sample()
		d.Command, d.Title, d.Verdict = "freeze", "Title", "Freezes at -6 F."
		got := draw(t, f.Draw, d)
		require.True(t, strings.HasPrefix(got, before[f.Name]+"Freezes at -6 F."), "%s: %.100s", f.Name, got)
	}
}

// The same document is drawn the same each time, and is not changed by it.
func TestDrawingChangesNothing(t *testing.T) {
	d := sample()
	for _, f := range Formats() {
		require.Equal(t, draw(t, f.Draw, d), draw(t, f.Draw, d), f.Name)
		require.Equal(t, sample(), d, f.Name)
	}
}

// full is a disk that takes some bytes and then no more.
type full struct{ room int }

var errFull = errors.New("disk full")

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.room {
		n := f.room
		f.room = 0
		return n, errFull
	}
	f.room -= len(p)
	return len(p), nil
}

// A failed writing is told, wherever it happens.
func TestWriteErrors(t *testing.T) {
	for _, f := range Formats() {
		size := len(draw(t, f.Draw, sample()))
		for room := range size {
			require.ErrorIs(t, f.Draw(&full{room}, sample()), errFull, "%s after %d bytes", f.Name, room)
		}
		require.NoError(t, f.Draw(&full{size}, sample()), f.Name)
	}
}
