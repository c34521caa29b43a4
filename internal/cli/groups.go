// Package cli is the command line: the root with its groups of commands, its errors and
// statuses, each, and completion.
package cli

import (
	"slices"
	"strings"

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

// groups are all commands that there are, in the order of the help screen. Each is made last
// and listed among the records: it asks commands of all groups.
func groups() []group {
	all := []group{
		{"tank", "At the tank", tank.Commands()},
		{"cold", "In the cold", cold.Commands()},
		{"move", "Moving and loading", move.Commands()},
		{"plan", "Before the storm", plan.Commands()},
		{"records", "Records", records.Commands()},
		{"learn", "Learning", learn.Commands()},
	}
	rows := rowsIn(all)
	for i := range all {
		if all[i].folder == "records" {
			all[i].commands = append(all[i].commands, eachCommand(rows))
		}
	}
	return all
}

// askable are the commands that each can ask, by their names.
type askable []run.Command

// rowsIn finds them in groups.
func rowsIn(all []group) askable {
	var rows askable
	for _, g := range all {
		for _, c := range g.commands {
			if c.Rows {
				rows = append(rows, c)
			}
		}
	}
	slices.SortFunc(rows, func(a, b run.Command) int { return strings.Compare(a.Name(), b.Name()) })
	return rows
}

// names lists them.
func (a askable) names() []string {
	var names []string
	for _, c := range a {
		names = append(names, c.Name())
	}
	return names
}

// named finds one; false when there is none of that name.
func (a askable) named(name string) (run.Command, bool) {
	for _, c := range a {
		if c.Name() == name {
			return c, true
		}
	}
	return run.Command{}, false
}
