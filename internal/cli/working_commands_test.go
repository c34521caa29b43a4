package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"brineyard/internal/cli/run"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

// linesWithoutWorking are command lines of the commands that have nothing to work out.
var linesWithoutWorking = map[string]string{
	"lineup":                 "lineup --rinse --yard YARD",
	"card":                   "card --sheet freezing",
	"each":                   "each reading FOLDER/samples.csv",
	"journal list":           "journal list --journal FOLDER/journal.csv",
	"journal tanks":          "journal tanks --journal FOLDER/journal.csv --yard YARD",
	"journal verify":         "journal verify --journal FOLDER/journal.csv",
	"journal accept":         "journal accept 14 --journal FOLDER/edited.csv",
	"journal undo":           "journal undo 14 --journal FOLDER/journal.csv",
	"journal import":         "journal import FOLDER/log.csv --map time=Date,note=What,kind==note --journal FOLDER/journal.csv",
	"journal add batch":      "journal add batch --tank mixer --salt 2650lb --water 982gal --journal FOLDER/journal.csv",
	"journal add reading":    "journal add reading --tank mixer --sg 1.178 --temp 12C --journal FOLDER/journal.csv",
	"journal add correction": "journal add correction --tank mixer --water 40gal --journal FOLDER/journal.csv",
	"journal add transfer":   "journal add transfer --from north --to tote --volume 100gal --journal FOLDER/journal.csv",
	"journal add load":       "journal add load --from north --volume 87gal --journal FOLDER/journal.csv",
	"journal add delivery":   "journal add delivery --salt 25ton --journal FOLDER/journal.csv",
	"journal add clean":      "journal add clean --tank mixer --journal FOLDER/journal.csv",
	"journal add count":      "journal add count --tank north --volume 3450gal --journal FOLDER/journal.csv",
	"journal add unload":     "journal add unload --truck big-sprayer --to north --volume 90gal --journal FOLDER/journal.csv",
	"journal add order":      "journal add order --salt 25ton --due 2999-12-20 --journal FOLDER/journal.csv",
	"journal add spill":      "journal add spill --salt 400lb --journal FOLDER/journal.csv",
	"journal add sale":       "journal add sale --salt 400lb --cost 15 --journal FOLDER/journal.csv",
	"journal add loan":       "journal add loan --salt 5ton --journal FOLDER/journal.csv",
	"journal add gift":       "journal add gift --salt 1ton --journal FOLDER/journal.csv",
	"journal add rinse":      "journal add rinse --line suction-header --journal FOLDER/journal.csv",
	"journal add work":       "journal add work --hours 6.5h --journal FOLDER/journal.csv",
	"journal add note":       "journal add note --note dripping --journal FOLDER/journal.csv",
	"yard init":              "yard init FOLDER/new.toml",
	"yard now":               "yard now --yard YARD",
	"yard check":             "yard check --yard YARD",
	"yard draw":              "yard draw --yard YARD",
}

// Every command of the program shows a working that is followed over random requests, or says
// in one line why it has none.
func TestEveryCommandHasAWorkingOrSaysWhyNot(t *testing.T) {
	var all []string
	env := run.System()
	commandPaths(newRoot(&env), "", &all)
	require.Greater(t, len(all), 25)
	var named []string
	for _, c := range workedCommands {
		named = append(named, c.name)
	}
	for name := range linesWithoutWorking {
		named = append(named, name)
	}
	slices.Sort(named)
	slices.Sort(all)
	require.Equal(t, all, named)
	for name, line := range linesWithoutWorking {
		why := whyNoWorking(t, line)
		require.Len(t, why, 1, name)
		require.LessOrEqual(t, len(why[0]), 80, name)
		// A program reads it among the notes, where the answer is in JSON at all.
		status, out, _ := invoke(t, strings.Fields(inFolder(t, line)+" --working --format json")...)
		var d struct{ Notes []string }
		if status == 0 && json.Unmarshal([]byte(out), &d) == nil {
			require.Contains(t, why[0], d.Notes[0], name)
		}
		status, out, errs := invoke(t, strings.Fields(inFolder(t, line))...)
		require.Zero(t, status, name)
		require.NotContains(t, out+errs, "No working", "%s: it was not asked for", name)
	}
}

// commandPaths names the commands that answer, those below others too.
func commandPaths(c *cobra.Command, above string, all *[]string) {
	for _, below := range c.Commands() {
		switch {
		case !below.IsAvailableCommand() || below.Name() == "help":
		case below.HasSubCommands():
			commandPaths(below, above+below.Name()+" ", all)
		default:
			*all = append(*all, above+below.Name())
		}
	}
}

// whyNoWorking are the lines in which a command says that it has no working.
func whyNoWorking(t *testing.T, line string) []string {
	t.Helper()
	status, out, errs := invoke(t, strings.Fields(inFolder(t, line)+" --working")...)
	require.Zero(t, status, "%s: %s", line, errs)
	return slices.DeleteFunc(strings.Split(out+errs, "\n"), func(text string) bool { return !strings.Contains(text, "No working") })
}

// edited is a journal of which somebody changed the row of a number.
func edited(journal string, number int) string {
	row := fmt.Sprintf("\n%d,20", number)
	return strings.Replace(journal, row, strings.Replace(row, ",20", ",19", 1), 1)
}

// inFolder puts a folder with a journal, a log and samples into a command line, and the demo's
// files.
func inFolder(t *testing.T, line string) string {
	t.Helper()
	folder := t.TempDir()
	season, err := os.ReadFile(demoSeason)
	require.NoError(t, err)
	for name, text := range map[string]string{
		"journal.csv": string(season), "edited.csv": edited(string(season), 14), "log.csv": "Date,What\n2026-03-29 05:00,rain\n", "samples.csv": "sg,temp\n1.17,50F\n",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600))
	}
	return strings.Join(demoFields(strings.ReplaceAll(line, "FOLDER", folder)), " ")
}
