package cli

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkStartToAnswer runs check on the demo yard, and an empty Go program in
// turns with it, and reports how many times as long the answer takes.
func BenchmarkStartToAnswer(b *testing.B) {
	dir := b.TempDir()
	empty := filepath.Join(dir, "empty.go")
	require.NoError(b, os.WriteFile(empty, []byte("package main\n\nfunc main() {}\n"), 0o644))
	build(b, filepath.Join(dir, "empty"), empty)
	build(b, filepath.Join(dir, "brineyard"), "brineyard/cmd/brineyard")
	yard, err := filepath.Abs(demoYard)
	require.NoError(b, err)

	var nothing, answer time.Duration
	for b.Loop() {
		nothing += run(b, filepath.Join(dir, "empty"))
		answer += run(b, filepath.Join(dir, "brineyard"), "check", "--yard", yard, "--tank", "mixer", "--hydrometer", "23.3%", "--temp", "40F")
	}
	b.ReportMetric(float64(answer)/float64(nothing), "x-empty")
}

func build(b *testing.B, output, pkg string) {
	b.Helper()
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", output, pkg)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0") // as make build does: no C library to load
	out, err := cmd.CombinedOutput()
	require.NoError(b, err, "%s", out)
}

func run(b *testing.B, name string, args ...string) time.Duration {
	b.Helper()
	start := time.Now()
	require.NoError(b, exec.Command(name, args...).Run())
	return time.Since(start)
}
