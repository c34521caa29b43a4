package cli

import (
	"encoding/json"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// layers names every package of the project, lowest first, with the packages of the project
// that it may import: only ones above it in this list.
var layers = []struct {
	name, uses string
	pure       bool // no files, flags or TOML, not even through what it imports
}{
	{"words", "", true},
	{"quantity", "", true},
	{"root", "", true},
	{"fault", "quantity", true},
	{"fault/faulttest", "fault", false},
	{"trial", "", false},
	{"solution", "root", true},
	{"sure", "root", true},
	{"gauge", "quantity solution", true},
	{"balance", "fault gauge quantity solution", true},
	{"hydraulics", "fault quantity root solution", true},
	{"yard", "balance fault gauge hydraulics quantity solution", true},
	{"wild", "balance gauge quantity solution yard", true},
	{"yard/file", "balance gauge hydraulics quantity solution words yard", false},
	{"zone", "words", false},
	{"journal", "quantity words", true},
	{"journal/disk", "journal quantity words", false},
	{"journal/sheet", "journal quantity words", true},
	{"brine", "balance fault gauge quantity root solution sure yard", true},
	{"state", "balance brine gauge journal quantity solution yard", true},
	{"state/statetest", "balance journal quantity solution yard", false},
	{"season", "balance journal quantity state yard", true},
	{"ready", "balance brine fault quantity root yard", true},
	{"level", "balance fault quantity root yard", true},
	{"lineup", "balance fault hydraulics quantity words yard", true},
	{"truck", "balance fault quantity yard", true},
	{"storm", "balance brine fault gauge quantity solution truck words yard", true},
	{"drill", "balance brine fault gauge lineup quantity solution truck words yard", true},
	{"chart", "", true},
	{"picture", "chart", false},
	{"report", "chart", false},
	{"working", "quantity report", false},
	{"cli/show", "balance brine chart gauge journal lineup quantity report solution yard", false},
	{"cli/bind", "balance brine cli/show fault gauge level quantity solution sure words yard", false},
	{"cli/standing", "cli/show quantity report state yard", false},
	{"cli/enter", "cli/bind cli/show journal journal/disk quantity state words yard", false},
	{"cli/derive", "balance brine cli/show gauge level quantity ready report season solution state storm sure truck working yard", false},
	{"cli/run", "balance brine cli/bind cli/enter cli/show fault gauge journal journal/disk quantity report state words yard yard/file zone", false},
	{"cli/tank", "brine cli/bind cli/derive cli/run cli/show fault gauge journal level quantity ready report solution sure words yard", false},
	{"cli/cold", "balance brine cli/bind cli/derive cli/run cli/show cli/standing fault journal quantity report solution words yard", false},
	{"cli/learn", "balance brine chart cli/bind cli/derive cli/run cli/show drill fault gauge level lineup picture quantity report solution truck words working yard", false},
	{"cli/records", "balance brine chart cli/bind cli/derive cli/enter cli/run cli/show cli/standing fault journal journal/disk journal/sheet lineup picture quantity report season solution state words yard yard/file", false},
	{"cli/move", "balance brine cli/bind cli/derive cli/run cli/show fault hydraulics journal lineup quantity report truck words yard", false},
	{"cli/plan", "balance cli/bind cli/derive cli/run cli/show fault lineup quantity report solution storm truck words yard yard/file", false},
	{"cli", "cli/bind cli/cold cli/learn cli/move cli/plan cli/records cli/run cli/tank drill fault report words yard yard/file", false},
	{"accuracy", "balance brine chart cli gauge picture quantity solution yard", false},
	{"release", "", false},
	{"same", "", false},
}

// Imports point one way, every package is listed, and the pure ones stay clear of the
// outside world.
func TestLayers(t *testing.T) {
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports,Deps", "brineyard/...").Output()
	require.NoError(t, err)
	known := map[string]int{}
	for i, l := range layers {
		known["brineyard/internal/"+l.name] = i
	}
	decoder := json.NewDecoder(strings.NewReader(string(out)))
	for decoder.More() {
		var p struct {
			ImportPath    string
			Imports, Deps []string
		}
		require.NoError(t, decoder.Decode(&p))
		if p.ImportPath == "brineyard/cmd/brineyard" {
			continue
		}
		at, listed := known[p.ImportPath]
		require.True(t, listed, "%s is not in the list of layers", p.ImportPath)
		for _, dep := range p.Imports {
			if !strings.HasPrefix(dep, "brineyard/") {
				continue
			}
			name := strings.TrimPrefix(dep, "brineyard/internal/")
			require.Less(t, known[dep], at, "%s imports %s, which does not stand above it", p.ImportPath, dep)
			require.Contains(t, strings.Fields(layers[at].uses), name, "%s imports %s", p.ImportPath, dep)
		}
		for _, far := range []string{"github.com/spf13/cobra", "github.com/BurntSushi/toml", "net", "flag"} {
			require.False(t, layers[at].pure && slices.Contains(p.Deps, far), "%s uses %s", p.ImportPath, far)
		}
	}
}
