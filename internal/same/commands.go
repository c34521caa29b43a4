package main

import (
	"slices"
	"strings"
)

// command is one of the program, with its flags and the shapes that lines take.
type command struct {
	name   string
	share  int // of the lines
	flags  string
	shapes []string
	// kinds are those of flags that mean something else here than elsewhere.
	kinds map[string]string
	// yard tells that it says next to nothing without a yard file, wants which table of it.
	yard  bool
	wants string
	// reads tells that it says nothing without a journal.
	reads bool
	// each tells that it can be asked for each row of a table.
	each bool
}

// kinds are those of the flags' values; none for a switch.
var kinds = map[string]string{
	"help": "", "replace": "", "record": "", "gate": "", "curve": "", "ascii": "", "rinse": "", "key": "", "dry-run": "", "as-seen": "", "working": "",
	"units": "units", "format": "answer-format", "yard": "shop-file",
	"hydrometer": "hydrometer", "sg": "sg", "salometer": "salometer", "baume": "baume", "weigh": "weigh", "temp": "temp", "cal": "cal",
	"glass": "glass-name", "glass-division": "division", "offset": "offset", "offset-sure": "division", "thermometer-division": "degrees",
	"volume": "volume", "capacity": "capacity", "tank": "tank", "to": "to", "low": "low", "high": "high",
	"purity": "purity", "moisture": "moisture", "stock": "stock", "with": "with", "journal": "journal", "operator": "operator",
	"strength": "strength", "bed": "bed", "heel-volume": "heel", "heel-strength": "strength", "heel-temp": "temp", "water-temp": "warm", "supply": "flow",
	"nacl": "nacl", "cacl2": "cacl2", "mgcl2": "mgcl2", "kcl": "kcl", "liquid": "liquid", "at": "at", "pavement": "cold",
	"by": "by-share", "ice-at": "icy", "keep-clear": "cold", "additive-into": "filled", "batches": "few",
	"now": "clock", "start": "clock", "down-by": "clock", "reserve": "reserve", "rate": "rate", "passes": "passes", "what-if": "changes",
	"truck": "truck", "empty": "empty", "gross": "gross", "flow": "flow", "boom-flow": "flow", "charge": "salt", "pump": "note", "area-rate": "area-rate", "speed": "speed", "width": "width",
	"lanes": "lanes", "nozzles": "nozzles", "catch": "catch", "over": "over", "from": "tank", "open": "valves", "jobs": "few",
	"route": "route", "salt": "salt", "water": "some-water", "cost": "cost", "note": "note", "kind": "kind", "svg": "picture", "map": "note", "dates": "order", "depth": "depth", "height": "heap", "length": "heap", "pile": "", "table": "season-table",
	"line": "line", "ticket": "ticket", "due": "due", "hours": "hours", "distance": "distance", "wait": "wait",
	"sheet": "sheet", "page": "page", "level": "level", "seed": "seed", "count": "count-of-drill", "print": "few",
}

// kindOf is the kind of value that a flag of the command takes; empty for a switch.
func (c *command) kindOf(flag string) string {
	if kind, ok := c.kinds[flag]; ok {
		return kind
	}
	kind, ok := kinds[flag]
	if !ok {
		panic("no kind of value is known for --" + flag)
	}
	return kind
}

// takes tells whether the command has a flag.
func (c *command) takes(flag string) bool { return slices.Contains(strings.Fields(c.flags), flag) }

// isSwitch tells whether a word is a flag without a value. One that is spelled wrong is
// taken to have one.
func (c *command) isSwitch(word string) bool {
	kind, ok := kinds[strings.TrimPrefix(word, "--")]
	return strings.Contains(word, "=") || ok && kind == ""
}

// commands are all of the program's, in the groups of its manual.
func commands() []*command {
	var all []*command
	for _, group := range [][]command{tankCommands, coldCommands, movingCommands, stormCommands, addCommands, recordCommands, learningCommands} {
		for i := range group {
			all = append(all, &group[i])
		}
	}
	return all
}

// commandNamed finds a command.
func commandNamed(name string) *command {
	for _, c := range commands() {
		if c.name == name {
			return c
		}
	}
	return nil
}

const (
	glasses   = "hydrometer sg salometer baume weigh temp cal " + sureness
	sureness  = "glass glass-division offset offset-sure thermometer-division "
	recording = "record journal operator at as-seen wait "
	saltFlags = "purity moisture "
	adding    = "operator note at as-seen journal wait "
)

// tankCommands are those at the tank.
var tankCommands = []command{
	{name: "reading", share: 7, each: true, flags: glasses, shapes: []string{"{sample}"}},
	{name: "check", share: 10, each: true, flags: glasses + "volume depth capacity tank to low high stock with gate " + saltFlags + recording, shapes: []string{
		"{vessel} {sample} {band?} {rocksalt?} --gate?",
		"{vessel} {sample} {band?} {rocksalt?}",
		"{vessel} {sample} {band?} {remedy?}",
		"{vessel} {glass} --temp --cal?",
		"{vessel} --hydrometer={near} --temp=60F --to?",
		"--tank={mixing} --volume={brim} {sample} {band?}",
		"{vessel} --hydrometer={weak} --temp --stock={stock-strength}",
		"{vessel} --hydrometer={strong} --temp --with=stock --stock={thin-stock}",
		"{named} {sample} {record} {band?}",
		"--tank={mixing} --depth {sample}",
		"{named} {sample} {record}",
	}},
	{name: "correct", share: 10, each: true, flags: glasses + "volume depth capacity tank strength to stock with " + saltFlags + recording, shapes: []string{
		"{vessel} --strength --to? --temp? {rocksalt?}",
		"{vessel} --strength={weak} --stock={stock-strength} --temp?",
		"{vessel} --strength={weak} --with=salt {rocksalt?} --to?",
		"{vessel} --strength={strong} --with=water --to?",
		"{vessel} --strength={strong} --with=stock --stock={thin-stock} --cal?",
		"{vessel} --strength={near} --to=23.3% {rocksalt?}",
		"--tank={mixing} --volume={brim} --strength --to? {record?}",
		"--tank={mixing} --depth --strength --to?",
		"--tank={brine-tank} --volume={brim} --strength={strong} {record}",
		"{vessel} --strength={near} --temp?",
		"{vessel} {sample} --to? {remedy?}",
		"{named} --strength {record} --to?",
		"{named} {sample} {record}",
	}},
	{name: "glass", share: 3, flags: glasses + "ice water salt water-weight scale-division write", kinds: map[string]string{
		"ice": "ice-bath", "water": "division", "salt": "charge", "water-weight": "grams-of-water", "scale-division": "grams", "write": "",
	}, shapes: []string{
		"--water --temp=50F --glass-division?", "--salt=303g --water-weight=1000g {sample}", "--salt=303g --water-weight=1000g --hydrometer --temp --scale-division?",
		"--ice --thermometer-division?", "--water=0.1% --temp=50F", "--salt=303g --water-weight {sample}", "--water --glass --temp=45F --write", "--ice --write",
	}},
	{name: "level", share: 3, flags: "bed depth height length pile table tank width", kinds: map[string]string{"width": "heap", "table": ""}, shapes: []string{
		"--tank={mixing} --depth --bed?", "--tank={storage} --depth", "--tank={tank} --table", "--pile --height --length?", "--pile --width --height?", "--pile --width --length",
	}},
	{name: "batch", share: 8, each: true, flags: "salt bed cal capacity depth heel-strength heel-temp heel-volume supply tank to volume water-temp " + saltFlags + recording, shapes: []string{
		"--volume --to? {rocksalt?} --supply? --water-temp? --cal?",
		"--volume --capacity? {rocksalt?} --bed? --water-temp?",
		"--volume --heel-volume --heel-strength? --heel-temp? --to? {rocksalt?}",
		"--tank={mixing} --to? {rocksalt?} --water-temp?",
		"--tank={mixing} --volume --heel-volume --heel-strength? --heel-temp? --bed?",
		"--tank={mixing} --heel-volume=15gal {rocksalt?}",
		"--tank={mixing} {record} --to?",
		"--tank={mixing} --depth --heel-strength? {rocksalt?}", "--tank={mixing} --salt {rocksalt?}", "--salt=2buckets --tank={mixing}",
		"--tank={mixing} --volume --heel-volume --heel-strength {record}",
	}},
}

// coldCommands are those about the cold.
var coldCommands = []command{
	{name: "freeze", share: 7, each: true, flags: glasses + "ascii at cacl2 curve kcl liquid mgcl2 nacl pavement tank volume",
		kinds: map[string]string{"at": "cold"}, shapes: []string{
			"{salts} --at? --pavement?", "{sample} --at?", "{salts} --at --volume --temp?", "{salts} --curve --ascii?", "{salts} --pavement --temp?",
			"--liquid", "--liquid --at --volume?", "--liquid={yard-liquid} --at? --pavement?", "--liquid --curve?", "--tank --at? --volume?", "--tank --curve?",
		}},
	{name: "blend", share: 8, each: true, flags: "additive-into by cal ice-at keep-clear temp volume " + recording, shapes: []string{
		"{part} {part} --by? --volume? --temp?", "{part} {part} {part} --by? --volume? --cal?",
		"{share}:brine@{strength} {share}:{additive} --ice-at --by?", "80:brine@23.3% 20:{additive} --ice-at --volume?",
		"{share}:brine@{strength} {share}:{additive} --keep-clear --volume?", "80:brine@23% 20:{additive} --ice-at --keep-clear --temp?",
		"12:{additive} --additive-into --temp?", "{few}:{bought} --additive-into --ice-at?", "10:{additive} --additive-into {record}",
		"{few}:cacl2@{cacl2} {few}:mgcl2@30% --additive-into={brine-tank} {record?}",
	}},
}

// movingCommands are those about moving and loading.
var movingCommands = []command{
	{name: "store", share: 8, each: true, flags: "batches cal capacity depth temp to with " + recording,
		kinds: map[string]string{"with": "stock-strength", "capacity": "capacity"}, shapes: []string{
			"{lot} {lot} --temp?", "{lot} {some-lot} {some-lot} --cal? --temp?", "{lot} {some-lot} --batches --capacity?", "{lot} {lot} {lot} --batches?",
			"{volume}@{weak} --to --with --capacity?", "{volume}@{strong} --to --with={thin-stock} --capacity? --temp?", "{filled} --to --with",
			"{filled} {some-lot} --to? --batches?", "{filled} {some-lot} --to --with", "{volume}@{near} --to=23.3% --with",
			"{filled} {some-lot} {record}", "{filled} {filled} {record} --temp?", "{filled} {some-lot} --depth", "{filled} --to --with {record}", "{filled} {some-lot} --to --with --capacity=3500gal {record?}", "{filled} {some-lot} --batches {record}",
		}},
	{name: "ready", share: 7, each: true, flags: sureness + "bed by cal charge flow high low tank temp to volume water", kinds: map[string]string{"by": "instrument", "bed": "salt"}, shapes: []string{
		"{readings} --charge=2900lb --water=1070gal", "30gal/min=21% --flow --bed=2000lb --temp --volume?", "{readings} --tank=mixer", "--tank=mixer",
		"{readings}", "{readings}", "{readings} --to?", "{readings} {band?}", "{readings} --cal", "{readings} --glass-division --thermometer-division --offset? --offset-sure?", "{readings} --glass",
	}},
	{name: "truck", share: 7, each: true, flags: "area-rate boom-flow catch empty flow gross lanes liquid nozzles over rate speed tank temp truck volume width margin",
		kinds: map[string]string{"tank": "truck-tank", "volume": "haul"}, shapes: []string{
			"--tank --empty --gross --liquid? --temp? --volume?", "--tank --volume? --flow? --liquid?",
			"--truck --volume? --liquid? --temp?", "--truck --rate --speed --lanes? --nozzles? --boom-flow?", "--truck --area-rate --speed --width?",
			"--rate --speed --lanes? --nozzles?", "--area-rate --speed --width", "--rate --speed --catch --over --lanes?",
			"--catch --over --nozzles?", "--catch --over --speed", "--area-rate --speed --width --catch --over", "--truck --area-rate --speed --catch --over",
			"--truck --rate --speed --catch --over --flow? --empty?", "--truck --tank --gross",
		}},
	{name: "lineup", share: 6, each: true, yard: true, wants: "valve", flags: "from open pump rinse to", kinds: map[string]string{"from": "place", "to": "place"}, shapes: []string{
		"--from --to", "--from={tank} --to={outlet}", "--from={tank} --to={tank}", "--from=supply --to={tank}", "--open", "--open", "--open", "--rinse",
	}},
}

// stormCommands are those before the storm.
var stormCommands = []command{
	{name: "storm", share: 9, yard: true, flags: "down-by first liquid low now out page passes pile rate reserve skip start supply temp what-if", kinds: map[string]string{"low": "cold", "skip": "route", "first": "route", "out": "truck", "pile": "salt"}, shapes: []string{
		"--low --start? --now? --passes?", "--low --start --now --rate? --reserve?", "{storm-file} --start? --passes?", "{storm-file} --low? --now? --temp?",
		"--low --what-if", "--low --start --what-if --what-if", "{storm-file} --what-if --what-if? --what-if?", "--low --passes={few} --reserve --temp?",
		"--low --start=22:00 --now=21:30 --passes=9 --rate", "--low --now=12:00 --start=12:00 --down-by --passes?", "--low --page --passes?", "--low --liquid --passes?", "--low --skip --passes?", "--low --pile --supply?", "--low --out --passes?", "--low --first --passes={few}",
	}},
}
