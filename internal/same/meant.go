package main

import (
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Mends of what is meant, for the table of expectations.

var (
	commandLine  = regexp.MustCompile(`^  \S+  +\S`)
	groupHeading = regexp.MustCompile(`^[A-Z][A-Za-z ]+:$`)
)

// helpGroups sorts the commands of the help screen, without their headings.
func helpGroups(_ *line, before, after *result) {
	if strings.Contains(before.stdout, "\nAvailable Commands:\n") && strings.Contains(after.stdout, "\nAt the tank:\n") {
		before.stdout, after.stdout = withoutGroups(before.stdout), withoutGroups(after.stdout)
	}
}

func withoutGroups(text string) string {
	var commands, rest []string
	for _, l := range strings.Split(text, "\n") {
		switch {
		case commandLine.MatchString(l):
			commands = append(commands, l)
		case l != "" && !groupHeading.MatchString(l):
			rest = append(rest, l)
		}
	}
	slices.Sort(commands)
	return strings.Join(append(commands, rest...), "\n")
}

// What yard show says of several mixing tanks together, in any format.
var together = masks{
	{regexp.MustCompile(`makes\s+up\s+to\s+[\d,]+(\.\d+)?\s+(gal|L)\s+of\s+brine\s+an\s+hour`), "makes up to # of brine an hour"},
	{regexp.MustCompile(`("brine_per_hour":\s*\{[^{}]*"value":\s*)[\d.]+`), `$1"#"`},
	{regexp.MustCompile(`(?m)^(brine_per_hour,)[\d.]+`), "$1#"},
	{regexp.MustCompile(`Brine an hour, [^|\n]*?(  +| \| )[\d,.]+ `), "Brine an hour # "},
	{regexp.MustCompile(`The\s+mixing\s+tanks\s+share\s+one\s+pump\s+and\s+one\s+supply(,\s+which\s+bound\s+what\s+they\s+make\s+together|:\s+the\s+most\s+comes\s+of\s+[^.]*?\s+worth)\.`), "#"},
}

func shared(l *line, before, after *result) {
	if l.command != "yard show" || !strings.Contains(strings.Join(strings.Fields(before.stdout), " "), "which bound what they make together") {
		return
	}
	for _, r := range []*result{before, after} {
		text := together.over(r.stdout)
		if _, ok := jsonObject(r.stdout); !ok {
			text = strings.Join(strings.Fields(text), " ") // the lines break elsewhere
		}
		r.stdout = text
	}
}

var (
	inBand = regexp.MustCompile(`(\d+) of \d+\s+batches\s+in\s+the\s+band`)
	// What counts batches in the band, in any format.
	bandCounts = masks{
		{regexp.MustCompile(`\d+( of \d+)\s+batches\s+in\s+the\s+band`), "#$1 batches in the band"},
		{regexp.MustCompile(`of\s+them\s+\d+\s+in\s+the\s+band,\s+\d+\s+too\s+weak,\s+\d+\s+too\s+strong`), "#"},
		{regexp.MustCompile(`("(?:batches_in_band|in_band|batches_weak|batches_strong|too_weak|too_strong)":\s*\{[^{}]*"value":\s*)\d+`), `$1"#"`},
		{regexp.MustCompile(`(?m)^((?:batches_in_band|batches_weak|batches_strong|too_weak|too_strong),)\d+`), "$1#"},
		{regexp.MustCompile(`(?m)^(operators,[^\n]*,\d+,)\d+(,\d+,\d+)$`), "$1#$2"},
		{regexp.MustCompile(`(?m)^(  \S.*?\s\d+\s+)\d+(\s+\d+\s+\d+)$`), "$1#$2"},
		{regexp.MustCompile(`(?m)^(\| [^|]+ \| \d+ \| )\d+( \| \d+ \| \d+ \|)$`), "$1#$2"},
	}
)

// bandEdges is for a season whose batches in the band are more than they were.
func bandEdges(l *line, before, after *result) {
	b, a := inBand.FindStringSubmatch(before.stdout), inBand.FindStringSubmatch(after.stdout)
	if l.command != "journal season" || b == nil || a == nil {
		return
	}
	was, _ := strconv.Atoi(b[1])
	is, _ := strconv.Atoi(a[1])
	if is > was {
		before.stdout, after.stdout = bandCounts.over(before.stdout), bandCounts.over(after.stdout)
	}
}

var advice = regexp.MustCompile(`(?m); (?:did you mean [^?\n]*\?(?: allowed: [^\n]*)?|allowed: [^\n]*|--help lists the flags)$`)

// nearestWord leaves the advice out where either program names a near word.
func nearestWord(_ *line, before, after *result) {
	const near = "did you mean "
	if strings.Contains(before.stderr, near) || strings.Contains(after.stderr, near) {
		before.stderr, after.stderr = advice.ReplaceAllString(before.stderr, ""), advice.ReplaceAllString(after.stderr, "")
	}
}

var (
	rawVerbs = regexp.MustCompile(`says it holds (\S+) \(%v %s\)`)
	holds    = regexp.MustCompile(`says it holds (\S+) \([\d.]+% [A-Za-z0-9]+(?:, [\d.]+% [A-Za-z0-9]+)*\)`)
)

// contents is for the refusal of a tank of another liquid.
func contents(l *line, before, after *result) {
	if l.command == "each" && rawVerbs.MatchString(before.stdout) {
		before.stdout = rawVerbs.ReplaceAllString(before.stdout, "says it holds $1 (#)")
		after.stdout = holds.ReplaceAllString(after.stdout, "says it holds $1 (#)")
	}
}

var escaped = regexp.MustCompile(`\\u[0-9a-f]{4}|\\x[0-9a-f]{2}`)

// quotedName is for a file of a name that a terminal cannot show.
func quotedName(l *line, before, after *result) {
	if strings.Contains(before.stderr, "\uFFFD") {
		after.stderr = escaped.ReplaceAllString(after.stderr, "\uFFFD")
	}
	if l.command == "each" && strings.Contains(before.stdout, "\uFFFD") {
		after.stdout = escaped.ReplaceAllString(after.stdout, "\uFFFD")
		before.stdout = escaped.ReplaceAllString(before.stdout, "\uFFFD")
	}
}

// parsedSwitch is how a cell of a flag without a value was refused.
var parsedSwitch = regexp.MustCompile(`strconv\.ParseBool: parsing ""[^,]*"": invalid syntax`)

// switchWords is for a cell of a flag that takes no value.
func switchWords(l *line, before, after *result) {
	if l.command == "each" && strings.Contains(after.stdout, "takes no value") {
		before.stdout = parsedSwitch.ReplaceAllString(before.stdout, "takes no value")
	}
}

// waterSteps is for the working of a correction with water.
func waterSteps(_ *line, before, after *result) {
	if strings.Contains(before.stdout, "Brine on target that this salt makes") && strings.Contains(after.stdout, "weight x (strength - target) / target") {
		before.stdout, after.stdout = withoutWorking(before.stdout), withoutWorking(after.stdout)
	}
}

// stepDigits is how far, in parts of a number, the last digit of a step may move.
const stepDigits = 5e-4

// workingDigits is for steps that say the same with other last digits.
func workingDigits(_ *line, before, after *result) {
	b, a := withoutWorking(before.stdout), withoutWorking(after.stdout)
	if (outputDifference(b, a) == "" || nearly(b, a, closeEnough)) && nearly(before.stdout, after.stdout, stepDigits) {
		before.stdout, after.stdout = b, a
	}
}

// figureDigits is for the figures of CSV, which are those of JSON.
func figureDigits(l *line, before, after *result) {
	if l.command != "each" && l.format() != "csv" {
		return
	}
	b, a := strings.Split(before.stdout, "\n"), strings.Split(after.stdout, "\n")
	if len(b) != len(a) {
		return
	}
	for i := range b {
		if nearly(b[i], a[i], closeEnough) {
			b[i] = a[i]
		}
	}
	before.stdout = strings.Join(b, "\n")
}

// settled is how far, in parts of a number, a batch of old was from where its balance settles:
// with a large heel four rounds were too few.
const settled = 1e-7

// batchDigits is for a batch, its rows in each and the row that it records.
func batchDigits(l *line, before, after *result) {
	if l.command != "batch" && !(l.command == "each" && slices.Contains(l.words, "batch")) {
		return
	}
	if nearly(before.stdout, after.stdout, settled) {
		before.stdout = after.stdout
	}
	nearRows(before, after, settled)
}

// rowDigits is for the twelve digits of a number in a row that a command records.
func rowDigits(_ *line, before, after *result) { nearRows(before, after, closeEnough) }

// nearRows takes files for the same whose numbers are within this part of each other.
func nearRows(before, after *result, part float64) {
	before.files = maps.Clone(before.files)
	for path, text := range after.files {
		if nearly(before.files[path], text, part) {
			before.files[path] = text
		}
	}
}

// nearly tells whether two texts are the same but for numbers that are within this part of
// each other.
func nearly(one, other string, part float64) bool {
	ones, others := numberInText.FindAllString(one, -1), numberInText.FindAllString(other, -1)
	if len(ones) != len(others) || numberInText.ReplaceAllString(one, "#") != numberInText.ReplaceAllString(other, "#") {
		return false
	}
	for i := range ones {
		x, _ := strconv.ParseFloat(ones[i], 64)
		y, _ := strconv.ParseFloat(others[i], 64)
		if off := math.Abs(x - y); off > closeFloor && off > part*max(math.Abs(x), math.Abs(y)) {
			return false
		}
	}
	return true
}

// masks put something in the place of what a pattern finds.
type masks []struct {
	pattern *regexp.Regexp
	with    string
}

func (m masks) over(text string) string {
	for _, mask := range m {
		text = mask.pattern.ReplaceAllString(text, mask.with)
	}
	return text
}
