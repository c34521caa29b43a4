package main

import (
	"fmt"
	"slices"
	"strings"
)

// choices are the kinds of value that are one of a few, by word or by shape.
var choices = map[string][]string{
	"with":           {"water", "salt", "stock", "Water"},
	"by-share":       {"volume", "weight"},
	"instrument":     {"hydrometer", "sg", "salometer", "baume", "weigh"},
	"sheet":          {"temperature", "correction", "freezing", "blends", "all"},
	"card-format":    {"text", "json", "csv", "markdown", "html", "svg"},
	"page":           {"letter", "a4"},
	"topic":          {"strong", "weak", "reading", "heel", "blend", "truck", "valves", "Heel"},
	"level":          {"1", "2", "3"},
	"units":          {"us", "metric", "metric", "Metric"},
	"answer-format":  {"json", "json", "json", "csv", "markdown", "text"},
	"operator":       {"Ash", "Rowan", "Juniper", "the night shift"},
	"note":           {"valve drips", "first flake", "=1+1, \"quoted\"", "sludge to the pad", "señal débil"},
	"season-table":   {"months", "stocks", "movements", "routes", "work", "paid", "monts"},
	"order":          {"m/d/y", "d/m/y", "D/M/Y", "y/m/d"},
	"kind":           {"batch", "reading", "correction", "transfer", "load", "unload", "delivery", "order", "spill", "sale", "loan", "gift", "clean", "rinse", "count", "work", "note", "undo", "accept", "Batch"},
	"due":            {"2026-12-20", "2027-01-11 07:30", "2026-01-15", "2026-02-28T10:00"},
	"ticket":         {"W-4471", "18/203", "=4471", "no ticket"},
	"wait":           {"1s", "0.5s", "2", "0s"},
	"lanes":          {"1", "2", "3"},
	"nozzles":        {"4", "6", "12", "18"},
	"few":            {"1", "2", "3", "4", "7"},
	"passes":         {"1", "2", "2", "3", "5", "9"},
	"day":            {"2025-11-01", "2025-11-20", "2025-12-01", "2025-12-24", "2026-01-01", "2026-01-14 05:40", "2026-02-15", "2026-03-31", "2026-04-30"},
	"at":             {"2026-01-14 05:40", "2025-12-02", "2026-02-11T19:05", "2026-01-03T04:00:00-05:00", "2026-02-01 0:30", "2026-03-08 02:30", "2025-11-02 01:30"},
	"picture":        {"season.svg", "charts.svg", "depot/season.svg", "thistlewick.toml"},
	"share":          {"{few}0", "80", "70", "50", "20", "15.5", "1", "0.2"},
	"shop-file":      {"yard.toml", "north.toml", "depot/new.toml"},
	"plain-liquid":   {"brine@{strength}", "brine@{strength}", "nacl@{nacl}", "cacl2@{cacl2}", "mgcl2@{mgcl2}", "kcl@{kcl}", "water", "Brine@{strength}"},
	"liquid":         {"{plain-liquid}", "{plain-liquid}", "{yard-liquid}"},
	"lot":            {"{volume}@{strength}", "{volume}@{strength}", "{volume}:{liquid}", "{filled}"},
	"some-lot":       {"{some-volume}@{strength}", "{some-volume}:{liquid}"},
	"part":           {"{share}:{liquid}"},
	"additive":       {"cacl2@{cacl2}", "mgcl2@{mgcl2}", "cacl2@32%", "{bought}"},
	"place":          {"{tank}", "{tank}", "{outlet}", "supply"},
	"change":         {"rate={rate}", "start={clock}", "now={clock}", "low={cold}", "reserve={reserve}", "passes={passes}"},
	"changes":        {"{change}", "{change}", "rate={rate},start={clock}", "low={cold},passes={passes}", "now={clock},reserve={reserve}", "{change},{change}"},
	"count-of-drill": {"1", "2", "3", "5"},
	"seed":           {"7", "{minutes}", "4294967295", "0"},
}

// rules are parts that several shapes share.
var rules = map[string][]string{
	"glass":    {"--hydrometer", "--hydrometer", "--hydrometer", "--sg", "--salometer", "--baume"},
	"sample":   {"{glass} --temp", "{glass} --temp", "{glass} --temp --cal", "--weigh --temp", "{glass} --temp --glass-division --thermometer-division", "{glass} --temp --offset --offset-sure", "--hydrometer --temp --glass"},
	"vessel":   {"--volume", "--volume --capacity", "--tank={mixing}", "--tank={tank}", "--tank={mixing} --volume", "--tank={tank} --volume --capacity?"},
	"named":    {"--tank={mixing}", "--tank={mixing} --volume", "--tank={brine-tank} --volume"},
	"band":     {"--to", "--to", "--low", "--high", "--low --high", "--to --low --high"},
	"rocksalt": {"--purity", "--moisture", "--purity --moisture"},
	"remedy":   {"--stock", "--with", "--with=stock --stock", "--with=salt", "--with=water", "--stock={thin-stock}"},
	"record":   {"--record", "--record --journal", "--record --journal", "--record --operator", "--record --journal --operator", "--record --at --as-seen --wait"},
	"who":      {"--at", "--at --operator", "--operator", "--at --note", "--at --operator --note", "--at", "--at --as-seen", "--at --wait"},
	"salts":    {"--nacl", "--nacl", "--nacl={some-salt} --cacl2={some-salt}", "--nacl={some-salt} --mgcl2={some-salt}", "--cacl2", "--mgcl2", "--kcl", "--nacl={some-salt} --kcl={some-salt} --cacl2={some-salt} --mgcl2={some-salt}"},
	"made-of":  {"--strength", "--strength", "--cacl2", "--mgcl2", "--strength={some-salt} --cacl2={some-salt}", "--kcl", "--strength={some-salt} --kcl={some-salt}"},
}

// makers draw the values that hang on the yard file or on what was drawn before.
func makers() map[string]func(*draft) string {
	return map[string]func(*draft) string{
		"volume": volumeValue, "brim": brimValue, "heel": heelValue, "near": nearValue, "cal": calValue,
		"tank":        func(d *draft) string { return d.tankName(func(tank) bool { return true }) },
		"mixing":      func(d *draft) string { return d.tankName(func(t tank) bool { return t.mixing }) },
		"storage":     func(d *draft) string { return d.tankName(func(t tank) bool { return !t.mixing }) },
		"filled":      func(d *draft) string { return d.tankName(func(t tank) bool { return t.filled }) },
		"brine-tank":  func(d *draft) string { return d.tankName(func(t tank) bool { return t.filled || t.mixing }) },
		"glass-name":  func(d *draft) string { return d.named("glass") },
		"truck":       func(d *draft) string { return d.named("truck") },
		"route":       func(d *draft) string { return d.named("route") },
		"bought":      func(d *draft) string { return d.named("liquid") },
		"yard-liquid": func(d *draft) string { return d.named("liquid", "liquid", "blend", "storage_tank") },
		"line":        func(d *draft) string { return d.named("line", "valve") },
		"load-liquid": func(d *draft) string { return d.named("liquid", "blend") },
		"valves":      valvesValue, "outlet": outletValue, "stock": stockValue,
		"clock":   func(d *draft) string { return fmt.Sprintf("%d:%02d", d.IntN(24), d.IntN(12)*5) },
		"minutes": func(d *draft) string { return fmt.Sprint(d.IntN(1000)) },
		"journal": journalValue, "entry": func(d *draft) string { return fmt.Sprint(1 + d.IntN(d.entries+2)) },
		"storm-file": stormFile, "yard-file": yardFile,
	}
}

// valvesValue draws valves that are open: a way through the pump, or any.
func valvesValue(d *draft) string {
	all := d.site().names["valve"]
	if len(all) == 0 {
		return "V1"
	}
	if d.chance(0.06) {
		return "none"
	}
	var open []string
	for range 1 + d.IntN(4) {
		if v := pick(d.dice, all); !slices.Contains(open, v) {
			open = append(open, v)
		}
	}
	return strings.Join(open, pick(d.dice, []string{",", ",", ", "}))
}

// outletValue draws an end of the plumbing.
func outletValue(d *draft) string {
	_, list, ok := strings.Cut(d.site().text, "\noutlets = [\"")
	if !ok {
		return "truck-fill"
	}
	list, _, _ = strings.Cut(list, "\"]")
	return pick(d.dice, strings.Split(list, "\", \""))
}

// stockValue is a stock that can correct most tanks.
func stockValue(d *draft) string {
	return d.value(pick(d.dice, []string{"stock-strength", "stock-strength", "thin-stock"}))
}

// noYard settles that there is no yard file, and draws no word.
func noYard(d *draft) []string {
	d.chosen = true
	return nil
}

// sequences draw several words at once.
func sequences() map[string]func(*draft) []string {
	return map[string]func(*draft) []string{"readings": readings, "table": eachTable, "answers": drillAnswers, "log": importLog, "no-yard": noYard}
}
