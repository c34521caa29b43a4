package file

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// fault is a file that is wrong, and all that is said about it.
type fault struct{ text, want string }

func requireFaults(t *testing.T, faults []fault) {
	t.Helper()
	for _, f := range faults {
		y, err := Parse("north.toml", []byte(f.text))
		require.Nil(t, y)
		require.Equal(t, f.want, allFaults(err), "%s", f.text)
		var e *Error
		require.ErrorAs(t, err, &e, "%s", f.text)
		require.Equal(t, "north.toml", e.Path)
	}
}

// allFaults lists the faults of a file, a line each.
func allFaults(err error) string {
	var faults Faults
	if !errors.As(err, &faults) {
		return fmt.Sprint(err)
	}
	var lines []string
	for _, f := range faults {
		lines = append(lines, f.Error())
	}
	return strings.Join(lines, "\n")
}

// The words behind the place are the TOML parser's.
func TestSyntaxFaults(t *testing.T) {
	requireFaults(t, []fault{
		{"name = ", `north.toml:1:7: unexpected EOF; expected value`},
		{"name = \"a\nunits = \"us\"", `north.toml:1:10: strings cannot contain newlines`},
		{"name = 'a' b", `north.toml:1:11: expected a top-level item to end with a newline, comment, or EOF, but got 'b' instead`},
		{"\n\n[target", `north.toml:3:7: expected '.' or ']' to end table name, but got '\x00' instead`},
		{"name = \"a\"\nname = \"b\"", `north.toml:2:1: Key 'name' has already been defined.`},
		{"[target]\n[target]", `north.toml:2:2: Key 'target' has already been defined.`},
		{"[target]\nlow = 23%", `north.toml:2:9: expected a top-level item to end with a newline, comment, or EOF, but got '%' instead`},
	})
}

// A value that is no quantity, or none of that kind. The column is that of the
// value, behind an opening quote.
func TestValueFaults(t *testing.T) {
	requireFaults(t, []fault{
		{"[target]\nstrength = \"123%\"", `north.toml:2:1: target: strength = "123%": out of range; allowed: 0% to 100%; did you mean 12.3%?`},
		{"[target]\nstrength = 123", `north.toml:2:1: target: strength = "123": out of range; allowed: 0% to 100%; did you mean 12.3%?`},
		{"[target]\n  low = \"-1\"", `north.toml:2:3: target: low = "-1": out of range; allowed: 0% to 100%`},
		{"[hydrometer]\nchecked = \"soon\"", `north.toml:2:1: hydrometer: checked = "soon": not a day; allowed: like "2026-10-01"`},
		{"[hydrometer]\nchecked = 7", `north.toml:2:1: hydrometer: checked takes a day in quotes, not a number; allowed: like "2026-10-01"`},
		{"[hydrometer]\ncalibration = \"999F\"", `north.toml:2:1: hydrometer: calibration = "999F": out of range; allowed: -148F to 302F`},
		{"[supply]\nflow = \"-3gpm\"", `north.toml:2:1: supply: flow = "-3gpm": out of range; allowed: 0gal/min to 158503gal/min`},
		{"[supply]\nflow = \"30 furlongs\"", `north.toml:2:1: supply: flow = "30 furlongs": "furlongs" is no unit of a flow; allowed: gal/min, L/min, L/s, m3/h, m3/s`},
		{"[supply]\ntemperature = \"40 R\"", `north.toml:2:1: supply: temperature = "40 R": "R" is no unit of a temperature; allowed: F, C, K`},
		{"[salt]\npurity = \"pure\"", `north.toml:2:1: salt: purity = "pure": not a strength; write it like 23.3%`},
		{"[salt]\nmoisture = nan", `north.toml:2:1: salt: moisture = "NaN": not a strength; write it like 23.3%`},
		{"[salt]\nmoisture = true", `north.toml:2:1: salt: moisture takes a quantity in quotes, not true or false`},
		{"[[mixing_tank]]\nname = \"a\"\ncapacity = \"1,00,0gal\"", `north.toml:3:1: mixing_tank "a": capacity = "1,00,0gal": a volume takes no commas; write it like 500gal or 1900L`},
		{"[[mixing_tank]]\nname = \"a\"\nbed = \"ten lb\"", `north.toml:1:3: mixing_tank "a": capacity is missing
north.toml:3:1: mixing_tank "a": bed = "ten lb": not a weight; write it like 1300lb or 600kg`},
		{"[[storage_tank]]\nname = \"a\"\ncontents = \"5lb\"", `north.toml:1:3: storage_tank "a": capacity is missing
north.toml:3:1: storage_tank "a": contents = "5lb": "lb" is no unit of a volume; allowed: gal, L, kL, m3`},
		{"units = \"imperial\"", `north.toml:1:1: units = "imperial": unknown units; allowed: us, metric`},
	})
}

// A value of the wrong kind: the message says what to write instead.
func TestKindFaults(t *testing.T) {
	requireFaults(t, []fault{
		{"name = 3", `north.toml:1:1: name takes text in quotes, not a number`},
		{"name = [\"a\"]", `north.toml:1:1: name takes text in quotes, not a list`},
		{"[[mixing_tank]]\nname = 3", `north.toml:1:3: mixing_tank: capacity is missing
north.toml:2:1: mixing_tank: name takes text in quotes, not a number`},
		{"[target]\nlow = [23]", `north.toml:2:1: target: low takes a quantity in quotes, not a list`},
		{"[[mixing_tank]]\nname = \"a\"\ncapacity = {x = 1}", `north.toml:3:1: mixing_tank "a": capacity takes a quantity in quotes, not a table`},
		{"mixing_tank = 3", `north.toml:1:1: mixing_tank is a list of tables; write [[mixing_tank]] above the keys of each`},
		{"\nstorage_tank = \"x\"", `north.toml:2:1: storage_tank is a list of tables; write [[storage_tank]] above the keys of each`},
		{"[mixing_tank]\nname = \"a\"", `north.toml:1:2: mixing_tank is a list of tables; write [[mixing_tank]] above the keys of each`},
	})
}

// A key that means nothing, most likely a slip of the pen, is not passed over.
func TestUnknownKeys(t *testing.T) {
	requireFaults(t, []fault{
		{"colour = 1", `north.toml:1:1: unknown key "colour"; allowed: blend, cleaning, destination, glass, hydrometer, line, liquid, mixing_tank, name, other_pump, plumbing, prices, pump, route, salt, storage_tank, supply, target, thermometer, truck, units, valve`},
		{"name = \"a\"\n  [colour]\na = 1", `north.toml:2:4: unknown key "colour"; allowed: blend, cleaning, destination, glass, hydrometer, line, liquid, mixing_tank, name, other_pump, plumbing, prices, pump, route, salt, storage_tank, supply, target, thermometer, truck, units, valve`},
		{"[[mixing_tanks]]\nname = \"a\"", `north.toml:1:3: unknown key "mixing_tanks"; did you mean "mixing_tank"?`},
		{"[target]\nlow = \"23\"\n  strenght = \"23\"", `north.toml:3:3: target: unknown key "strenght"; did you mean "strength"?`},
		{"target.strenght = \"23\"", `north.toml:1:1: target: unknown key "strenght"; did you mean "strength"?`},
		{"[target]\nlow = \"23\"\n[target.x]\na = 1", `north.toml:3:2: target: unknown key "x"; allowed: high, low, strength`},
		{"[[mixing_tank]]\nname = \"a\"\ncapacity = \"1\"\nvolume = \"1\"", `north.toml:4:1: mixing_tank "a": unknown key "volume"; allowed: bed, bed_capacity, capacity, depths, diameter, head_depth, heads, length, mix_time, name, pump_off, shape, stick, width, working_volume, zero`},
		{"path = \"x\"", `north.toml:1:1: unknown key "path"; allowed: blend, cleaning, destination, glass, hydrometer, line, liquid, mixing_tank, name, other_pump, plumbing, prices, pump, route, salt, storage_tank, supply, target, thermometer, truck, units, valve`}, // a field that is not the file's
	})
}

// tank makes a [[mixing_tank]] of its lines; two of them show that a fault is told
// where it is.
func tank(lines ...string) string {
	return "[[mixing_tank]]\n" + strings.Join(lines, "\n") + "\n"
}

// What cannot be: values that are each right but do not go together.
func TestContradictions(t *testing.T) {
	first := tank(`name = "a"`, `capacity = "10gal"`) // three lines
	second := "north.toml:%d:1: mixing_tank \"b\": "
	for _, c := range []struct {
		lines []string
		line  int
		want  string
	}{
		{[]string{`name = "b"`}, 4, "capacity is missing"},
		{[]string{`name = "b"`, `capacity = "0gal"`}, 6, "capacity is nothing; allowed: above 0"},
		{[]string{`name = "b"`, `capacity = "1200gal"`, `working_volume = "1300gal"`}, 7, "working_volume 1300 gal is above capacity 1200 gal"},
		{[]string{`name = "b"`, `capacity = "100gal"`, `working_volume = "100.1gal"`}, 7, "working_volume 100.1 gal is above capacity 100 gal"},
		{[]string{`name = "b"`, `pump_off = "12gal"`, `capacity = "10gal"`}, 6, "pump_off 12 gal is above capacity 10 gal"},
		{[]string{`name = "b"`, `capacity = "10gal"`, `working_volume = "5gal"`, `pump_off = "6gal"`}, 8, "pump_off 6 gal is above working_volume 5 gal"},
		{[]string{`name = "b"`, `capacity = "10gal"`, `colour = "red"`}, 7, `unknown key "colour"; allowed: bed, bed_capacity, capacity, depths, diameter, head_depth, heads, length, mix_time, name, pump_off, shape, stick, width, working_volume, zero`},
	} {
		want := fmt.Sprintf(second, c.line) + c.want
		if c.want == "capacity is missing" {
			want = strings.Replace(want, ":4:1:", ":4:3:", 1) // the head of the table
		}
		requireFaults(t, []fault{{first + tank(c.lines...), want}})
	}
}

func TestContradictionsOfTargetAndStorage(t *testing.T) {
	first := tank(`name = "a"`, `capacity = "10gal"`) // three lines
	requireFaults(t, []fault{
		{"[target]\nlow = \"24\"\nhigh = \"20\"", `north.toml:2:1: target: low 24% is above high 20%`},
		{"[target]\nhigh = \"20\"\n  low = \"24\"", `north.toml:3:3: target: low 24% is above high 20%`},
		{"[target]\nlow = \"23\"\nstrength = \"22\"", `north.toml:3:1: target: strength 22% lies outside the band of low and high`},
		{"[target]\nstrength = \"28\"", `north.toml:2:1: target: strength 28% is above saturation; allowed: up to 26.7022%`},
		{first + tank(`capacity = "1"`), `north.toml:4:3: mixing_tank: name is missing`},
		{first + tank(`name = ""`, `capacity = "1"`), `north.toml:5:1: mixing_tank: name is missing`},
		{first + tank(`name = " "`, `capacity = "1"`), `north.toml:5:1: mixing_tank: name is missing`},
		{first + tank(`name = "a"`, `capacity = "1"`), `north.toml:5:1: mixing_tank: the name "a" is taken`},
		{first + "[[storage_tank]]\nname = \"a\"\ncapacity = \"1\"", `north.toml:5:1: storage_tank: the name "a" is taken`},
		{first + "[[storage_tank]]\nname = \"b\"", `north.toml:4:3: storage_tank "b": capacity is missing`},
		{first + "[[storage_tank]]\ncapacity = \"1\"", `north.toml:4:3: storage_tank: name is missing`},
	})
	storage := "[[storage_tank]]\nname = \"b\"\ncapacity = \"10gal\"\n"
	requireFaults(t, []fault{
		{storage + `contents = "12gal"`, `north.toml:4:1: storage_tank "b": contents 12 gal is above capacity 10 gal`},
		{storage + `dead_volume = "12gal"`, `north.toml:4:1: storage_tank "b": dead_volume 12 gal is above capacity 10 gal`},
		{storage + `strength = "30%"`, `north.toml:4:1: storage_tank "b": strength 30% is above saturation; allowed: up to 26.7022%`},
		{storage + `liquid = "cal"`, `north.toml:4:1: storage_tank "b": no liquid is named "cal"`},
	})
}

// Everything that is wrong is told at once, in the order of the file.
func TestAllFaultsAtOnce(t *testing.T) {
	requireFaults(t, []fault{{
		"unit = \"us\"\n[target]\nlow = \"x\"\n[[mixing_tank]]\nname = \"a\"\n[[mixing_tank]]\ncapacity = true\n",
		`north.toml:1:1: unknown key "unit"; did you mean "units"?
north.toml:3:1: target: low = "x": not a strength; write it like 23.3%
north.toml:4:3: mixing_tank "a": capacity is missing
north.toml:6:3: mixing_tank: name is missing
north.toml:7:1: mixing_tank: capacity takes a quantity in quotes, not true or false`,
	}})
	_, err := Parse("north.toml", []byte("a = 1\nb = 2\nc = 3"))
	require.ErrorContains(t, err, "north.toml:1:1:")
	require.ErrorContains(t, err, "(and 2 more: brineyard yard check lists them)")
}

// liquid makes a [[liquid]] of its lines.
func liquid(lines ...string) string {
	return "[[liquid]]\nname = \"l\"\n" + strings.Join(lines, "\n") + "\n"
}

// A liquid is a solution of salts, or a product with its data sheet.
func TestLiquidFaults(t *testing.T) {
	requireFaults(t, []fault{
		{liquid(), `north.toml:2:1: liquid "l": what it holds is missing; allowed: nacl, kcl, cacl2, mgcl2, or solute, density and freezing`},
		{liquid(`cacl2 = "32%"`, `price = "x"`), `north.toml:4:1: liquid "l": price = "x": not a price; write it like 0.85/gal or 220/kL`},
		{liquid(`cacl2 = "32%"`, `mgcl2 = "30%"`), `north.toml:2:1: liquid "l": more is dissolved than there can be; allowed: 50% in all`},
		{"[[liquid]]\nname = \"brine\"\nnacl = \"20%\"", `north.toml:2:1: liquid: "brine" is a built-in liquid; allowed: another name`},
		{liquid(`solute = "50%"`, `density = "1.2kg/L"`), `north.toml:1:3: liquid "l": freezing is missing; a product takes solute, density and freezing`},
		{liquid(`solute = "50%"`, `freezing = [["10%", "-5C"]]`), `north.toml:1:3: liquid "l": density is missing; a product takes solute, density and freezing`},
		{liquid(`density = "1.2kg/L"`, `freezing = [["10%", "-5C"]]`), `north.toml:1:3: liquid "l": solute is missing; a product takes solute, density and freezing`},
		{liquid(`cacl2 = "3%"`, `solute = "50%"`, `density = "1.2kg/L"`, `freezing = [["10%", "-5C"]]`),
			`north.toml:6:1: liquid "l": a freezing table and salts are two descriptions; allowed: one of them`},
		{liquid(`solute = "50%"`, `density = "1.2kg/L"`, `freezing = "10%"`),
			`north.toml:5:1: liquid "l": freezing takes a list of pairs, like [["10%", "-5C"], ["20%", "-12C"]]`},
		{liquid(`solute = "50%"`, `density = "1.2kg/L"`, `freezing = [["10%"], ["20%", "-9C"]]`),
			`north.toml:5:1: liquid "l": row 1 of freezing is no pair of strength and temperature`},
		{liquid(`solute = "50%"`, `density = "1.2kg/L"`, `freezing = [["10 lb", "-5C"], ["20%", "-9C"]]`),
			`north.toml:5:1: liquid "l": row 1 of freezing: strength "10 lb": "lb" is no unit of a strength; allowed: %`},
		{liquid(`solute = "50%"`, `density = "1.2kg/L"`, `freezing = [["10%", "cold"], ["20%", "-9C"]]`),
			`north.toml:5:1: liquid "l": row 1 of freezing: temperature "cold": not a temperature; write it like 41F or 5C`},
		{liquid(`solute = "50%"`, `density = "1.2kg/L"`, `freezing = [["10%", "-5C"], ["20%", "-4C"]]`),
			`north.toml:5:1: liquid "l": not a product's data sheet: row 2 of the freezing table: each row is to have more solute, and freeze colder, than the one before, down to -70 C`},
		{liquid(`solute = "50%"`, `density = "1.2lb/gal"`, `freezing = [["10%", "-5C"]]`),
			`north.toml:5:1: liquid "l": not a product's data sheet: density is to be from 500 to 3000 kg/m3`},
	})
}

// A name from the file is quoted, so that it cannot act on a terminal.
func TestNamesAreQuoted(t *testing.T) {
	requireFaults(t, []fault{
		{"[[mixing_tank]]\nname = \"a\\u001b[31m\\u202e\\n\"", `north.toml:1:3: mixing_tank "a\x1b[31m\u202e\n": capacity is missing`},
	})
}

// Columns count letters, not bytes, and neither a byte order mark nor the end of
// the line before.
func TestPlaces(t *testing.T) {
	requireFaults(t, []fault{
		{"\ufeffname = 3", `north.toml:1:1: name takes text in quotes, not a number`},
		{"\ufeffcolour = 3", `north.toml:1:1: unknown key "colour"; allowed: blend, cleaning, destination, glass, hydrometer, line, liquid, mixing_tank, name, other_pump, plumbing, prices, pump, route, salt, storage_tank, supply, target, thermometer, truck, units, valve`},
		{"name = \"x\"\r\n[target]\r\nlow = \"240\"\r\n", `north.toml:3:1: target: low = "240": out of range; allowed: 0% to 100%; did you mean 24%?`},
		{"[target]\r\nlow = \"24\"\r\nhigh = \"20\"\r\n", `north.toml:2:1: target: low 24% is above high 20%`},
		{"target = {low = \"ä\", high = x}", `north.toml:1:29: expected value but found "x" instead`},
	})
}

func TestNotUTF8(t *testing.T) {
	requireFaults(t, []fault{
		{"name = \"T\xe4nk\"", `north.toml: not UTF-8 text`}, // Latin-1
		{"\xff\xfen\x00a\x00", `north.toml: not UTF-8 text`}, // UTF-16
	})
}
