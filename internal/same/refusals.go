package main

// refusals are shapes of lines that each command refuses, beside those that a mistake
// spoils: what is missing, what contradicts itself, and what cannot be.
var refusals = map[string][]string{
	"reading": {
		"{glass}", "--temp", "--temp --cal", "--hydrometer --sg --temp", "--salometer --baume --weigh --temp", "--weigh --temp --cal", "--hydrometer={edge} --temp --cal?",
		"--hydrometer=30% --temp", "--sg=0.9 --temp", "--sg=1.4 --temp", "--salometer=110 --temp", "--baume=40 --temp", "--weigh=8lb/gal --temp",
		"{glass} --temp=200F", "{glass} --temp=-60F", "{glass} --temp --cal=300F", "--hydrometer=0% --temp",
	},
	"check": {
		"{sample}", "{vessel} {glass}", "{vessel} --temp", "--volume=0gal {sample}", "--volume=600gal --capacity=500gal {sample}", "{vessel} {sample} --low=24.5%",
		"{vessel} {sample} --high=22%", "{vessel} {sample} --to=27%", "{vessel} {sample} --to=0%", "{vessel} --hydrometer={weak} --temp --with=water", "{vessel} --hydrometer={strong} --temp --with=salt",
		"{vessel} {sample} --with=water --stock", "{vessel} {sample} --with=stock", "--volume {sample} --record", "{vessel} {sample} --operator", "{vessel} {sample} --journal",
		"--tank=nosuch {sample}", "{no-yard} --tank=mixer {sample}", "{vessel} --hydrometer={edge} --temp", "--tank={storage} {sample} --record", "{vessel} {sample} --purity=20%", "{vessel} {sample} --moisture=60%",
		"{vessel} --hydrometer={weak} --temp --stock={weak}", "--capacity {sample}",
	},
	"correct": {
		"{vessel}", "--strength", "{vessel} --strength {sample}", "{vessel} --strength=30%", "{vessel} --strength={weak} --stock={weak}", "{vessel} --strength={strong} --stock=24.3%",
		"{vessel} --strength --with=stock", "{vessel} --strength={strong} --with=water --stock", "{vessel} --strength={weak} --purity=20%", "{vessel} --strength={weak} --moisture=60%",
		"--volume --strength --record", "{vessel} --strength={weak} --with=water", "{vessel} --strength={strong} --with=salt", "--volume=0gal --strength", "{vessel} --strength --to=0%",
		"{vessel} --strength --operator", "{vessel} {glass}", "--capacity=0gal --volume --strength", "{vessel} --strength --temp=-20F",
	},
	"batch": {
		"", "--to", "--volume --to=27%", "--volume --heel-strength", "--volume --heel-temp", "--volume=500gal --heel-volume=500gal", "--volume=500gal --heel-volume=480gal --heel-strength=26% --to=20%",
		"--volume --water-temp=20F", "--volume --supply=0gal/min", "--tank={mixing} --volume=9000gal", "--tank={storage} --volume", "--volume=0gal", "--volume --record", "--volume --journal",
		"--volume --capacity=10gal", "--volume=500gal --heel-volume=100gal --heel-temp=-30F", "--volume --to=26.3% --water-temp=33F", "--volume=100gal --bed=100000lb --moisture=20%", "--volume --cal=200F",
		"--volume=500gal --heel-volume=490gal --moisture=20% --purity=50% --bed=4000lb",
	},
	"freeze": {
		"", "--nacl --liquid", "--nacl --volume", "--nacl=60%", "--nacl=26% --cacl2=30%", "--liquid=brin@23%", "--liquid=brine", "--liquid=water@3%", "--nacl --at=-90F", "--nacl --pavement=70F", "--cacl2=49% --at=-40F",
		"--liquid={bought}@20%", "--nacl --at=200F", "--liquid=sedge-formate --curve", "--kcl=30% --at=-5F", "--mgcl2=34% --curve",
	},
	"blend": {
		"", "{part}", "80:brine", "80", "x:brine@3%", "0:brine@20% 0:water", "{part} {part} --volume=0gal", "80:brine@23% 20:{additive} --ice-at=60F", "80:brine@23% --ice-at", "{part} {part} --ice-at=-100F",
		"80:cacl2@32% 20:brine@23% --keep-clear", "80:brine@23% 20:cacl2@40% --keep-clear=0F", "80:brine@23% 20:cacl2@32% --ice-at=0F --keep-clear=-40F", "{part} {part} --record", "20:{additive} --additive-into={filled} --keep-clear",
		"20:{additive} --additive-into={filled} --volume", "--additive-into={filled}", "60:{additive} 50:{additive} --additive-into={filled}", "20:cacl2@32% --additive-into=nosuch", "20:cacl2@32% --additive-into={mixing}",
		"90:brine@26% 10:kcl@26%", "80:brin@23% 20:water", "50:sedge-formate 50:cal32", "20:cacl2@32% --additive-into={filled} --ice-at=-60F",
	},
	"store": {
		"", "{lot} {lot} --to", "{lot} {lot} --with", "{lot} --to=0% --with", "{lot} {lot} --capacity=0gal", "{lot} --batches", "{lot} {lot} --batches=0", "6000gal 800gal@25%", "0gal@20% 100gal@20%", "{storage}", "{filled} --record",
		"{lot} {lot} --record", "900gal@23% 900gal@24% --to=24% --with=25% --capacity=1000gal", "{volume}@{weak} --to --with={weak}", "500gal:cacl2@32% 10gal@20% --to=23% --with=25%", "{lot} {lot} --temp=-50F", "100gal:brine 5gal@20%", "nosuch {lot}",
	},
	"ready": {
		"{readings} --charge=2900lb", "{readings} --water=900gal", "--flow --bed=2000lb", "{readings} --bed=2000lb", "--tank=nosuch",
		"", "10:05=12%", "10:05", "25:05=12% 10:10=13% --temp", "10:5=12% 10:10=13% --temp", "x=12% 10=13% --temp", "0=12% 10:10=13% --temp", "0=x 10=13% --temp", "0=12%@warm 10=13% --temp", "0=12% 10=33% --temp", "0=12% 10=13% --temp=145F",
		"10=12% 5=13% --temp", "0=12% 10=13%", "0=12% 10=13% --temp --by=nose", "{readings} --low=24.5%", "{readings} --high=22%", "0=1.1 10=1.15 --temp --by=weigh", "0=23.2% 30=23.3% 60=23.3% 90=23.31% --temp", "0=22% 20=22.7% 40=22.9% 60=23% --temp --to=26%",
	},
	"storm": {
		"", "{no-yard} --low", "--start", "--low=-70F", "--low=70F", "--low --start=8pm", "--low --now=24:00", "--low --passes=0", "--low --temp=200F", "--low --rate=40gal/acre", "--low --what-if=snow=deep", "--low --what-if=rate", "--low --what-if=rate=much",
		"--low --what-if=passes=2,passes=3", "nosuch.toml --low", "a.toml b.toml", "--low --now=12:00 --start=12:00", "--low --reserve=99999gal", "--low --rate=0gal/mi", "--low --what-if=low=-90F", "{yard-file}", "--low --temp=-10F",
	},
	"truck": {
		"", "{no-yard} --truck=big-sprayer", "--truck=nosuch", "--tank=0gal", "--tank --gross", "--tank --gross=9000lb --empty=9500lb", "--volume", "--rate", "--area-rate --speed", "--rate --area-rate --speed", "--catch", "--tank --lanes=0", "--tank --liquid=nosuch",
		"--tank --empty", "--rate --speed=0mph", "--tank --temp=300F", "--area-rate --width", "--tank --liquid=kcl@30%", "--over", "--truck --tank=0gal", "--catch=0gal --over",
	},
	"lineup": {
		"", "{no-yard} --rinse", "{no-yard} --open=S1", "--rinse --open", "--from", "--to={tank}", "--from=nowhere --to={tank}", "--from={tank} --to=nowhere", "--from=supply --to=floor-hatch", "--open=S1,S9", "--from={outlet} --to={tank}", "--from=pump-in --to={tank}", "--from={tank} --to=supply",
	},
	"each": {
		"", "readng", "storm", "reading nosuch.csv", "reading a.csv b.csv", "reading .", "check --jobs=0",
	},
	"journal add batch": {
		"", "--tank={mixing}", "--tank={mixing} --volume=0gal --strength", "--tank={mixing} --volume --strength=40%", "--tank={storage} --volume --strength", "--tank={mixing} --volume=9000gal --strength", "--tank=nosuch --volume --strength", "--tank={mixing} --salt",
		"--tank={mixing} --volume --strength --at=2999-01-01", "--tank={mixing} --volume --strength={strong} --cacl2=30%", "--tank={mixing} --salt=0lb --water=0gal",
	},
	"journal add reading": {"", "--tank={tank}", "--tank={tank} {glass}", "--tank={tank} --hydrometer=31% --temp", "--tank={tank} --sg --baume --temp", "{sample}", "--tank={tank} --hydrometer={edge} --temp"},
	"journal add correction": {
		"", "--tank={tank}", "--tank={tank} --volume={some-volume}", "--tank={mixing} --from={mixing} --volume={some-volume}", "--tank={mixing} --from={storage} --volume={some-volume} --strength", "--tank={mixing} --from={storage}", "--tank={tank} --strength",
	},
	"journal add transfer": {"--from={tank} --to={tank}", "--from={tank} --volume", "--from={mixing} --to={storage} --volume=0gal", "--from=nosuch --to={tank} --volume"},
	"journal add load": {
		"--from={tank}", "--volume", "--from={tank} --volume={some-volume} --truck=sled", "--from={tank} --volume={some-volume} --route=nowhere", "--from={tank} --volume={some-volume} --liquid=beer", "--from={tank} --volume=99999gal --truck",
	},
	"journal add delivery": {
		"", "--volume --liquid", "--volume --tank={storage}", "--salt --cost=free", "--salt --strength", "--salt --volume --tank={storage}", "--tank={storage}", "--cost", "--salt --tank=pile --liquid",
	},
	"journal add clean": {"", "--cost", "--tank=nosuch"},
	"journal add count": {"", "--volume", "--tank={tank} --salt", "--tank=pile --volume", "--tank={tank}", "--tank={tank} --volume=99999gal", "--tank={tank} --volume --strength --salt"},
	"journal add note":  {"", "--at", "--note --at=tomorrow", "--note --at=2999-01-01", "--note extra", "--note --tank=nosuch"},
	"journal list":      {"--journal=nosuch.csv", "--journal=.", "--kind=beer --journal", "--journal --from=soon", "--journal --from=2026-02-01 --to=2026-01-01", "--journal --tank=nosuch", "--journal --tank=nort"},
	"journal undo":      {"", "x", "0", "1 2", "999 --journal", "3 --journal=nosuch.csv", "--journal"},
	"journal accept":    {"", "x", "0", "1 2", "999 --journal", "3 --journal=nosuch.csv", "3 --journal"},
	"glass":             {"", "--water=0.2%", "--water=0.2% --temp=75F", "--ice=50F", "--ice=32F --temp=40F", "--salt=303g --temp=60F", "--salt=303g --water-weight=1000g --temp=60F", "--water=0.2% --temp=50F --write"},
	"level":             {"", "--tank=mixer", "--depth=40in", "--tank=nosuch --depth=40in", "--tank=mixer --depth=9000in", "--pile", "--pile --tank=mixer", "--pile --height=40ft --width=20ft", "--height=4ft"},
	"journal tanks":     {"--journal=nosuch.csv", "--journal=.", "{yard-file} --journal", ""},
	"journal season":    {"--journal=nosuch.csv", "--journal --from=soon", "--journal --from=2026-02-01 --to=2026-01-01", "--journal --from=2027-01-01", "--journal --svg=no-such-folder/a.svg", "--journal --to=2025-11-04 --svg"},
	"journal verify":    {"--journal=nosuch.csv", "--journal=.", ""},
	"journal import": {
		"", "nosuch.csv --map=time=Date,kind==batch", "nosuch.csv", "nosuch.csv --map=beer=Date", "{log} old.csv", "nosuch.csv --map=time=Date", "nosuch.csv --map=kind==batch", "nosuch.csv --map=time=Date,time=Day,kind==batch", "nosuch.csv --map=time=Date,kind==batch,volume=Made:lb",
	},
	"card":       {"--sheet=wall", "--sheet=freezng", "--page=a3", "--format=pdf", "--format=svg --sheet=correction", "--sheet=blends", "wall", "--format=png", "--format=html --sheet=blends"},
	"drill":      {"beer --seed", "--level=4 --seed", "--seed=-1", "--key --seed", "--count=0 --seed", "strong weak --seed", "valves --seed --print --level=3 --key", "blend --seed --print=9 --level=3 --key", "heel --seed --print=9 --level=2"},
	"yard init":  {"a.toml b.toml", "no-such-folder/yard.toml", "."},
	"yard check": {"nosuch.toml", "{no-yard}", "a.toml b.toml", "{yard-file}", "."},
	"yard now":   {"nosuch", "{no-yard}", "--journal=."},
	"yard show":  {"nosuch", "{no-yard}", "--yard=nosuch.toml", "--yard=."},
}
