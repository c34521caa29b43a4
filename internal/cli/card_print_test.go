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

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
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
	path := cardFile(t, "letter", "us")
	out, err := exec.Command(tidy, "-e", "-q", path).CombinedOutput()
	require.NoError(t, err, "%s", out)
	require.Empty(t, string(out))
}

// Printed by a browser, each sheet is one page, no word lies outside it and none on another: with the
// fonts that the card asks for, with one wide fallback alone, and with what the machine has.
func TestCardPrints(t *testing.T) {
	browser, words := tool(t, "chromium"), tool(t, "pdftotext")
	own, wide := fontFolder(t, liberationsansregular.TTF, liberationsansbold.TTF), fontFolder(t, liberationmonoregular.TTF) // a fifth wider
	papers := map[string][2]float64{"letter": {612, 792}, "a4": {595, 842}}
	for _, c := range []struct{ fonts, config, paper, system string }{
		{"its own", own, "letter", "us"}, {"its own", own, "a4", "metric"}, {"what there is", "", "letter", "us"},
		{"one wide", wide, "letter", "us"}, {"one wide", wide, "letter", "metric"}, {"one wide", wide, "a4", "us"}, {"one wide", wide, "a4", "metric"},
	} {
		pdf := filepath.Join(t.TempDir(), "card.pdf")
		cmd := exec.Command(browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
			"--disable-component-update", "--disable-sync", "--user-data-dir="+t.TempDir(), "--no-pdf-header-footer",
			"--print-to-pdf="+pdf, cardFile(t, c.paper, c.system))
		if c.config != "" {
			cmd.Env = append(os.Environ(), "FONTCONFIG_FILE="+c.config)
		}
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", out)
		boxes, err := exec.Command(words, "-bbox", pdf, "-").Output()
		require.NoError(t, err)
		requirePages(t, string(boxes), papers[c.paper], strings.Join([]string{c.paper, c.system, "fonts:", c.fonts}, " "))
	}
}

// fontFolder is the configuration of a machine that has these fonts alone.
func fontFolder(t *testing.T, fonts ...[]byte) string {
	t.Helper()
	folder := t.TempDir()
	for i, font := range fonts {
		require.NoError(t, os.WriteFile(filepath.Join(folder, strconv.Itoa(i)+".ttf"), font, 0o644))
	}
	config := filepath.Join(folder, "fonts.conf")
	require.NoError(t, os.WriteFile(config, []byte(`<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig><dir>`+folder+
		`</dir><cachedir>`+folder+`/cache</cachedir></fontconfig>`), 0o644))
	return config
}

var (
	pageBox = regexp.MustCompile(`<page width="([0-9.]+)" height="([0-9.]+)">`)
	wordBox = regexp.MustCompile(`<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*?)</word>`)
)

// requirePages checks the places of the words on the paper.
func requirePages(t *testing.T, boxes string, size [2]float64, paper string) {
	t.Helper()
	pages := strings.Split(boxes, "<page ")[1:]
	require.Equal(t, 4, len(pages), "one page a sheet on %s", paper)
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return x
	}
	var seen int
	for _, page := range pages {
		box := pageBox.FindStringSubmatch("<page " + page)
		require.InDelta(t, size[0], number(box[1]), 1)
		require.InDelta(t, size[1], number(box[2]), 1)
		for _, w := range wordBox.FindAllStringSubmatch(page, -1) {
			seen++
			require.GreaterOrEqual(t, number(w[1]), 20.0, "%s on %s", w[5], paper)
			require.LessOrEqual(t, number(w[3]), size[0]-20, "%s on %s", w[5], paper)
			require.LessOrEqual(t, number(w[4]), size[1]-20, "%s on %s", w[5], paper)
		}
	}
	// Every cell of every table is there: 26 x 9, 17 x 7, and more.
	require.Greater(t, seen, 26*9+17*7, paper)
	for _, last := range []string{"26.4%", "PUMP", "98.5", "5.04%", "target", "falls", "Made"} {
		require.Contains(t, boxes, ">"+last+"<", paper)
	}
	for _, box := range wordBox.FindAllStringSubmatch(boxes, -1) {
		require.Greater(t, number(box[4])-number(box[2]), 11.5, "%s is smaller than 14 points on %s", box[5], paper)
	}
	for _, page := range pages {
		requireApart(t, wordBox.FindAllStringSubmatch(page, -1), number, paper)
	}
}

// requireApart checks that no two words of a page lie on each other.
func requireApart(t *testing.T, words [][]string, number func(string) float64, paper string) {
	t.Helper()
	const touch = 1 // point; boxes are higher than lines
	for i, a := range words {
		for _, b := range words[:i] {
			across := min(number(a[3]), number(b[3])) - max(number(a[1]), number(b[1]))
			down := min(number(a[4]), number(b[4])) - max(number(a[2]), number(b[2]))
			require.False(t, across > touch && down > (number(a[4])-number(a[2]))/2, "%s lies on %s, %s", a[5], b[5], paper)
		}
	}
}

// cardFile writes a card for printing.
func cardFile(t *testing.T, paper, system string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "card.html")
	require.NoError(t, os.WriteFile(path, []byte(answer(t, "card", "--yard", demoYard, "--format", "html", "--page", paper, "--units", system)), 0o644))
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
