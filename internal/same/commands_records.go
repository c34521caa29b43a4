package main

// addCommands record one event each.
var addCommands = []command{
	{name: "journal add batch", share: 2, flags: "tank volume strength cacl2 mgcl2 kcl salt water hours " + adding, kinds: addKinds, shapes: []string{
		"--tank={mixing} --volume {made-of} {who?} --journal?", "--tank={mixing} --salt --water {who?}", "--tank={mixing} --volume --strength --salt --water {who} --journal?",
	}},
	{name: "journal add reading", share: 2, flags: "tank " + glasses + adding, shapes: []string{
		"--tank={tank} {sample} {who?} --journal?", "--tank={mixing} {sample} {who}",
	}},
	{name: "journal add correction", share: 2, flags: "tank water salt volume strength liquid from " + adding, shapes: []string{
		"--tank={tank} --water {who?} --journal?", "--tank={tank} --salt {who?}", "--tank={tank} --volume={some-volume} --strength {who} --journal?",
		"--tank={mixing} --from={storage} --volume={some-volume} {who?}", "--tank={tank} --water --salt {who}", "--tank={tank} --liquid={bought} --volume={some-volume} {who?}",
	}},
	{name: "journal add transfer", share: 2, flags: "from to volume line " + adding, kinds: map[string]string{"to": "tank"}, shapes: []string{
		"--from={mixing} --to={storage} --volume={some-volume} {who?} --journal?", "--from={tank} --to={tank} --volume={some-volume} {who?}", "--from={tank} --to={tank} --volume={some-volume} --line {who?}",
	}},
	{name: "journal add load", share: 2, flags: "from truck route volume liquid salt line " + adding, kinds: map[string]string{"liquid": "load-liquid", "volume": "some-volume", "line": "line"}, shapes: []string{
		"--from={tank} --volume {who?} --journal?", "--from={tank} --volume --route --truck? {who?}", "--from={tank} --volume --liquid --route? --truck {who} --journal?",
		"--salt --route? --truck? {who?}", "--salt --from={tank} --volume --line {who?}",
	}},
	{name: "journal add unload", share: 1, flags: "truck to volume " + adding, kinds: map[string]string{"volume": "some-volume", "to": "tank"}, shapes: []string{"--truck --to={tank} --volume {who?} --journal?"}},
	{name: "journal add delivery", share: 2, flags: "salt tank liquid volume strength cacl2 mgcl2 kcl purity moisture ticket cost " + adding, kinds: addKinds, shapes: []string{
		"--salt={delivered} --cost? {who?} --journal?", "--tank={storage} --liquid --volume --cost? {who?}", "--tank={storage} --volume {made-of} {who} --journal?",
		"--salt={delivered} --purity --moisture --ticket {who?}", "--liquid --volume {who?}",
	}},
	{name: "journal add order", share: 1, flags: "salt liquid volume due " + adding, kinds: addKinds, shapes: []string{"--salt={delivered} --due {who?} --journal?", "--liquid --volume --due {who?}"}},
	{name: "journal add spill", share: 1, flags: gone, kinds: goneKinds, shapes: goneShapes},
	{name: "journal add sale", share: 1, flags: gone, kinds: goneKinds, shapes: goneShapes},
	{name: "journal add loan", share: 1, flags: gone, kinds: goneKinds, shapes: goneShapes},
	{name: "journal add gift", share: 1, flags: gone, kinds: goneKinds, shapes: goneShapes},
	{name: "journal add rinse", share: 1, flags: "line water tank " + adding, shapes: []string{"--line {who?} --journal?", "--line --water --tank={tank} {who?}"}},
	{name: "journal add work", share: 1, flags: "hours distance truck route cost " + adding, shapes: []string{"--hours --distance? --truck? {who?} --journal?", "--distance --route? --cost? {who?}"}},
	{name: "journal add clean", share: 1, flags: "tank cost " + adding, shapes: []string{"--tank={tank} --cost? {who?} --journal?"}},
	{name: "journal add count", share: 2, flags: "tank truck volume depth strength liquid cacl2 mgcl2 kcl salt " + adding, kinds: addKinds, shapes: []string{
		"--tank={tank} --depth {who?}",
		"--tank={tank} --volume --strength? {who?} --journal?", "--tank={storage} --volume --liquid {who?}", "--tank=pile --salt={delivered} {who?}",
		"--salt={delivered} {who}", "--tank={mixing} --salt {who?}", "--truck --volume={some-volume} {who?}", "--liquid --volume={some-volume} {who?}", "--tank={tank} --volume {made-of} {who?} --journal?", "--tank={storage} --volume {made-of} {who}",
	}},
	{name: "journal add note", share: 1, flags: "tank " + adding, shapes: []string{"--note --at? --operator? --tank? --journal?", "--note --at --journal"}},
}

// addKinds are the kinds of value of entries about liquids.
var addKinds = map[string]string{"liquid": "bought", "cacl2": "cacl2"}

// What left the yard otherwise than on the road.
const gone = "salt from liquid volume cost " + adding

var (
	goneKinds  = map[string]string{"liquid": "bought", "volume": "some-volume"}
	goneShapes = []string{"--salt --cost? {who?} --journal?", "--from={tank} --volume --cost? {who?}", "--liquid --volume {who?}"}
)

// recordCommands are the others about records.
var recordCommands = []command{
	{name: "journal list", reads: true, share: 3, flags: "from journal kind tank to", kinds: period, shapes: []string{
		"", "--kind --tank", "--journal", "--journal --kind", "--journal --tank", "--journal --from --to?", "--journal --to --kind?",
	}},
	{name: "journal undo", reads: true, share: 2, flags: "journal operator wait", shapes: []string{"{entry} --operator?", "--journal {entry} --operator? --wait?"}},
	{name: "journal accept", reads: true, share: 1, flags: "journal note operator wait", shapes: []string{"{entry} --operator?", "--journal {entry} --note? --wait?"}},
	{name: "journal tanks", reads: true, share: 4, flags: "journal", shapes: []string{"", "--journal", "--journal"}},
	{name: "journal season", reads: true, share: 5, flags: "ascii from journal replace svg table to", kinds: period, shapes: []string{
		"", "--from? --to?", "--journal --ascii?", "--journal --from?", "--journal --to?", "--journal --from=2025-11-01 --to=2026-03-31", "--journal --from=2026-01-01 --to?", "--journal --svg", "--journal --svg --replace", "--journal --table",
	}},
	{name: "journal import", share: 3, flags: "as-seen dates dry-run journal map wait", shapes: []string{"{log} --dry-run? --as-seen? --wait?", "{log} --dates?", "{log} --journal", "{log} --journal --dry-run?"}},
	{name: "journal verify", reads: true, share: 2, flags: "journal", shapes: []string{"", "--journal", "--journal"}},
	{name: "each", share: 11, flags: "jobs", shapes: []string{"{table} --jobs?"}},
	{name: "yard init", share: 1, shapes: []string{"", "north.toml", "{shop-file}", "--yard=north.toml"}},
	{name: "yard draw", share: 1, yard: true, shapes: []string{""}},
	{name: "yard check", share: 3, yard: true, shapes: []string{"", "", "{yard-file}"}},
	{name: "yard now", reads: true, share: 1, yard: true, flags: "journal", shapes: []string{"", "--journal"}},
	{name: "yard show", share: 3, yard: true, shapes: []string{""}},
}

// period is of the commands that sum up between two days.
var period = map[string]string{"from": "day", "to": "day"}

// learningCommands are those for learning, and the help.
var learningCommands = []command{
	{name: "card", share: 2, flags: "ascii format page sheet", kinds: map[string]string{"format": "card-format"}, shapes: []string{
		"--sheet", "--sheet --format --ascii?", "--format --page?", "--sheet --page", "--format=html --page", "--sheet=freezing --format=svg",
	}},
	{name: "drill", share: 4, flags: "count key level print seed", shapes: []string{
		"{topic} --seed --level? --print --key?", "--seed --level --print --key?", "{answers}", "{answers}", "{answers}", "{topic} --seed --count --level?",
	}},
	{name: helpCommand},
}

// helpCommand is what the tally calls the lines that ask for help and the like.
const helpCommand = "help"
