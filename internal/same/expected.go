package main

import (
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// expectation is a difference that is meant. Its function makes the two results equal in
// what is meant, and in nothing else; whatever differs then is a difference still.
type expectation struct {
	name string
	why  string
	mend func(l *line, before, after *result)
}

// expectations are all that is meant. A new one needs a name, a sentence that says why,
// and a function; those below the table help with it.
func expectations() []expectation {
	return []expectation{
		{"why there is no working", "a command that is asked for a working and has none now says why", noWorking},
		{"flag without a value", "a cell of a flag that takes no value is refused in our words", switchWords},
		{"draw_off_first", "the key bleed_first has been given the trade's name", renameDrawOff},
		{"help in groups", "the help screen shows the commands in groups", helpGroups},
		{"nearest word", "a refusal names the one nearest word, by one rule for all", nearestWord},
		{"quoted name", "a name that a terminal cannot show is quoted by one rule for all", quotedName},
		{"tank of another liquid", "each used to print raw format verbs for a tank that holds another liquid", contents},
		{"edge of the band", "a batch is judged with the tolerance of a check, so one at the edge counts as in the band", bandEdges},
		{"yard show --working", "the working now derives what two mixing tanks make together", yardShowWorking},
		{"mixing tanks together", "a further mixing tank no longer lowers what the yard makes an hour", shared},
		{"unit of an unknown interval", "what is not known of a cleaning used to be in gal and lb, whatever the units", intervalUnit},
		{"working near the target", "the working now follows the printed numbers, where the target is within 0.1 % and a difference of two rounded weights was taken", nearTarget},
		{"correction with water", "the working takes the water from the difference of the strengths in one step", waterSteps},
		{"last digits of a working", "a step is evaluated from what is printed before it", workingDigits},
		{"last digits of a figure", "figures are the same to 1e-9, in CSV as in JSON", figureDigits},
		{"last digits of a row", "rows that are recorded are the same to 1e-9, as figures are", rowDigits},
		{"last digits of a batch", "a batch is worked out until its balance settles, which four rounds did not reach with a large heel", batchDigits},
		{"working that reaches the answer", "the working now goes on to the figure of the answer, or ends before a step that none needs", reachingWorking},
	}
}

// judge compares two results. The differences that are left when all that is meant has
// been mended come first, then the names of what was meant.
func judge(list []expectation, l *line, before, after *result) ([]difference, []string) {
	left := compare(before, after)
	var meant []string
	b, a := *before, *after
	for _, e := range list {
		if len(left) == 0 {
			break
		}
		e.mend(l, &b, &a)
		if now := compare(&b, &a); !sameDifferences(now, left) {
			left, meant = now, append(meant, e.name)
		}
	}
	return left, meant
}

func sameDifferences(a, b []difference) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func renameDrawOff(l *line, before, after *result) {
	if strings.Contains(after.stdout, "draw_off_first") {
		before.stdout = strings.ReplaceAll(before.stdout, "bleed_first", "draw_off_first")
	}
}

func yardShowWorking(l *line, before, after *result) {
	if l.command == "yard show" {
		before.stdout, after.stdout = withoutWorking(before.stdout), withoutWorking(after.stdout)
	}
}

// The cells of a cleaning that are not known, and what they are in metric units.
var unknownCells = []struct {
	cell   *regexp.Regexp
	metric string
}{
	{regexp.MustCompile(`("(?:interval|left)": \{\s*"value": null,\s*"unit": )"gal"`), `$1"L"`},
	{regexp.MustCompile(`("usual_insolubles": \{\s*"value": null,\s*"unit": )"lb"`), `$1"kg"`},
	{regexp.MustCompile(`(?m)^(cleaning,.*),,gal,,gal,`), `$1,,L,,L,`},
	{regexp.MustCompile(`(?m)^(cleaning,.*),,lb$`), `$1,,kg`},
}

func intervalUnit(l *line, before, after *result) {
	if l.command != "journal season" || !strings.Contains(after.stdout, "kg") {
		return
	}
	for _, u := range unknownCells {
		before.stdout = u.cell.ReplaceAllString(before.stdout, u.metric)
		after.stdout = u.cell.ReplaceAllString(after.stdout, u.metric)
	}
}

// The two strengths in the working of a correction: with water, and with salt or stock.
var (
	byWater = regexp.MustCompile(`(?s)weight x strength.*? x (0\.\d+).*?salt / target strength.*? / (0\.\d+)`)
	byOther = regexp.MustCompile(`(?s)weight x \(target - strength\).*?\((0\.\d+) - (0\.\d+)\)`)
)

func nearTarget(l *line, before, after *result) {
	for _, strengths := range []*regexp.Regexp{byWater, byOther} {
		m := strengths.FindStringSubmatch(before.stdout)
		if m == nil {
			continue
		}
		one, _ := strconv.ParseFloat(m[1], 64)
		other, _ := strconv.ParseFloat(m[2], 64)
		if math.Abs(one-other) < 0.001 {
			before.stdout, after.stdout = withoutWorking(before.stdout), withoutWorking(after.stdout)
		}
	}
}

// Where an answer or its error stream says why there is no working.
var noWorkingLines = []*regexp.Regexp{
	regexp.MustCompile(`(?m)^Note: No working.*\n`),              // text
	regexp.MustCompile(`(?m)^- No working.*\n`),                  // markdown
	regexp.MustCompile(`(?m)^note,"?No working.*\n`),             // CSV
	regexp.MustCompile(`(?m)^brineyard [a-z ]+: No working.*\n`), // error stream
	regexp.MustCompile(`,?\s*"No working[^"]*"`),                 // JSON
}

func noWorking(l *line, before, after *result) {
	for _, said := range noWorkingLines {
		if said.MatchString(after.stdout) {
			after.stdout = withoutGap(said.ReplaceAllString(after.stdout, ""))
		}
		after.stderr = said.ReplaceAllString(after.stderr, "")
	}
}

var emptyNotes = regexp.MustCompile(`\n## Notes\n\n(\n|$)`)

// withoutGap closes the gap that the only note leaves.
func withoutGap(text string) string {
	text = strings.ReplaceAll(emptyNotes.ReplaceAllString(text, "$1"), "\n\n\n", "\n\n")
	if rest, ends := strings.CutSuffix(text, "\n\n"); ends {
		return rest + "\n"
	}
	return text
}

func reachingWorking(l *line, before, after *result) {
	switch l.command {
	case "drill", "freeze", "journal season", "ready", "truck":
		before.stdout, after.stdout = withoutWorking(before.stdout), withoutWorking(after.stdout)
	}
}

var workingSections = []*regexp.Regexp{
	regexp.MustCompile(`(?m)^Working\n(?:.+\n|\n +\d+\. .+\n)+\n?`),    // text; a step may have no result
	regexp.MustCompile(`(?m)^## Working\n\n(?:\d+\. .*\n)+\n?`),        // markdown
	regexp.MustCompile(`(?m)^working,(?:"(?:[^"]|"")*"|[^",\n]*),?\n`), // CSV
}

// withoutWorking is an answer without its working, in any format.
func withoutWorking(text string) string {
	if o, ok := jsonObject(text); ok {
		delete(o, "working")
		if out, err := json.Marshal(o); err == nil {
			return string(out)
		}
	}
	for _, section := range workingSections {
		text = section.ReplaceAllString(text, "")
	}
	return text
}

var numberInText = regexp.MustCompile(`-?\d+(?:\.\d+)?(?:e[+-]?\d+)?`)
