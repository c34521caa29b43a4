package cli

// What often follows an answer, in a line that names the command. With the yard file in
// use the names are the yard's own.

const (
	nextAfterCorrect = "check, once it is mixed and the temperature has settled."
	nextAfterBatch   = "ready, with two or more timed readings, says when it reaches target."
	nextAfterReady   = "check, when it is time to look again."
)
