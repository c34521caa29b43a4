package cli

import "brineyard/internal/cli/run"

// questions are those that each can ask, by the names of their commands.
func questions() map[string]func() run.Question {
	all := map[string]func() run.Question{}
	for _, c := range grouped() {
		if c.Rows {
			all[c.Name()] = c.New
		}
	}
	return all
}
