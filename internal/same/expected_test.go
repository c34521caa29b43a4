package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// waterWorking is a working of old, by two weights.
const waterWorking = "Working\n  1. Salt in it\n       weight x strength\n       9 lb x 0.23301 = 2 lb\n  2. Brine\n       salt / target strength\n       2 lb / 0.233 = %s lb\n\n"

// meantDifferences have each a name of expectations.
var meantDifferences = []struct {
	name, command string
	words         []string
	before, after string
}{
	{"draw_off_first", "correct", nil, `{"figures": {"bleed_first": {"value": 1}}}`, `{"figures": {"draw_off_first": {"value": 1}}}`},
	{"draw_off_first", "each", nil, "tank,bleed_first [gal]\nmixer,1\n", "tank,draw_off_first [gal]\nmixer,1\n"},
	{"last digits of a figure", "storm", []string{"--format", "csv"}, "cost,10.000000000000002,\n", "cost,10,\n"},
	{"yard show --working", "yard show", nil, "It makes 5 gal.\n\nWorking\n  1. One\n       2\n\nNote: Two.\n", "It makes 5 gal.\n\nNote: Two.\n"},
	{"yard show --working", "yard show", nil, "# Yard\n\n## Working\n\n1. One: 2 = 2\n2. Two: 3\n\n## Notes\n\n- Three.\n", "# Yard\n\n## Notes\n\n- Three.\n"},
	{"yard show --working", "yard show", nil, "a,1,gal\nworking,\"one, two: \"\"3\"\" = 4\",\nworking,five: 6,\nnote,seven,\n", "a,1,gal\nworking,eight,\nnote,seven,\n"},
	{"yard show --working", "yard show", nil, `{"verdict":"x","working":[{"what":"a"}]}`, `{"verdict":"x","working":[]}`},
	{"unit of an unknown interval", "journal season", nil, "made,1,kg\ncleaning,vat,4000,L,,gal,,gal,'-,0,kg,,lb\n", "made,1,kg\ncleaning,vat,4000,L,,L,,L,'-,0,kg,,lb\n"},
	{"unit of an unknown interval", "journal season", nil, `{"interval": {"value": null, "unit": "gal"}, "salt": {"unit": "kg"}}`, `{"interval": {"value": null, "unit": "L"}, "salt": {"unit": "kg"}}`},
	{"help in groups", "help", nil, "Use.\n\nAvailable Commands:\n  batch  Salt\n  card   Sheets\n  ready  When\n\nFlags:\n", "Use.\n\nAt the tank:\n  batch  Salt\n  ready  When\n\nLearning:\n  card   Sheets\n\nFlags:\n"},
	{"tank of another liquid", "each", nil, "south,\"it says it holds cal31 (%v %s), which\"\n", "south,\"it says it holds cal31 (31% CaCl2), which\"\n"},
	{"edge of the band", "journal season", nil, "8 gal made, 1 of 2 batches in the band.\noperators,Ash,2,0,1,10\n", "8 gal made, 2 of 2 batches in the band.\noperators,Ash,2,1,1,10\n"},
	{"edge of the band", "journal season", nil, "8 gal made, 1 of 2 batches\nin the band.\n\n  Ash  1  0  0  7\n", "8 gal made, 2 of 2 batches in\nthe band.\n\n  Ash  1  1  0  7\n"},
	{"mixing tanks together", "yard show", nil, "Y makes up to 811 gal of brine an hour.\n\n  Brine an hour, all mixing tanks  811 gal/h\n\nNote: The mixing tanks share one pump and one supply, which bound what they make together.\n", "Y makes up to 904 gal of brine\nan hour.\n\n  Brine an hour, mixer alone  904 gal/h\n\nNote: The mixing tanks share one pump and one supply: the most comes of mixer alone, as it is worth.\n"},
	{"mixing tanks together", "yard show", nil, `{"figures": {"brine_per_hour": {"value": 811.5, "unit": "gal/h"}}, "notes": ["The mixing tanks share one pump and one supply, which bound what they make together."]}`, `{"figures": {"brine_per_hour": {"value": 904.5, "unit": "gal/h"}}, "notes": ["The mixing tanks share one pump and one supply: the most comes of mixer alone, as it is worth."]}`},
	{"correction with water", "check", nil, "Add.\n\nWorking\n  1. Brine on target that this salt makes\n\nNote: One.\n", "Add.\n\nWorking\n  1. Water\n       weight x (strength - target) / target\n\nNote: One.\n"},
	{"last digits of a working", "batch", nil, "Go.\n\nWorking\n  1. Load\n       4963.22 L\n\n", "Go.\n\nWorking\n  1. Load\n       4963.25 L\n\n"},
	{"last digits of a figure", "each", nil, "tank,salt [lb]\nmixer,10.000000000000002\n", "tank,salt [lb]\nmixer,10\n"},
	{"working near the target", "correct", nil, "Add.\n\n" + waterWorking + "\nNote: One.\n", "Add.\n\nWorking\n  1. Other\n\n\nNote: One.\n"},
	{"flag without a value", "each", nil, "5%,\"rinse \"\"5%\"\": strconv.ParseBool: parsing \"\"5%\"\": invalid syntax\"\n", "5%,\"rinse \"\"5%\"\": takes no value\"\n"},
	{"quoted name", "each", nil, "no valve is named 5\uFFFD\n", "no valve is named 5\\u001b\n"},
	{"why there is no working", "card", nil, `{"verdict":"x","notes":["One."]}`, `{"verdict":"x","notes":["One.", "No working: read."]}`},
	{"why there is no working", "journal list", nil, "3 entries.\n\nNote: One.\n", "3 entries.\n\nNote: One.\nNote: No working: kept.\n"},
	{"why there is no working", "yard check", nil, "Fine.\n", "Fine.\n\nNote: No working: read.\n"},
	{"why there is no working", "card", nil, "| 1 |\n\n## Cautions\n\n- Two.\n", "| 1 |\n\n## Notes\n\n- No working: read.\n\n## Cautions\n\n- Two.\n"},
	{"working that reaches the answer", "ready", nil, "At 9.\n\nWorking\n  1. One\n       2\n\n", "At 9.\n\nWorking\n  1. One\n       3\n\n"},
}

// What is meant is taken for what it is, and nothing beside it.
func TestExpectedDifferences(t *testing.T) {
	t.Parallel()
	for _, c := range meantDifferences {
		before, after := &result{stdout: c.before}, &result{stdout: c.after}
		l := &line{command: c.command, words: c.words}
		left, meant := judge(expectations(), l, before, after)
		require.Empty(t, left, c.name)
		require.Equal(t, []string{c.name}, meant)
		require.Equal(t, c.before, before.stdout, "a result was changed")

		after.stderr = "and this"
		left, _ = judge(expectations(), l, before, after)
		require.Equal(t, []difference{{"standard error", "from line 1:\n- \n+ and this"}}, left, c.name)

		left, _ = judge(expectations(), &line{command: "reading"}, &result{stdout: c.before}, &result{stdout: "other"})
		require.NotEmpty(t, left, c.name)
	}
}

// Rows may differ in their last digits, those of a batch in two or three more.
func TestRowDigits(t *testing.T) {
	t.Parallel()
	files := func(text string) *result { return &result{files: map[string]string{"journal.csv": text}} }
	for after, apart := range map[string]map[string]bool{
		"18,442.521727023,CHECK\n": {"batch": false, "store": false},
		"18,442.5217,CHECK\n":      {"batch": false, "store": true},
		"18,442.52,CHECK\n":        {"batch": true, "store": true},
	} {
		for command, want := range apart {
			left, _ := judge(expectations(), &line{command: command}, files("18,442.521727024,CHECK\n"), files(after))
			require.Equal(t, want, len(left) > 0, "%s %s", command, after)
		}
	}
	for words, apart := range map[string]bool{"batch": false, "store": true} {
		left, _ := judge(expectations(), &line{command: "each", words: []string{"each", words}}, &result{stdout: "1.00000001,\n"}, &result{stdout: "1,\n"})
		require.Equal(t, apart, len(left) > 0, words)
	}
}

// What only looks like something that is meant is a difference; a refusal is meant in its
// advice alone.
func TestUnexpectedDifferences(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ command, before, after string }{
		{"correct", `{"figures": {"bleed_first": {"value": 1}}}`, `{"figures": {"draw_off_first": {"value": 2}}}`},
		{"correct", `{"figures": {"bleed_first": {"value": 1}}}`, `{"figures": {}}`},
		{"storm", "cost,10.0001,\n", "cost,10,\n"},
		{"yard show", "It makes 5 gal.\n\nWorking\n  1. One\n\n", "It makes 6 gal.\n\nWorking\n  1. Two\n\n"},
		{"help", "Available Commands:\n  batch  Salt\n  card   Sheets\n", "At the tank:\n  batch  Salt\n"},
		{"each", "south,\"it says it holds cal31 (%v %s), which\"\n", "south,\"it says it holds cal31 (31), which\"\n"},
		{"each", "tank,salt\nmixer,10.00001\n", "tank,salt\nmixer,10\n"},
		{"journal season", "8 gal made, 2 of 2 batches in the band.\n", "8 gal made, 1 of 2 batches in the band.\n"},
		{"journal season", "8 gal made, 1 of 2 batches in the band.\n", "9 gal made, 2 of 2 batches in the band.\n"},
		{"yard show", "Y makes up to 811 gal of brine an hour.\nNote: which bound what they make together. In store 5 gal\n", "Y makes up to 904 gal of brine an hour.\nNote: which bound what they make together. In store 6 gal\n"},
		{"correct", "Add 5.\n\nWorking\n  1. Brine on target that this salt makes\n\n", "Add 6.\n\nWorking\n  1. weight x (strength - target) / target\n\n"},
		{"batch", "Go.\n\nWorking\n  1. Load\n       4963 L\n\n", "Go.\n\nWorking\n  1. Load\n       4970 L\n\n"},
		{"yard check", "Fine.\n\nWorking\n  1. One\n\n", "Fine.\n\nWorking\n  1. Two\n\n"},
		{"journal season", "made,1,lb\ncleaning,vat,1,gal,,gal,,gal,\n", "made,1,lb\ncleaning,vat,1,gal,,L,,L,\n"},
		{"correct", "Add.\n\nWorking\n  weight x strength 9 lb x 0.24 salt / target strength 2 lb / 0.233\n\n", "Add.\n\nWorking\n  1. Other\n\n"},
	} {
		left, _ := judge(expectations(), &line{command: c.command}, &result{stdout: c.before}, &result{stdout: c.after})
		require.NotEmpty(t, left, c.before)
	}
	for _, c := range [][2]string{
		{"brineyard: no such command: \"stor\"; did you mean store or storm?\n", "brineyard: no such command: \"stor\"; did you mean store?\n"},
		{"brineyard: no such flag: \"AT\"; --help lists the flags\n", "brineyard: no such flag: \"AT\"; did you mean --at?\n"},
		{"brineyard: 5\uFFFD: file does not exist\n", "brineyard: 5\\u202e: file does not exist\n"},
	} {
		left, _ := judge(expectations(), &line{command: "storm"}, &result{stderr: c[0]}, &result{stderr: c[1]})
		require.Empty(t, left, c[0])
		left, _ = judge(expectations(), &line{command: "storm"}, &result{stderr: c[0]}, &result{stderr: "x" + c[1]})
		require.NotEmpty(t, left, c[0])
	}
	left, _ := judge(expectations(), &line{command: "storm", words: []string{"--format=csv"}}, &result{stdout: "cost,10.00001,\n"}, &result{stdout: "cost,10,\n"})
	require.NotEmpty(t, left)
}
