package cli

import (
	"regexp"
	"strings"
	"testing"

	"brineyard/internal/cli/run"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

// tradeTerms are words that everybody at a tank knows, whatever their length: they count as one syllable.
var tradeTerms = func() map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(`hydrometer hydrometers salometer gravity specific temperature density calcium magnesium chloride chlorides
		capacity circulate volume percent gallon gallons additive correction thermometer instrument instruments purity moisture delivery
		operator storage batches water salinity saturated saturation baume yard-file journal pressure nozzles pavement inventory valve valves`) {
		all[w] = true
	}
	return all
}()

var (
	wordInText = regexp.MustCompile(`[A-Za-z][A-Za-z'-]*`)
	vowels     = regexp.MustCompile(`[aeiouy]+`)
	// partOfError ends a part of the one line that an error has: what, where, what is allowed.
	partOfError = regexp.MustCompile(`[.!?:;]\s|[.!?:;]$|\n`)
	sentence    = regexp.MustCompile(`[.!?]\s|[.!?]$|\n`)
)

// syllables counts those of an English word, near enough: groups of vowels, without a silent e.
func syllables(word string) int {
	word = strings.ToLower(strings.Trim(word, "'-"))
	if tradeTerms[word] || len(word) <= 3 {
		return 1
	}
	trimmed := word
	if strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") {
		trimmed = word[:len(word)-1]
	} else if strings.HasSuffix(word, "es") || strings.HasSuffix(word, "ed") && !strings.HasSuffix(word, "ted") && !strings.HasSuffix(word, "ded") {
		trimmed = word[:len(word)-2]
	}
	return max(1, len(vowels.FindAllString(trimmed, -1)))
}

// grade is that of Flesch and Kincaid (1975): 0.39 words a sentence + 11.8 syllables a word - 15.59. A number or a flag counts as
// a word of one syllable; what stands on a line of its own, like a figure, as a sentence.
func grade(text string) float64 { return gradeBy(sentence, text) }

func gradeBy(end *regexp.Regexp, text string) float64 {
	words, syllable := 0, 0
	for _, field := range strings.Fields(text) {
		found := wordInText.FindAllString(field, -1)
		if len(found) == 0 || strings.HasPrefix(field, "--") || strings.ContainsAny(field, "0123456789") {
			words, syllable = words+1, syllable+1
			continue
		}
		for _, w := range found {
			words++
			syllable += syllables(w)
		}
	}
	sentences := 0
	for _, part := range end.Split(text, -1) {
		if strings.TrimSpace(part) != "" {
			sentences++
		}
	}
	return 0.39*float64(words)/float64(max(1, sentences)) + 11.8*float64(syllable)/float64(max(1, words)) - 15.59
}

// unwrapped joins the lines of a paragraph, and leaves a figure on its own.
func unwrapped(screen string) string {
	var out []string
	for _, line := range strings.Split(screen, "\n") {
		starts := len(out) == 0 || strings.HasPrefix(line, "  ") && !strings.HasPrefix(line, "      ") || line == "" || regexp.MustCompile(`^[A-Z][a-z]+: `).MatchString(line) || out[len(out)-1] == ""
		if starts {
			out = append(out, line)
			continue
		}
		out[len(out)-1] += " " + strings.TrimSpace(line)
	}
	return strings.Join(out, "\n")
}

// prose leaves out figures, tables and the lines of drawings, which are no sentences.
func prose(screen string) string {
	var lines []string
	for _, l := range strings.Split(unwrapped(screen), "\n") {
		if !strings.HasPrefix(l, "  ") {
			lines = append(lines, l)
		}
	}
	return strings.Join(lines, "\n")
}

// What a foreman reads at five in the morning is written for the sixth grade, figures left aside; help for the eighth, in
// sentences of at most fifteen words.
func TestGrades(t *testing.T) {
	for _, line := range screens {
		require.Less(t, grade(prose(answer(t, demoFields(line+" --yard YARD")...))), 6.0, line)
	}
	for _, s := range slips {
		if status, _, errs := invoke(t, lineFields(s.line)...); status == 2 {
			require.Less(t, gradeBy(partOfError, errs), 6.0, errs)
		}
	}
	env := run.System()
	everyCommand(newRoot(&env), func(c *cobra.Command) {
		help := strings.Join(strings.Fields(c.Long), " ")
		require.Less(t, grade(help), 8.0, "%s: %s", c.CommandPath(), help)
		for _, part := range sentence.Split(help, -1) {
			lists := strings.Contains(part, "Topics are") || strings.Contains(part, "Commands:")
			require.True(t, lists || len(strings.Fields(part)) <= 15, "%s: %s", c.CommandPath(), part)
		}
	})
}
