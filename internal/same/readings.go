package main

import (
	"fmt"
	"math"
)

// course is the true strength in percent after so many minutes over a bed of salt.
type course func(d *draft, start, minutes float64, i int) float64

// courses are tanks that go as they should, and one with each fault that ready tells.
var courses = []course{
	good, good, good,
	func(d *draft, start, t float64, _ int) float64 { return 19.5 - (19.5-start)*math.Exp(-0.07*t) },     // starved
	func(d *draft, start, t float64, _ int) float64 { return start + 8 - 0.06*t },                        // falling
	func(d *draft, start, t float64, i int) float64 { return good(d, start, t, i) - 2.5*float64(i%4/3) }, // one wrong
	func(d *draft, start, t float64, i int) float64 {
		return min(good(d, start, t, i), 23) + d.between(-1.8, 1.8)
	}, // scattered
	func(d *draft, start, t float64, _ int) float64 { return start + d.between(-0.02, 0.02) }, // stalled
	func(d *draft, start, t float64, i int) float64 { return good(d, start+12, t, i) },        // nearly there
}

// good drives a tank toward saturation.
func good(d *draft, start, t float64, _ int) float64 {
	return 26.3 - (26.3-start)*math.Exp(-0.035*t) + d.between(-0.05, 0.05)
}

// scales make of a strength in percent what each instrument shows, about.
var scales = []struct {
	name string
	show func(percent float64) string
}{
	{"hydrometer", func(p float64) string { return fmt.Sprintf("%.2f%%", p) }},
	{"sg", func(p float64) string { return fmt.Sprintf("%.4f", 1+0.0076*p) }},
	{"salometer", func(p float64) string { return fmt.Sprintf("%.1f", p/0.264) }},
	{"baume", func(p float64) string { return fmt.Sprintf("%.2f", 145-145/(1+0.0076*p)) }},
	{"weigh", func(p float64) string { return fmt.Sprintf("%.3flb/gal", 8.34*(1+0.0076*p)) }},
}

// readings are times with their readings, and the flags that go with them.
func readings(d *draft) []string {
	goes, start := pick(d.dice, courses), d.between(4, 11)
	clock, own := d.chance(0.5), d.chance(0.25)
	begin, t := d.IntN(24*60), 0.0
	scale := scales[0]
	if d.chance(0.3) {
		scale = pick(d.dice, scales)
	}
	var words []string
	for i := range 2 + d.IntN(7) {
		when := fmt.Sprint(int(t))
		if minute := (begin + int(t)) % (24 * 60); clock {
			when = fmt.Sprintf("%d:%02d", minute/60, minute%60)
		}
		word := when + "=" + scale.show(goes(d, start, t, i))
		if own {
			word += "@" + d.value("temp")
		}
		words = append(words, word)
		t += float64(3 + d.IntN(18))
	}
	if !own || d.chance(0.1) {
		words = append(words, "--temp", d.value("temp"))
	}
	if scale.name != "hydrometer" {
		words = append(words, "--by", scale.name)
	}
	return words
}
