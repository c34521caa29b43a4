package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// badValues are no value of any flag that takes a quantity.
var badValues = map[string]string{
	"empty":           "",
	"blank":           " ",
	"words":           "cold",
	"not a number":    "NaN",
	"infinity":        "+Inf",
	"overflow":        "1e999gal",
	"huge":            "1e308",
	"hex":             "0x10",
	"underscore":      "1_000",
	"comma":           "1,200gal",
	"decimal comma":   "23,3%",
	"two points":      "1.2.3",
	"two signs":       "--5",
	"unknown unit":    "5parsecs",
	"newline":         "5\n6",
	"escape sequence": "5\x1b[31mF",
	"NUL":             "5\x00",
	"not UTF-8":       "5\xff%",
	"bidi":            "5\u202e%",
	"long":            strings.Repeat("9", 5000) + "x",
}

// quantityFlags are the flags that take a quantity, by command.
var quantityFlags = map[string][]string{
	"reading":              {"hydrometer", "sg", "salometer", "baume", "weigh", "temp", "cal"},
	"check":                {"hydrometer", "temp", "volume", "capacity", "to", "low", "high", "stock", "purity", "moisture"},
	"correct":              {"strength", "temp", "volume", "capacity", "to", "stock", "purity", "moisture", "cal"},
	"batch":                {"volume", "capacity", "to", "heel-volume", "heel-strength", "heel-temp", "water-temp", "purity", "moisture", "bed", "supply", "cal"},
	"freeze":               {"nacl", "kcl", "cacl2", "mgcl2", "at", "pavement", "volume", "temp"},
	"blend":                {"volume", "temp", "cal", "ice-at", "keep-clear"},
	"store":                {"to", "with", "capacity", "temp", "cal", "batches"},
	"ready":                {"temp", "cal", "to", "low", "high"},
	"storm":                {"now", "start", "low", "temp", "reserve", "rate"},
	"journal add batch":    {"volume", "strength", "salt", "water"},
	"journal add reading":  {"hydrometer", "sg", "salometer", "baume", "weigh", "temp", "cal"},
	"journal add delivery": {"salt", "volume", "strength", "kcl", "cacl2", "mgcl2", "cost"},
	"truck":                {"tank", "empty", "gross", "temp", "flow", "volume", "rate", "area-rate", "speed", "width", "lanes", "nozzles", "catch", "over"},
}

// requireRefused asserts the form of every refusal: status 2, nothing on
// standard output, one line on standard error that holds all of the pieces.
func requireRefused(t *testing.T, args []string, pieces ...string) {
	t.Helper()
	status, out, errs := invoke(t, args...)
	require.Equal(t, statusInput, status, "%q: %s", args, errs)
	require.Empty(t, out, "%q", args)
	require.True(t, strings.HasSuffix(errs, "\n"), "%q", args)
	line := strings.TrimSuffix(errs, "\n")
	require.NotContains(t, line, "\n", "%q", args)
	require.Less(t, len(line), 400, "%q", args)
	for _, r := range line {
		require.True(t, r >= ' ' && r != 0x7f && r != 0x202e, "%q: control character in %q", args, line)
	}
	for _, p := range pieces {
		require.Contains(t, line, p, "%q", args)
	}
}

func TestBadValues(t *testing.T) {
	for command, flags := range quantityFlags {
		for _, name := range flags {
			for kind, value := range badValues {
				t.Run(command+"/"+name+"/"+kind, func(t *testing.T) {
					requireRefused(t, append(strings.Fields(command), "--"+name, value), "brineyard "+command, "--"+name)
				})
			}
		}
	}
}

// TestRefusals lists what else is wrong, with the words that tell the user what
// was given, where, and what is allowed.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		line   string
		pieces []string
	}{
		{"reading --hydrometer 23.3%", []string{"--temp is missing", `"23.3%"`, "--temp 41F"}},
		{"reading --temp 41F", []string{"no reading", "--hydrometer", "--weigh"}},
		{"reading --hydrometer 23% --sg 1.17 --temp 41F", []string{"--hydrometer and --sg", "two readings"}},
		{"reading --weigh 9.8 --cal 60F --temp 41F", []string{"--cal", "--weigh"}},
		{"reading --hydrometer 30% --temp 41F", []string{`--hydrometer "30%"`, "41 F", "saturated"}},
		{"reading --hydrometer -3% --temp 41F", []string{"--hydrometer", "-3%", "0% to 100%"}},
		{"reading --sg 0.9 --temp 41F", []string{`--sg "0.9"`, "fresh water"}},
		{"reading --sg 1.4 --temp 41F", []string{`--sg "1.4"`, "saturated"}},
		{"reading --salometer 110 --temp 41F", []string{`--salometer "110"`, "saturated"}},
		{"reading --baume 40 --temp 41F", []string{`--baume "40"`, "saturated"}},
		{"reading --weigh 8lb/gal --temp 41F", []string{`--weigh "8lb/gal"`, "8.35 lb/gal (fresh water)"}},
		{"reading --hydrometer 20% --temp 200F", []string{`--temp "200F"`, "-13 F to 122 F"}},
		{"reading --hydrometer 20% --temp 200C --units metric", []string{`--temp "200C"`, "-100C to 150C"}},
		{"reading --hydrometer 20% --temp 90C --units metric", []string{`--temp "90C"`, "-25 C to 50 C"}},
		{"reading --hydrometer 20% --temp -60F", []string{`--temp "-60F"`, "-13 F to 122 F"}},
		{"reading --hydrometer 20% --temp 41F --cal 300F", []string{`--cal "300F"`, "-13 F to 122 F"}},
		{"reading --hydrometer", []string{"--hydrometer", "needs a value"}},
		{"reading --hydromter 3%", []string{"no such flag", `"hydromter"`}},
		{"reading 23.3%", []string{`unexpected word "23.3%"`, "--temp"}},
		{"reading --units imperial --hydrometer 20% --temp 41F", []string{"--units", `"imperial"`, "us, metric"}},
		{"reading --format xml --hydrometer 20% --temp 41F", []string{"--format", `"xml"`, "text, json, csv, markdown"}},
		{"check --hydrometer 23.3% --temp 41F", []string{"no volume", "--volume", "--tank"}},
		{"check --volume 500gal --hydrometer 23.3%", []string{"--temp is missing"}},
		{"check --volume 0gal --hydrometer 23.3% --temp 41F", []string{`--volume "0gal"`, "above 0"}},
		{"check --volume -5gal --hydrometer 23.3% --temp 41F", []string{`--volume "-5gal"`, "allowed"}},
		{"check --volume 600gal --capacity 500gal --hydrometer 23.3% --temp 41F", []string{`--volume "600gal"`, "500 gal"}},
		{"check --tank mixer --hydrometer 23.3% --temp 41F", []string{`--tank "mixer"`, "no yard file", "--yard"}},
		{"check --yard YARD --tank nosuch --hydrometer 23.3% --temp 41F", []string{`--tank "nosuch"`, "mixer, tote, north, south"}},
		{"check --volume 500gal --hydrometer 23.3% --temp 41F --low 24%", []string{"--low", `"24%"`, "23.3%"}},
		{"check --volume 500gal --hydrometer 23.3% --temp 41F --high 23%", []string{"--high", `"23%"`, "23.3%"}},
		{"check --volume 500gal --hydrometer 23.3% --temp 41F --to 27%", []string{`--to "27%"`, "saturated"}},
		{"check --volume 500gal --hydrometer 23.3% --temp 41F --to 0%", []string{`--to "0%"`, "above 0%"}},
		{"check --volume 500gal --hydrometer 20% --temp 41F --with water", []string{"--with water", "weaker", "salt"}},
		{"check --volume 500gal --hydrometer 25% --temp 41F --with salt", []string{"--with salt", "stronger", "water"}},
		{"correct --volume 500gal", []string{"no strength", "--strength"}},
		{"correct --volume 500gal --strength 26% --hydrometer 25% --temp 41F", []string{"--strength and --hydrometer"}},
		{"correct --volume 500gal --strength 30%", []string{`--strength "30%"`, "saturated"}},
		{"correct --volume 500gal --strength 21% --stock 22%", []string{`--stock "22%"`, "above 23.3%"}},
		{"correct --volume 500gal --strength 25% --stock 24%", []string{`--stock "24%"`, "below 23.3%"}},
		{"correct --volume 500gal --strength 25% --with stock", []string{"--with stock", "--stock 18%"}},
		{"correct --volume 500gal --strength 25% --with water --stock 10%", []string{"--stock", "--with water"}},
		{"correct --volume 500gal --strength 25% --with beer", []string{"--with", `"beer"`, "water, salt, stock"}},
		{"correct --volume 500gal --strength 21% --purity 20%", []string{`--purity "20%"`, "50% to 100%"}},
		{"correct --volume 500gal --strength 21% --moisture 60%", []string{`--moisture "60%"`, "0% to 20%"}},
		{"batch", []string{"no volume"}},
		{"batch --volume 500gal --to 27%", []string{`--to "27%"`, "saturated"}},
		{"batch --volume 500gal --heel-strength 20%", []string{"--heel-strength", "--heel-volume"}},
		{"batch --volume 500gal --heel-temp 40F", []string{"--heel-temp", "--heel-volume"}},
		{"batch --volume 500gal --heel-volume 500gal", []string{`--heel-volume "500gal"`, "below 500 gal"}},
		{"batch --volume 500gal --heel-volume 480gal --heel-strength 26% --to 20%", []string{`--heel-strength "26%"`, "more salt"}},
		{"batch --volume 500gal --water-temp 20F", []string{`--water-temp "20F"`, "32 F to 122 F"}},
		{"batch --volume 500gal --supply 0gal/min", []string{`--supply "0gal/min"`, "above 0"}},
		{"batch --yard YARD --tank mixer --volume 1400gal", []string{`--volume "1400gal"`, "1,350 gal"}},
		{"storm --low 19F", []string{"no yard file", "--yard"}},
		{"storm --yard YARD", []string{"--low is missing", "--low 19F", "storm file"}},
		{"storm --yard YARD --low -70F", []string{`--low "-70F"`, "-49 F to 104 F"}},
		{"storm --yard YARD --low 19F --start 8pm", []string{`--start "8pm"`, "20:00"}},
		{"storm --yard YARD --low 19F --now 24:00", []string{`--now "24:00"`, "0:00 to 23:59"}},
		{"storm --yard YARD --low 19F --passes 0", []string{`--passes "0"`, "1"}},
		{"storm --yard YARD --low 19F --temp 200F", []string{`--temp "200F"`, "-13 F to 122 F"}},
		{"storm --yard YARD --low 19F --rate 40gal/acre", []string{`--rate "40gal/acre"`, "gal/mi, L/km"}},
		{"storm --yard YARD --low 19F --what-if snow=deep", []string{`--what-if "snow=deep"`, "now, start, low, reserve, rate or passes"}},
		{"storm --yard YARD --low 19F --what-if rate", []string{`--what-if "rate"`, "rate=30"}},
		{"storm --yard YARD --low 19F --what-if rate=much", []string{`--what-if "rate=much"`, "gal/mi"}},
		{"storm --yard YARD nosuch.toml", []string{"nosuch.toml", "no such file"}},
		{"storm --yard YARD a.toml b.toml", []string{"b.toml"}},
		{"check --volume 500gal --hydrometer 23.3% --temp 41F --record", []string{"--record", "--tank"}},
		{"check --volume 500gal --hydrometer 23.3% --temp 41F --operator Ash", []string{`--operator "Ash"`, "--record"}},
		{"batch --volume 500gal --journal x.csv", []string{`--journal "x.csv"`, "--record"}},
		{"correct --volume 500gal --strength 25% --record", []string{"--record", "--tank"}},
		{"store 6000gal@23.1% 800gal@25% --record", []string{"--record", "first lot"}},
		{"store --yard YARD north --record", []string{"--record", "nothing goes into", "north"}},
		{"blend 80:brine@23.3% 20:cacl2@32% --record", []string{"--record", "--additive-into"}},
		{"storm --yard YARD --low 19F --what-if passes=2,passes=3", []string{`"passes"`, "comes twice", "once"}},
		{"journal ad", []string{`"ad"`, "did you mean add?", "list"}},
		{"yard chek", []string{`"chek"`, "did you mean check?"}},
		{"journal add bach", []string{`"bach"`, "did you mean batch?"}},
		{"each readng", []string{`"readng"`, "did you mean reading?"}},
		{"card --sheet freezng", []string{"did you mean freezing?"}},
		{"card --sheet tempratur", []string{"did you mean temperature? allowed: temperature, correction"}},
		{"chek", []string{`no such command: "chek"; did you mean check?`}},
		{"st", []string{`no such command: "st"; allowed: batch,`, "store, storm"}},
		{"batch --capcty 3", []string{`no such flag: "capcty"; did you mean --capacity?`}},
		{"batch --wa 3", []string{`no such flag: "wa"; did you mean --water-temp?`}},
		{"batch --heel 3", []string{`no such flag: "heel"; --help lists the flags`}},
		{"reading --hydrometer 20% --temp 41F --format jso", []string{"did you mean json?", "text, json"}},
		{"check --yard YARD --tank mixr --hydrometer 20% --temp 41F", []string{`"mixr"`, "did you mean mixer?", "north"}},
		{"truck --yard YARD --truck big-spryer --liquid brine@23.3%", []string{"did you mean big-sprayer?", "lot-pickup"}},
		{"freeze --liquid brin@23.3%", []string{"did you mean brine?"}},
		{"journal add load --yard YARD --from north --truck lot-pickup --volume 99999gal", []string{"lot-pickup", "up to 210 gal"}},
		{"journal add beer", []string{`"beer"`, "batch, reading, correction, transfer, load, delivery, clean, count, note"}},
		{"journal add batch", []string{"--tank is missing", "batch", "--tank mixer"}},
		{"journal add batch --tank mixer", []string{"volume and strength", "salt and water"}},
		{"journal add batch --tank mixer --volume 0gal --strength 23%", []string{"a volume of nothing", "above 0"}},
		{"journal add batch --tank mixer --volume 9gal --strength 40%", []string{"40%", "up to 28%"}},
		{"journal add batch --tank north --volume 9gal --strength 23% --yard YARD", []string{`--tank "north"`, "no mixing tank"}},
		{"journal add batch --tank mixer --volume 9000gal --strength 23% --yard YARD", []string{"mixer", "1,350 gal"}},
		{"journal add correction --tank mixer --from mixer --volume 9gal", []string{"two tanks"}},
		{"journal add correction --tank mixer --from north --volume 9gal --strength 12%", []string{"one of them"}},
		{"journal add delivery --salt 25ton --strength 23%", []string{"salt alone"}},
		{"journal add count --tank north --salt 38ton", []string{"that of the pile"}},
		{"journal add count --tank pile --volume 38gal", []string{"needs its tank"}},
		{"journal add note --note x --at 2999-01-01", []string{"2999-01-01", "to come"}},
		{"journal add batch --tank nosuch --volume 1gal --strength 23% --yard YARD", []string{`--tank "nosuch"`, "mixer, tote, north, south"}},
		{"journal add load --from north --volume 10gal --truck sled --yard YARD", []string{`--truck "sled"`, "big-sprayer, lot-pickup"}},
		{"journal add load --from north --volume 10gal --route nowhere --yard YARD", []string{`--route "nowhere"`, "ridge-road"}},
		{"journal add load --from north", []string{"--volume is missing"}},
		{"journal add load --from north --volume 10gal --liquid beer --yard YARD", []string{`--liquid "beer"`, "cal31"}},
		{"journal add transfer --from north --tank north --volume 10gal", []string{"the same tank"}},
		{"journal add delivery", []string{"salt, or volume"}},
		{"journal add delivery --volume 10gal --liquid cal31", []string{"which tank"}},
		{"journal add delivery --volume 10gal --tank south", []string{"of what", "liquid"}},
		{"journal add delivery --salt 25ton --cost free", []string{`--cost "free"`, "1790"}},
		{"journal add count", []string{"tank and its volume", "salt"}},
		{"journal add count --volume 10gal", []string{"needs its tank"}},
		{"journal add correction --tank mixer", []string{"water, salt, or the volume"}},
		{"journal add correction --tank mixer --volume 10gal", []string{"of what"}},
		{"journal add reading --tank mixer", []string{"no reading", "--hydrometer"}},
		{"journal add reading --tank mixer --hydrometer 23%", []string{"--temp is missing"}},
		{"journal add reading --tank mixer --hydrometer 31% --temp 41F", []string{`--hydrometer "31%"`, "saturated"}},
		{"journal add note", []string{"--note is missing"}},
		{"journal add note --note x --at tomorrow", []string{`--at "tomorrow"`, "2026-01-14 05:40"}},
		{"journal add note --note x extra", []string{`"extra"`}},
		{"journal list --journal nosuch.csv", []string{"nosuch.csv", "journal add begins"}},
		{"journal list --journal YARD", []string{"not a journal"}},
		{"journal list --journal .", []string{"."}},
		{"journal list --kind beer --journal x", []string{`--kind "beer"`, "batch, reading"}},
		{"journal season --from soon --journal x", []string{`--from "soon"`}},
		{"journal season --from 2026-02-01 --to 2026-01-01 --journal x", []string{"nothing lies between"}},
		{"journal undo", []string{"the number of an entry"}},
		{"journal undo x", []string{`"x"`, "like 14"}},
		{"journal undo 3 --journal nosuch.csv", []string{"nosuch.csv"}},
		{"journal verify --journal nosuch.csv", []string{"nosuch.csv"}},
		{"journal import nosuch.csv --map time=Date,kind==batch", []string{"nosuch.csv"}},
		{"journal import nosuch.csv", []string{"--map is missing"}},
		{"journal import nosuch.csv --map beer=Date", []string{"beer", "column"}},
		{"journal import", []string{"the CSV file to import"}},
		{"card --sheet all --page a3", []string{`--page "a3"`, "letter, a4"}},
		{"card --sheet wall", []string{`--sheet "wall"`, "temperature, correction, freezing, blends, all"}},
		{"card --format pdf", []string{`--format "pdf"`, "html, svg, png"}},
		{"card --format svg --sheet correction --yard YARD", []string{"--format svg", "freezing"}},
		{"card --sheet blends", []string{"--sheet blends", "no blends"}},
		{"card wall", []string{`"wall"`}},
		{"drill beer", []string{`"beer"`, "strong, weak, reading, heel, blend, truck, valves"}},
		{"drill --level 4", []string{"--level 4", "1, 2, 3"}},
		{"drill --seed -1", []string{`--seed "-1"`, "4294967295"}},
		{"drill --key", []string{"--key", "--print"}},
		{"drill --print 0", []string{`--print "0"`, "1 to 1000"}},
		{"drill --format json", []string{"--format json", "--print"}},
		{"drill strong weak", []string{`"weak"`, "one topic"}},
		{"freeze", []string{"no liquid", "--nacl 23.3%"}},
		{"freeze --nacl 40%", []string{`--nacl "40%"`, "stays dissolved at 104 F"}},
		{"freeze --nacl 30% --cacl2 40%", []string{`--nacl "30%"`, `--cacl2 "40%"`, "50% in all"}},
		{"freeze --nacl 20% --volume 100gal", []string{`--volume "100gal"`, "--at 0F"}},
		{"freeze --nacl 20% --at -90C", []string{`--at "-90C"`, "-94 F to 104 F"}},
		{"freeze --nacl 20% --pavement 40F", []string{`--pavement "40F"`, "32 F"}},
		{"freeze --nacl 20% --liquid brine@20%", []string{"--liquid", "--nacl", "two liquids"}},
		{"freeze --liquid brine", []string{`"brine"`, "brine@23.3%"}},
		{"freeze --liquid brine@x", []string{`"brine@x"`, "23.3%"}},
		{"freeze --liquid nosuch", []string{`"nosuch"`, "brine, nacl, cacl2, mgcl2, kcl, water"}},
		{"freeze --liquid water@3%", []string{`"water@3%"`, "no strength"}},
		{"freeze --nacl 0% --curve", []string{`--nacl "0%"`, "fresh water"}},
		{"blend", []string{"no parts", "80:brine@23.3%"}},
		{"blend brine@23.3%", []string{`"brine@23.3%"`, "share:liquid"}},
		{"blend x:brine@23.3%", []string{`"x:brine@23.3%"`, "number of parts"}},
		{"blend -5:brine@23.3%", []string{"-5", "below zero"}},
		{"reading --working=yes --hydrometer 20% --temp 41F", []string{"--working", `"yes"`, "alone"}},
		{"check --yard YARD --tank south --hydrometer 23.3% --temp 60F", []string{`--tank "south"`, "cal31", "31% CaCl2"}},
		{"batch --yard YARD --tank north", []string{`--tank "north"`, "mixing tank"}},
		{"check --tank= --hydrometer 23.3% --temp 60F", []string{"--tank", "a name"}},
		{"blend nan:brine@23.3%", []string{`"nan"`, "number of parts"}},
		{"blend 0:brine@23.3%", []string{"the parts", "above zero"}},
		{"blend 80:brine@30% 20:cacl2@32%", []string{"the parts", "brine@30%", "stays dissolved"}},
		{"blend 80:brine@23.3% 20:cacl2@70%", []string{"the parts", "cacl2@70%", "50%"}},
		{"blend 50:brine@26% 50:cacl2@35%", []string{"the parts", "the blend", "stays dissolved"}},
		{"blend 80:brine@23.3% 20:cacl2@32% --volume 0gal", []string{`--volume "0gal"`, "above 0"}},
		{"blend 80:brine@23.3% 20:cacl2@32% --ice-at -90F", []string{`--ice-at "-90F"`, "none of it"}},
		{"blend 80:brine@23.3% 20:cacl2@32% --ice-at 50F", []string{`--ice-at "50F"`, "-6.7 F (none of it)"}},
		{"blend 80:brine@23.3% 20:cacl2@32% --ice-at 90F", []string{`--ice-at "90F"`, "-94 F to 77 F"}},
		{"blend 100:brine@23.3% --ice-at -10F", []string{`--ice-at "-10F"`, "two parts"}},
		{"blend 80:cacl2@32% 20:brine@23.3% --keep-clear 0F", []string{`--keep-clear "0F"`, "plain salt brine"}},
		{"blend 4:brine@23.3% 96:cacl2@41% --keep-clear 0F", []string{`--keep-clear "0F"`, "other parts alone"}},
		{"blend 80:brine@23.3% 20:kcl@20% --ice-at -10F --keep-clear -10F", []string{`--ice-at "-10F"`, "best ice point"}},
		{"blend 80:brine@23.3% 20:cacl2@32% --keep-clear -30F", []string{`--keep-clear "-30F"`, "ice forms before", "-9.8 F"}},
		{"blend 80:brine@23.3% 20:cacl2@32% --ice-at -5F --keep-clear -10F", []string{`--keep-clear "-10F"`, "-5 F"}},
		{"blend 0:brine@23.3% 20:cacl2@32% --ice-at 0F", []string{`--ice-at "0F"`, "no shares"}},
		{"blend 20:cacl2@32% --additive-into north --keep-clear 0F --yard YARD", []string{`--additive-into "north"`, "--keep-clear"}},
		{"blend 20:cal31 --additive-into north --ice-at -69.9F --yard YARD", []string{`--ice-at "-69.9F"`}},
		{"store 1000gal@26% 1000gal:cacl2@32%", []string{"the lots", "the mix", "stays dissolved"}},
		{"store 6000gal@26.6%", []string{"the lots", "brine@26.6%", "60 F"}},
		{"store 6000gal@23% --to 0% --with 5%", []string{`--to "0%"`, "above 0%"}},
		{"correct --volume 500gal --strength 26% --capacity 0gal", []string{`--capacity "0gal"`, "above 0"}},
		{"batch --volume 500gal --to 5% --heel-volume 250gal --heel-strength 9% --heel-temp -20C", []string{`--heel-temp "-20C"`, "part solid"}},
		{"batch --volume 100gal --bed 50000lb --moisture 20%", []string{`--bed "50000lb"`, "moisture"}},
		{"freeze --nacl 20% --pavement 31.99999F", []string{`--pavement "31.99999F"`}},
		{"blend 20:cacl2@32% --additive-into north", []string{`--additive-into "north"`, "no yard file"}},
		{"blend 20:cacl2@32% --additive-into nosuch --yard YARD", []string{`--additive-into "nosuch"`, "north"}},
		{"blend 20:cacl2@32% --additive-into mixer --yard YARD", []string{`--additive-into "mixer"`, "contents and strength"}},
		{"blend 120:cacl2@32% --additive-into north --yard YARD", []string{`--additive-into "north"`, "below 100"}},
		{"blend 20:cacl2@32% --additive-into north --volume 5gal --yard YARD", []string{`--additive-into "north"`, "--volume"}},
		{"blend --additive-into north --yard YARD", []string{`--additive-into "north"`, "no additive"}},
		{"store", []string{"no lots", "6000gal@23.1%"}},
		{"store 6000gal", []string{`"6000gal"`, "no liquid"}},
		{"store north", []string{`"north"`, "volume"}},
		{"store 0gal@23%", []string{"the lots", "above 0"}},
		{"store 6000gal@30%", []string{"the lots", "brine@30%"}},
		{"store 6000gal@23% --to 23.3%", []string{`--to "23.3%"`, "--with"}},
		{"store 6000gal@23% --with 23.3%", []string{`--with "23.3%"`, "--to"}},
		{"store 6000gal@23% --to 23.3% --with 23%", []string{`--with "23%"`, "above 23.3%"}},
		{"store 6000gal@23% 100gal:cacl2@32% --to 23.3% --with 25%", []string{`--to "23.3%"`, "blend"}},
		{"store 6000gal@23% --batches 3", []string{"--batches 3", "nothing to add"}},
		{"store 6000gal@23% 100gal@25% --batches 0", []string{`--batches "0"`, "1 to 1000"}},
		{"store 6000gal@23% 600gal@25% --capacity 6500gal --to 23.3% --with 25%", []string{`--capacity "6500gal"`, "6,600 gal"}},
		{"ready", []string{"the readings", "two or more"}},
		{"ready 10:05=12%", []string{`"10:05=12%"`, "no temperature", "--temp"}},
		{"ready 10:05=12% --temp 45F", []string{"the readings", "two or more"}},
		{"ready 10:05=12% 10:05=13% --temp 45F", []string{"the readings", "reading 2"}},
		{"ready 10:05 10:10=13% --temp 45F", []string{`"10:05"`, "10:05=12%"}},
		{"ready 25:05=12% 10:10=13% --temp 45F", []string{`"25:05"`, "0:00 to 23:59"}},
		{"ready 10:5=12% 10:10=13% --temp 45F", []string{`"10:5"`, "10:05"}},
		{"ready x=12% 10=13% --temp 45F", []string{`"x"`, "minutes"}},
		{"ready 0=12% 10:10=13% --temp 45F", []string{`"10:10=13%"`, "one kind"}},
		{"ready 0=x 10=13% --temp 45F", []string{`"x"`, "23.3%"}},
		{"ready 0=12%@warm 10=13% --temp 45F", []string{`"warm"`, "41F"}},
		{"ready 0=12% 10=33% --temp 45F", []string{"the readings", "saturated"}},
		{"ready 0=12% 10=13% --temp 145F", []string{`--temp "145F"`, "-13 F to 122 F"}},
		{"ready 0=12% 10=13% --temp 45F --by nose", []string{"--by", `"nose"`, "hydrometer, sg, salometer, baume, weigh"}},
		{"truck", []string{"nothing to reckon", "--truck"}},
		{"truck --truck big-sprayer", []string{`--truck "big-sprayer"`, "no yard file"}},
		{"truck --truck nosuch --yard YARD", []string{`--truck "nosuch"`, "big-sprayer, lot-pickup"}},
		{"truck --tank 0gal", []string{`--tank "0gal"`, "above 0"}},
		{"truck --tank 100gal --gross 9000lb", []string{"--empty", "both"}},
		{"truck --tank 100gal --gross 9000lb --empty 9500lb", []string{`--gross "9000lb"`, "9,500 lb"}},
		{"truck --volume 100gal", []string{`--volume "100gal"`, "tank"}},
		{"truck --rate 40gal/mi", []string{"--speed", "30mph"}},
		{"truck --area-rate 40gal/acre --speed 9mph", []string{"--width", "12ft"}},
		{"truck --rate 40gal/mi --area-rate 40gal/acre --speed 9mph", []string{`--rate "40gal/mi"`, "two rates"}},
		{"truck --rate 40gal --speed 9mph", []string{"--rate", `"gal" is no unit`, "gal/mi, L/km"}},
		{"truck --catch 18gal", []string{"--over", "60s"}},
		{"truck --tank 100gal --lanes 0", []string{"--lanes", `"0"`, "1 to 1000"}},
		{"truck --tank 100gal --liquid nosuch", []string{`"nosuch"`, "brine, nacl"}},
		{"lineup --from north --to truck-fill", []string{"no yard file", "--yard"}},
		{"lineup --yard YARD", []string{"0 questions", "--rinse"}},
		{"lineup --yard YARD --rinse --open S1", []string{"2 questions"}},
		{"lineup --yard YARD --from north", []string{"both ends"}},
		{"lineup --yard YARD --from nowhere --to north", []string{`--from "nowhere"`, "mixer, north"}},
		{"lineup --yard YARD --from north --to nowhere", []string{`--to "nowhere"`, "truck-fill"}},
		{"lineup --yard YARD --from supply --to floor-hatch", []string{`--to "floor-hatch"`}},
		{"lineup --yard YARD --open S1,S9", []string{`--open "S1,S9"`, "S9", "D1, D2"}},
		{"yard show", []string{"no yard file", "yard.toml"}},
		{"yard check", []string{"no yard file", "yard.toml"}},
		{"yard check a b", []string{`"b"`, "one file"}},
		{"yard check nosuch.toml", []string{"nosuch.toml", "no such file"}},
		{"yard init badinput_test.go", []string{"badinput_test.go", "another name"}},
		{"yard sow", []string{`"sow"`}},
		{"freez --nacl 3%", []string{`no such command: "freez"`, "freeze"}},
		{"melt", []string{`no such command: "melt"`, "batch, blend, card, check"}},
		{"help nosuch", []string{`no such command: "nosuch"`}},
		{"reading --yard nosuch.toml --hydrometer 20% --temp 41F", []string{"nosuch.toml", "no such file"}},
		{"reading --yard . --hydrometer 20% --temp 41F", []string{".: not a file"}},
	} {
		t.Run(c.line, func(t *testing.T) {
			requireRefused(t, strings.Fields(strings.ReplaceAll(c.line, "YARD", demoYard)), c.pieces...)
		})
	}
}

// A broken yard file is named with line and column, whichever command reads it.
func TestBrokenYardFiles(t *testing.T) {
	for _, c := range []struct{ text, place, piece string }{
		{"[target\n", ":1:8:", "table name"},
		{"name = \n", ":1:8:", ""},
		{"units = \"imperial\"\n", ":1:1:", "us, metric"},
		{"[target]\nstrength = \"130%\"\n", ":2:1:", "0% to 100%"},
		{"[target]\nstrength = nan\n", ":2:1:", "strength"},
		{"\n[target]\nstrenght = \"23%\"\n", ":3:1:", "unknown key"},
		{"[supply]\nflow = \"30furlongs\"\n", ":2:1:", "gal/min"},
		{"[[mixing_tank]]\nname = 7\ncapacity = 9", ":2:1:", "quotes"},
		{"[[mixing_tank]]\nname = \"a\"\n", ":1:3:", "capacity is missing"},
		{"[target]\nlow = \"24%\"\nhigh = \"23%\"\n", ":2:1:", "above"},
		{"name = \"a\"\nname = \"b\"\n", ":2:", "already"},
	} {
		path := filepath.Join(t.TempDir(), "yard.toml")
		require.NoError(t, os.WriteFile(path, []byte(c.text), 0o644))
		for _, line := range []string{
			"reading --hydrometer 20% --temp 41F", "check --volume 5gal --hydrometer 20% --temp 41F",
			"correct --volume 5gal --strength 20%", "batch --volume 5gal", "freeze --nacl 20%",
		} {
			requireRefused(t, append(strings.Fields(line), "--yard", path), "yard.toml"+c.place, c.piece)
		}
	}
}
