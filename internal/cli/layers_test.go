package cli

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// allowedImports says which of the project's packages each may use, and core
// whether it must do without files, flags and TOML.
var allowedImports = map[string]struct {
	uses string
	core bool
}{
	"quantity": {"", true},
	"root":     {"", true},
	"solution": {"root", true},
	"gauge":    {"root solution quantity", true},
	"brine":    {"root gauge solution quantity", true},
	"chart":    {"", true},
	"picture":  {"chart", false},
	"report":   {"chart", false},
	"yard":     {"root brine gauge solution quantity", false},
	"journal":  {"quantity", false},
	"season":   {"journal root brine gauge solution quantity", false},
	"drill":    {"root brine gauge solution quantity", true},
}

// Imports point one way, and the core stays clear of the outside world.
func TestLayers(t *testing.T) {
	for name, want := range allowedImports {
		out, err := exec.Command("go", "list", "-deps", "brineyard/internal/"+name).Output()
		require.NoError(t, err)
		for _, dep := range strings.Fields(string(out)) {
			if ours, found := strings.CutPrefix(dep, "brineyard/internal/"); found && ours != name {
				require.Contains(t, strings.Fields(want.uses), ours, "%s uses %s", name, ours)
			}
			if want.core {
				for _, far := range []string{"github.com/spf13/cobra", "github.com/BurntSushi/toml", "net", "flag"} {
					require.NotEqual(t, far, dep, "%s uses %s", name, far)
				}
			}
		}
	}
}
