package cli

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// started are the commands whose time from start to answer is measured.
var started = []string{
	"reading --hydrometer 23.3% --temp 40F",
	"check --tank mixer --hydrometer 23.3% --temp 40F --yard YARD",
	"correct --tank mixer --strength 22% --yard YARD",
	"batch --tank mixer --yard YARD",
	"freeze --nacl 18% --cacl2 7% --at 0F",
	"blend 85:brine@23.3% 15:cal31 --yard YARD",
	"store north 400gal@25% --yard YARD",
	"ready 10:05=12% 10:20=18.5% --temp 45F",
	"truck --truck big-sprayer --liquid brine@23.3% --yard YARD",
	"lineup --from north --to truck-fill --yard YARD",
	"yard show --yard YARD",
	"storm STORM --yard YARD",
	"journal tanks --yard YARD --journal JOURNAL",
	"journal season --yard YARD --journal JOURNAL",
	"card --yard YARD",
	"drill --print 1 --seed 7 --yard YARD",
}

// BenchmarkStartToAnswer runs each command, and an empty Go program in turns with it,
// and reports how many times as long the answer takes.
func BenchmarkStartToAnswer(b *testing.B) {
	dir := b.TempDir()
	empty := filepath.Join(dir, "empty.go")
	require.NoError(b, os.WriteFile(empty, []byte("package main\n\nfunc main() {}\n"), 0o644))
	build(b, filepath.Join(dir, "empty"), empty)
	build(b, filepath.Join(dir, "brineyard"), "brineyard/cmd/brineyard")
	files := strings.NewReplacer("YARD", demoYard, "JOURNAL", "../../testdata/season/thistlewick.csv", "STORM", "../../testdata/storm/first-flake.toml")
	for _, line := range started {
		args := strings.Fields(files.Replace(line))
		b.Run(strings.TrimRight(strings.SplitN(line, "-", 2)[0], " "), func(b *testing.B) {
			var nothing, answer time.Duration
			for b.Loop() {
				nothing += start(b, filepath.Join(dir, "empty"))
				answer += start(b, filepath.Join(dir, "brineyard"), args...)
			}
			b.ReportMetric(float64(answer)/float64(nothing), "x-empty")
		})
	}
}

func build(b *testing.B, output, pkg string) {
	b.Helper()
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", output, pkg)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0") // as make build does: no C library to load
	out, err := cmd.CombinedOutput()
	require.NoError(b, err, "%s", out)
}

func start(b *testing.B, name string, args ...string) time.Duration {
	b.Helper()
	start := time.Now()
	require.NoError(b, exec.Command(name, args...).Run())
	return time.Since(start)
}
