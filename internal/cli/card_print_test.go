package cli

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The HTML is well-formed, every element closed, and needs nothing from elsewhere.
func TestCardHTMLIsWellFormed(t *testing.T) {
	text := answer(t, "card", "--yard", demoYard, "--format", "html")
	d := xml.NewDecoder(strings.NewReader(text))
	d.Entity = xml.HTMLEntity
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
	}
	for _, elsewhere := range []string{"http:", "https:", "<script", "<link", "src="} {
		require.False(t, strings.Contains(text, elsewhere), elsewhere)
	}
}

// A validator finds nothing to say of it, where there is one.
func TestCardHTMLIsValid(t *testing.T) {
	tidy := tool(t, "tidy")
	path := cardFile(t, "letter")
	out, err := exec.Command(tidy, "-e", "-q", path).CombinedOutput()
	require.NoError(t, err, "%s", out)
	require.Empty(t, string(out))
}

// Printed by a browser, each sheet is one page, and no word lies outside it.
func TestCardPrints(t *testing.T) {
	browser, words := tool(t, "chromium"), tool(t, "pdftotext")
	for paper, size := range map[string][2]float64{"letter": {612, 792}, "a4": {595, 842}} {
		pdf := filepath.Join(t.TempDir(), "card.pdf")
		out, err := exec.Command(browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
			"--disable-component-update", "--disable-sync", "--user-data-dir="+t.TempDir(), "--no-pdf-header-footer",
			"--print-to-pdf="+pdf, cardFile(t, paper)).CombinedOutput()
		require.NoError(t, err, "%s", out)
		boxes, err := exec.Command(words, "-bbox", pdf, "-").Output()
		require.NoError(t, err)
		requirePages(t, string(boxes), size, paper)
	}
}

var (
	pageBox = regexp.MustCompile(`<page width="([0-9.]+)" height="([0-9.]+)">`)
	wordBox = regexp.MustCompile(`<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*?)</word>`)
)

// requirePages checks the places of the words on the paper.
func requirePages(t *testing.T, boxes string, size [2]float64, paper string) {
	t.Helper()
	pages := strings.Split(boxes, "<page ")[1:]
	require.Len(t, pages, 4, "one page a sheet on %s", paper)
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return x
	}
	cells := 0
	for _, page := range pages {
		box := pageBox.FindStringSubmatch("<page " + page)
		require.InDelta(t, size[0], number(box[1]), 1)
		require.InDelta(t, size[1], number(box[2]), 1)
		for _, w := range wordBox.FindAllStringSubmatch(page, -1) {
			cells++
			require.GreaterOrEqual(t, number(w[1]), 20.0, "%s on %s", w[5], paper)
			require.LessOrEqual(t, number(w[3]), size[0]-20, "%s on %s", w[5], paper)
			require.LessOrEqual(t, number(w[4]), size[1]-20, "%s on %s", w[5], paper)
		}
	}
	// Every cell of every table is there: 19 x 9, 19 x 5, and more.
	require.Greater(t, cells, 19*9+19*5)
	for _, last := range []string{"25.93%", "164", "98.5", "5.04%"} {
		require.Contains(t, boxes, ">"+last+"<")
	}
}

// cardFile writes a card for printing.
func cardFile(t *testing.T, paper string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "card.html")
	require.NoError(t, os.WriteFile(path, []byte(answer(t, "card", "--yard", demoYard, "--format", "html", "--page", paper)), 0o644))
	return path
}

// tool finds a program that a machine may lack; CI installs them.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skip(name + " is not on this machine")
	}
	return path
}
