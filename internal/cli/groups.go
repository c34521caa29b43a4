// Package cli is the command line: the root with its groups of commands, its errors and
// statuses, each, and completion.
package cli

import (
	"slices"

	"brineyard/internal/cli/cold"
	"brineyard/internal/cli/learn"
	"brineyard/internal/cli/move"
	"brineyard/internal/cli/plan"
	"brineyard/internal/cli/records"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/tank"
)

// group is a part of the help screen, and the folder that its commands stand in.
type group struct {
	folder, title string
	commands      []run.Command
}

// groups are all commands that there are but each, in the order of the help screen.
func groups() []group {
	return []group{
		{"tank", "At the tank", tank.Commands()},
		{"cold", "In the cold", cold.Commands()},
		{"move", "Moving and loading", move.Commands()},
		{"plan", "Before the storm", plan.Commands()},
		{recordsGroup, "Records", records.Commands()},
		{"learn", "Learning", learn.Commands()},
	}
}

// recordsGroup is the one that each is listed in: it stands here, as it asks commands of all
// groups.
const recordsGroup = "records"

// allGroups are the groups, each included.
func allGroups() []group {
	all := groups()
	for i := range all {
		if all[i].folder == recordsGroup {
			all[i].commands = append(slices.Clone(all[i].commands), eachCommand())
		}
	}
	return all
}

// questions are those that each can ask, by the names of their commands.
func questions() map[string]func() run.Question {
	all := map[string]func() run.Question{}
	for _, g := range groups() {
		for _, c := range g.commands {
			if c.Rows {
				all[c.Name()] = c.New
			}
		}
	}
	return all
}
