package plan

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shown is what an answer says in JSON: its figures, and the rows of its what-ifs without the
// names of the plans.
func shown(t *testing.T, line string) (figures any, rows []map[string]any) {
	t.Helper()
	var document struct {
		Figures any
		Tables  map[string][]map[string]any
	}
	text := answer(t, line+" --format json")
	require.NoError(t, json.Unmarshal([]byte(text), &document), text)
	const whatIf = "what_if"
	for _, row := range document.Tables[whatIf] {
		delete(row, "plan")
	}
	return document.Figures, document.Tables[whatIf]
}

// A what-if plans what the same flags would, leaves what it does not name as it was typed,
// and leaves the plan itself and the other what-ifs alone.
func TestWhatIfIsTheSameQuestion(t *testing.T) {
	base := "--yard " + demoYard + " " + demoStorm + " --low 22F --reserve 300gal --passes 2"
	// Of a plan that lacks a reserve all tables have the same columns.
	const lacking = " --what-if reserve=9999gal"
	changes := []string{"rate=50gal/mi", "passes=3,reserve=1500gal", "start=23:00,now=11:00", "reserve=2500gal,passes=9"}
	plain, _ := shown(t, base)
	figures, rows := shown(t, base+lacking+" --what-if "+strings.Join(changes, " --what-if "))
	require.NotNil(t, plain)
	require.Equal(t, plain, figures)
	require.Len(t, rows, 2+len(changes))
	for i, change := range changes {
		flags := " --" + strings.NewReplacer("=", " ", ",", " --").Replace(change)
		_, same := shown(t, without(base, flags)+flags+lacking)
		require.Equal(t, same[0], rows[2+i], change)
		require.NotEqual(t, rows[0], rows[2+i], change)
	}
}

// without takes those flags out of a line, with their values, that come again.
func without(line, flags string) string {
	for _, word := range strings.Fields(flags) {
		if strings.HasPrefix(word, "--") {
			line = regexp.MustCompile(" "+word+` \S+`).ReplaceAllString(line, "")
		}
	}
	return line
}

func TestWhatIfRefusals(t *testing.T) {
	for changes, says := range map[string]string{
		"snow=deep":         `--what-if "snow=deep": "snow=deep" is no change; allowed: now, start, down-by, low, reserve, rate, passes, pile, supply, liquid, out, skip or first, like rate=30,start=20:00`,
		"rate":              `--what-if "rate": "rate" is no change; allowed: now, start, down-by, low, reserve, rate, passes, pile, supply, liquid, out, skip or first, like rate=30,start=20:00`,
		"passes=2,passes=3": `--what-if "passes=2,passes=3": "passes" comes twice; allowed: once, and --what-if again for another plan`,
		"passes=0":          `--what-if "passes=0": "passes=0": not a whole number of them; allowed: 1 to 1000`,
		"temp=50F":          `--what-if "temp=50F": "temp=50F" is no change; allowed: now, start, down-by, low, reserve, rate, passes, pile, supply, liquid, out, skip or first, like rate=30,start=20:00`,
		"low=-70F":          `--low "-70F": outside what is planned for; allowed: -49 F to 104 F`,
	} {
		_, err := ask("--low 19F --yard " + smallYard + " --what-if " + changes)
		require.EqualError(t, err, says)
	}
}

// What a changed rate leaves as it is stands in the notes.
func TestWhatIfTellsOfItsRate(t *testing.T) {
	text := strings.Join(strings.Fields(answer(t, "--low 19F --yard "+demoYard+" --what-if rate=50")), " ")
	require.Contains(t, text, "--rate leaves areas and pre-wetted routes as they are: ")
	text = strings.Join(strings.Fields(answer(t, "--low 19F --yard "+demoYard+" --what-if passes=2")), " ")
	require.NotContains(t, text, "--rate leaves areas")
}
