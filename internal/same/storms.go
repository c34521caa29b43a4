package main

import (
	"fmt"
	"strings"
)

// stormFile draws a storm file for the yard: the demo's, or one of its own.
func stormFile(d *draft) string {
	text := d.stormText()
	if d.site() == d.shared.sites[0] && d.chance(0.3) {
		text = d.shared.storm
	}
	name := pick(d.dice, []string{"storm.toml", "first-flake.toml", "depot/storm.toml"})
	d.line.files[name] = text
	if d.chance(0.02) {
		return "storms.toml" // which is not there
	}
	return name
}

func (d *draft) stormText() string {
	var b strings.Builder
	key := func(share float64, name, value string) {
		if d.chance(share) {
			fmt.Fprintf(&b, "%s = %s\n", name, value)
		}
	}
	quoted := func(kind string) string { return `"` + d.value(kind) + `"` }
	key(0.6, "name", `"of the night"`)
	key(0.6, "now", quoted("clock"))
	key(0.6, "start", quoted("clock"))
	key(0.2, "down_by", quoted("clock"))
	key(0.3, "reserve", quoted("reserve"))
	if d.chance(0.6) {
		key(1, "low", quoted("cold"))
	} else {
		key(0.9, "pavement", fmt.Sprintf("[[%s, %s], [%s, %s]]", quoted("clock"), quoted("cold"), quoted("clock"), quoted("cold")))
	}
	key(0.02, "snow", `"deep"`)
	for _, route := range d.site().names["route"] {
		if d.chance(0.5) {
			continue
		}
		fmt.Fprintf(&b, "\n[[route]]\nname = %q\n", route)
		key(0.5, "passes", d.value("passes"))
		key(0.2, "rate", quoted("rate"))
		key(0.2, "priority", d.value("few"))
		key(0.15, "liquid", quoted("load-liquid"))
		key(0.1, "skip", "true")
		key(0.02, "passes", "0")
	}
	return b.String()
}
