package main

import (
	"embed"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// yards are yard files for lines alone, beside the demo's: a metric one with five bought
// liquids, one of which little is said, and one with faults. Every number is made up.
//
//go:embed yards/*.toml
var yards embed.FS

// site is a yard file, and the names that stand in it.
type site struct {
	file  string
	text  string
	names map[string][]string // by table
	tanks []tank
}

// tank is one of a yard file.
type tank struct {
	name   string
	room   float64 // gal
	mixing bool
	filled bool // the file says what stands in it
}

// fixtures are what lines are drawn from; nothing changes them.
type fixtures struct {
	sites   []*site // good ones, the demo's first
	broken  *site
	storm   string // the demo's storm file
	journal string // the demo's
}

// readFixtures takes the demo's files from testdata.
func readFixtures(testdata string) (*fixtures, error) {
	f := &fixtures{}
	var err error
	read := func(parts ...string) string {
		text, e := os.ReadFile(filepath.Join(append([]string{testdata}, parts...)...))
		if err == nil {
			err = e
		}
		return string(text)
	}
	own := func(name string) *site {
		text, e := yards.ReadFile("yards/" + name)
		if err == nil {
			err = e
		}
		return newSite(name, string(text))
	}
	f.sites = []*site{
		newSite("thistlewick.toml", read("yard", "thistlewick.toml")), own("brackenfold.toml"), own("bare.toml"), newSite("small-yard.toml", read("storm", "small-yard.toml")),
	}
	f.broken = own("broken.toml")
	f.storm, f.journal = read("storm", "first-flake.toml"), read("season", "thistlewick.csv")
	if err != nil {
		return nil, fmt.Errorf("the demo's files: %w", err)
	}
	return f, nil
}

var (
	tableLine = regexp.MustCompile(`^\[\[(\w+)\]\]`)
	nameLine  = regexp.MustCompile(`^name = "(.*)"`)
	pileLine  = regexp.MustCompile(`(?m)^pile = .*$`)
	roomLine  = regexp.MustCompile(`^capacity = "([0-9.]+)(gal|L|kL)"`)
)

// newSite finds the names in a yard file, as far as lines are to use them.
func newSite(file, text string) *site {
	s := &site{file: file, text: text, names: map[string][]string{}}
	table := ""
	for _, row := range strings.Split(text, "\n") {
		if m := tableLine.FindStringSubmatch(row); m != nil {
			table = m[1]
		}
		last := len(s.tanks) - 1
		if m := nameLine.FindStringSubmatch(row); m != nil && table != "" {
			s.names[table] = append(s.names[table], m[1])
			if strings.HasSuffix(table, "_tank") {
				s.tanks = append(s.tanks, tank{name: m[1], mixing: table == "mixing_tank"})
			}
		} else if m := roomLine.FindStringSubmatch(row); m != nil && last >= 0 {
			number, _ := strconv.ParseFloat(m[1], 64)
			s.tanks[last].room = number / map[string]float64{"gal": 1, "L": 3.785411784, "kL": 3.785411784e-3}[m[2]]
		} else if strings.HasPrefix(row, "contents = ") && last >= 0 {
			s.tanks[last].filled = true
		}
	}
	return s
}

// choose settles which yard file there is, if any, and how the program hears of it.
func (d *draft) choose(needed bool) {
	if d.chosen {
		return
	}
	d.chosen = true
	if !needed && d.chance(0.45) {
		return
	}
	able := slices.Concat(d.shared.sites[:1], d.shared.sites)
	if d.of.wants != "" && !d.chance(0.05) {
		able = slices.DeleteFunc(able, func(s *site) bool { return len(s.names[d.of.wants]) == 0 })
	}
	d.place = pick(d.dice, able)
	file, text := d.place.file, d.place.text
	if d.chance(wornShare) {
		text = d.worn(text)
	} else if d.chance(wornShare) {
		text = pileLine.ReplaceAllString(text, "pile = \""+d.value("salt")+"\"") // next to none
	}
	if d.chance(brokenShare) {
		d.place, file, text = d.shared.broken, d.shared.broken.file, d.shared.broken.text
	}
	switch d.IntN(10) {
	case 0, 1, 2:
		file = "yard.toml"
	case 3:
		d.folder = "depot/"
		file = d.folder + file
		d.line.env = append(d.line.env, "BRINEYARD_FILE="+file)
	case 4:
		d.globals = []string{"--yard", "./" + file}
	default:
		d.globals = []string{"--yard", file}
	}
	d.line.files[file] = text
}

// How often a yard file is worn or broken.
const (
	wornShare   = 0.06
	brokenShare = 0.015
)

var keyLine = regexp.MustCompile(`^([a-z_]+) = ("?)([0-9.]+)?`)

// worn leaves keys out of a yard file and changes numbers, so that defaults and faults
// come up.
func (d *draft) worn(text string) string {
	rows := strings.Split(text, "\n")
	share := pick(d.dice, []float64{0.01, 0.03, 0.1})
	var out []string
	for _, row := range rows {
		m := keyLine.FindStringSubmatch(row)
		switch {
		case m == nil || m[1] == "name" || !d.chance(share):
			out = append(out, row)
		case m[3] == "" || d.chance(0.6):
			// left out
		case d.chance(0.1):
			out = append(out, "x"+row)
		default:
			number, _ := strconv.ParseFloat(m[3], 64)
			changed := d.digits(number * pick(d.dice, []float64{0, 0.5, 0.9, 1.02, 1.3, 3}))
			out = append(out, strings.Replace(row, m[2]+m[3], m[2]+changed, 1))
		}
	}
	return strings.Join(out, "\n")
}

// yardFile is a yard file that the line itself names, good or not.
func yardFile(d *draft) string {
	s := pick(d.dice, append(d.shared.sites[:2:2], d.shared.broken))
	text := s.text
	if d.chance(0.6) {
		text = d.worn(text)
	}
	d.line.files["depot/"+s.file] = text
	return "depot/" + s.file
}

// site is the yard file from which names are drawn: the line's, or the demo's where it was
// settled that the line has none.
func (d *draft) site() *site {
	d.choose(true)
	if d.place == nil {
		return d.shared.sites[0]
	}
	return d.place
}

// named draws a name out of a table of the yard file.
func (d *draft) named(tables ...string) string {
	var all []string
	for _, t := range tables {
		all = append(all, d.site().names[t]...)
	}
	if len(all) == 0 {
		return "nothing-here"
	}
	return pick(d.dice, all)
}

// tankName draws a tank of the yard file; the volumes drawn next fit it.
func (d *draft) tankName(fits func(tank) bool) string {
	all := slices.DeleteFunc(slices.Clone(d.site().tanks), func(t tank) bool { return !fits(t) })
	if len(all) == 0 {
		return "no-tank"
	}
	t := pick(d.dice, all)
	d.room = t.room
	return t.name
}
