package cli

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// lines draws command lines.
type lines struct {
	*rand.Rand
	folder string // for yard files
	t      *testing.T
}

// number draws one with up to so many decimals.
func (d *lines) number(low, high float64, decimals int) string {
	return strconv.FormatFloat(low+(high-low)*d.Float64(), 'f', d.IntN(decimals+1), 64)
}

// maybe is a word or nothing.
func (d *lines) maybe(share float64, word string) string {
	if d.Float64() < share {
		return " " + word
	}
	return ""
}

func (d *lines) pick(from ...string) string { return from[d.IntN(len(from))] }

// units are those of the answer.
func (d *lines) units() string { return d.maybe(0.4, "--units metric") }

// volume draws between a hundred and ten thousand gallons, evenly over sizes.
func (d *lines) volume() (text string, gallons float64) {
	gallons = math.Round(100 * math.Pow(100, d.Float64()))
	if d.IntN(3) == 0 {
		return fmt.Sprintf("%.0fL", gallons*3.785411784), gallons
	}
	return fmt.Sprintf("%.0fgal", gallons), gallons
}

func (d *lines) volumeText() string {
	text, _ := d.volume()
	return text
}

// sample draws a reading with its temperature.
func (d *lines) sample() string {
	return d.pick(
		"--hydrometer "+d.number(14, 25.8, 2)+"%", "--sg "+d.number(1.1, 1.18, 4)+"0", "--salometer "+d.number(50, 95, 1),
		"--baume "+d.number(12, 22, 1), "--weigh "+d.number(9.1, 9.85, 3)+"lb/gal", "--weigh 1."+d.number(1090, 1180, 0)[1:]+"kg/L",
	) + " --temp " + d.pick(d.number(36, 80, 1)+"F", d.number(3, 25, 1)+"C") + d.maybe(0.3, "--cal "+d.pick("68F", "15C", "20C"))
}

func (d *lines) rockSalt() string {
	return d.maybe(0.6, "--purity "+d.number(88, 100, 1)+"%") + d.maybe(0.5, "--moisture "+d.number(0.5, 5, 1)+"%")
}

func (d *lines) reading() string { return "reading " + d.sample() + d.units() }

func (d *lines) check() string {
	volume, gallons := d.volume()
	return "check --volume " + volume + " " + d.sample() + d.units() +
		d.maybe(0.4, fmt.Sprintf("--capacity %.0fgal", gallons*(1.003+0.12*d.Float64()))) +
		d.pick(d.rockSalt(), " --stock "+d.number(24.5, 26, 1)+"%", " --to 23.2% --low 22.8% --high 23.6%")
}

// correct draws corrections of every size, from parts in a million of a percent upward.
func (d *lines) correct() string {
	volume, gallons := d.volume()
	strength := "--strength " + d.number(18, 26.2, 3) + "%"
	switch d.IntN(4) {
	case 0:
		off := math.Pow(10, -1-4*d.Float64())
		strength = "--strength " + strconv.FormatFloat(23.3+off*float64(2*d.IntN(2)-1), 'f', 7, 64) + "% --to 23.3%"
	case 1:
		strength = d.sample()
	}
	return "correct --volume " + volume + " " + strength + d.units() +
		d.maybe(0.4, fmt.Sprintf("--capacity %.0fgal", gallons*(1.003+0.12*d.Float64()))) +
		d.pick(d.rockSalt(), d.rockSalt(), " --stock "+d.number(24.5, 26, 2)+"%", " --with stock --stock "+d.number(10, 21, 1)+"%")
}

func (d *lines) batch() string {
	volume, gallons := d.volume()
	return "batch --volume " + volume + d.rockSalt() + d.units() + d.maybe(0.4, "--to "+d.number(20, 25, 1)+"%") +
		d.maybe(0.5, "--supply "+d.number(10, 90, 1)+"gal/min") + d.maybe(0.4, "--bed "+d.number(50, 900, 0)+"lb") +
		d.maybe(0.5, "--water-temp "+d.number(45, 70, 1)+"F") +
		d.maybe(0.5, fmt.Sprintf("--heel-volume %.1fgal --heel-strength %s%%", gallons*(0.02+0.3*d.Float64()), d.number(15, 24, 1)))
}

// ready draws a mix that goes toward saturated brine, or toward what a starved bed reaches.
func (d *lines) ready() string {
	level, start, rate := 26.3, 6+10*d.Float64(), 0.02+0.05*d.Float64()
	if d.IntN(3) == 0 {
		level = 23.6 + 1.5*d.Float64()
	}
	line, minute := "ready", float64(d.IntN(2)*7)
	for range 4 + d.IntN(4) {
		line += fmt.Sprintf(" %.0f=%.1f%%", minute, level-(level-start)*math.Exp(-rate*minute))
		minute += float64(8 + d.IntN(12))
	}
	return line + " --temp 60F" + d.units()
}

func (d *lines) freeze() string {
	if d.IntN(10) == 0 {
		return "freeze --liquid larch-acetate --yard YARD" + d.units()
	}
	return "freeze --nacl " + d.number(10, 24, 1) + "%" + d.maybe(0.4, "--cacl2 "+d.number(1, 6, 1)+"%") +
		d.maybe(0.2, "--mgcl2 "+d.number(1, 3, 1)+"%") + d.maybe(0.2, "--kcl "+d.number(0.5, 2, 1)+"%") +
		d.maybe(0.6, "--at "+d.number(-15, 15, 1)+"F --volume "+d.volumeText()) + d.maybe(0.5, "--pavement "+d.number(15, 29, 1)+"F") + d.units()
}

func (d *lines) additive() string {
	return d.pick("cacl2@"+d.number(25, 34, 1)+"%", "mgcl2@"+d.number(22, 30, 1)+"%", "kcl@"+d.number(8, 15, 1)+"%", "water")
}

func (d *lines) blend() string {
	return "blend " + d.number(60, 90, 1) + ":brine@" + d.number(20, 25, 2) + "% " + d.number(5, 30, 1) + ":" + d.additive() +
		d.maybe(0.3, d.number(2, 9, 0)+":"+d.additive()) + d.maybe(0.3, "--by weight") + d.maybe(0.2, "--ice-at "+d.number(-15, -8, 1)+"F") +
		d.maybe(0.4, "--temp "+d.number(45, 75, 1)+"F") + d.units()
}

func (d *lines) store() string {
	line := "store " + d.volumeText() + "@" + d.number(20, 25, 2) + "%"
	switch d.IntN(8) {
	case 0:
		line += " " + d.volumeText() + ":larch-acetate --yard YARD"
	case 1, 2, 3:
		volume, gallons := d.volume()
		return "store " + volume + "@" + d.number(19, 22.9, 3) + "% --to 23.3% --with " + d.number(24, 26, 2) + "%" +
			d.maybe(0.5, fmt.Sprintf("--capacity %.0fgal", gallons*(1.01+0.3*d.Float64()))) + d.units()
	case 4, 5:
		line += " " + d.volumeText() + ":" + d.pick("cacl2@"+d.number(25, 32, 1)+"%", "mgcl2@"+d.number(22, 29, 1)+"%")
	default:
		line += " " + d.volumeText() + "@" + d.number(20, 26, 2) + "%"
	}
	return line + d.maybe(0.4, "--batches "+d.pick("2", "3", "7")) + d.maybe(0.4, "--temp "+d.number(45, 75, 1)+"F") + d.units()
}

func (d *lines) truck() string {
	line := "truck" + d.units()
	if d.IntN(2) == 0 {
		line += " --tank " + d.number(200, 2500, 0) + "gal" + d.maybe(0.7, "--empty "+d.number(9000, 20000, 0)+"lb --gross "+d.number(21000, 42000, 0)+"lb") +
			d.maybe(0.6, "--flow "+d.number(30, 250, 1)+"gal/min") + d.maybe(0.4, "--liquid cacl2@"+d.number(20, 32, 1)+"%")
	}
	switch d.IntN(3) {
	case 0:
		line += " --rate " + d.number(12, 70, 1) + "gal/mi --speed " + d.number(10, 40, 1) + "mph" + d.maybe(0.4, "--lanes 2")
	case 1:
		line += " --area-rate " + d.pick(d.number(8, 60, 1)+"gal/acre", d.number(90, 500, 0)+"L/ha") + " --speed " + d.number(6, 30, 1) + "mph --width " + d.number(6, 26, 1) + "ft"
	}
	return line + d.maybe(0.5, "--nozzles "+d.number(4, 24, 0)) + d.maybe(0.5, "--catch "+d.number(3, 60, 1)+"gal --over "+d.number(1, 3, 1)+"min")
}

// yard writes the demo's yard file with other numbers.
func (d *lines) yard() string {
	text, err := os.ReadFile(demoYard)
	require.NoError(d.t, err)
	drawn := strings.NewReplacer(
		`"38gal/min"`, `"`+d.number(8, 120, 1)+`gal/min"`, `"165gal/min"`, `"`+d.number(30, 300, 1)+`gal/min"`,
		`"40min"`, `"`+d.number(5, 90, 1)+`min"`, `"35min"`, `"`+d.number(5, 90, 1)+`min"`,
		`"1095gal"`, `"`+d.number(600, 1150, 1)+`gal"`, `"225gal"`, `"`+d.number(100, 238, 1)+`gal"`,
		`"96.2%"`, `"`+d.number(88, 100, 1)+`%"`, `"1.6%"`, `"`+d.number(0, 4, 1)+`%"`, `"46F"`, `"`+d.number(40, 65, 1)+`F"`,
		`"71.50/ton"`, `"`+d.number(50, 120, 2)+`/ton"`,
	).Replace(string(text))
	path := filepath.Join(d.folder, fmt.Sprintf("yard%d.toml", d.Uint64()))
	require.NoError(d.t, os.WriteFile(path, []byte(drawn), 0o600))
	return path
}

func (d *lines) yardShow() string { return "yard show --yard " + d.yard() + d.units() }

func (d *lines) season() string {
	return "journal season --journal " + d.journal() + " --yard " + d.yard() + d.units() +
		d.maybe(0.5, fmt.Sprintf("--from 2025-%d-%02d", 11+d.IntN(2), 1+d.IntN(28))) + d.maybe(0.5, fmt.Sprintf("--to 2026-0%d-%02d", 1+d.IntN(3), 1+d.IntN(28)))
}

// journal is the demo's winter, now and then without a count of its pile.
func (d *lines) journal() string {
	if d.IntN(4) > 0 {
		return "SEASON"
	}
	text, err := os.ReadFile(demoSeason)
	require.NoError(d.t, err)
	var kept []string
	for _, row := range strings.SplitAfter(string(text), "\n") {
		if !strings.Contains(row, ",count,") && !strings.Contains(row, ",delivery,") {
			kept = append(kept, row)
		}
	}
	path := filepath.Join(d.folder, "uncounted.csv")
	require.NoError(d.t, os.WriteFile(path, []byte(strings.Join(kept, "")), 0o600))
	return path
}

func (d *lines) storm() string {
	return "storm" + d.maybe(0.5, "STORM") + " --low " + d.number(12, 29, 1) + "F --now 06:00 --start 20:00 --yard " + d.yard() + d.units() +
		d.maybe(0.4, "--reserve "+d.number(100, 3000, 0)+"gal") + d.maybe(0.4, "--rate "+d.number(20, 60, 1)+"gal/mi") + d.maybe(0.3, "--passes "+d.pick("1", "2", "4"))
}

// drill draws a sheet of problems with the answers.
func (d *lines) drill() string {
	return fmt.Sprintf("drill --print 3 --key --seed %d --level %d --yard YARD%s", d.IntN(1000), 1+d.IntN(3), d.units())
}

// level is a tank of the demo yard with a flat floor, or a pile.
// glass tests one in water below the 60 F that it is marked for, or in a brine.
func (d *lines) glass() string {
	if d.IntN(2) == 0 {
		return "glass --water " + d.number(0.1, 0.6, 2) + "% --temp " + d.number(40, 59, 1) + "F" + d.units()
	}
	return "glass --salt " + d.number(280, 320, 0) + "g --water-weight 1000g --temp " + d.number(45, 75, 1) + "F --hydrometer " + d.number(22, 24.5, 1) + "%" + d.units()
}

func (d *lines) level() string {
	if d.IntN(2) == 0 {
		return "level --yard " + demoYard + " --tank " + d.pick("north --depth "+d.number(10, 100, 2)+"in", "mixer --depth "+d.number(25, 110, 1)+"cm", "tote --depth "+d.number(3, 37, 1)+"in --bed "+d.number(5, 60, 0)+"lb") + d.units()
	}
	width := 20 + 60*d.Float64()
	return fmt.Sprintf("level --pile --width %.2fft", width) + d.maybe(0.5, fmt.Sprintf("--height %.2fft", width*(0.2+0.12*d.Float64()))) +
		d.maybe(0.5, fmt.Sprintf("--length %.1fft", width*(1+3*d.Float64()))) + d.units()
}
