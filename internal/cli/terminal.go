package cli

import (
	"os"

	tty "golang.org/x/term"
)

// isTerminal tells whether a stream is read by a person as it comes.
func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && tty.IsTerminal(int(f.Fd()))
}
