package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"
)

// count is how the lines of a command went.
type count struct {
	lines, answered, refused, meant, differ int
}

func (c *count) add(o outcome) {
	c.lines++
	if o.answered {
		c.answered++
	} else {
		c.refused++
	}
	switch {
	case len(o.differences) > 0:
		c.differ++
	case len(o.meant) > 0:
		c.meant++
	}
}

// show prints the first differences, what was meant, and how the lines are spread. It
// tells whether the programs are the same.
func show(w io.Writer, outcomes []outcome, first int) bool {
	shown := 0
	for _, o := range outcomes {
		if len(o.differences) > 0 && shown < first {
			shown++
			showDifference(w, o)
		}
	}
	all, byCommand, meant := count{}, map[string]*count{}, map[string]int{}
	for _, o := range outcomes {
		c := byCommand[o.line.command]
		if c == nil {
			c = &count{}
			byCommand[o.line.command] = c
		}
		c.add(o)
		all.add(o)
		for _, name := range o.meant {
			meant[name]++
		}
	}
	showMeant(w, meant)
	showCounts(w, byCommand, all)
	if all.differ > 0 {
		fmt.Fprintf(w, "\n%d of %d lines differ; %d of them are shown above. -line with a number runs one alone.\n", all.differ, all.lines, shown)
	} else {
		fmt.Fprintf(w, "\nThe programs are the same in %d lines.\n", all.lines)
	}
	return all.differ == 0
}

// showDifference prints a line that differs.
func showDifference(w io.Writer, o outcome) {
	fmt.Fprintf(w, "line %d: %s\n  in %s\n", o.line.number, clipped(o.line.String()), o.folder)
	for _, d := range o.differences {
		fmt.Fprintf(w, "  %s\n    %s\n", d.where, strings.ReplaceAll(d.how, "\n", "\n    "))
	}
	fmt.Fprintln(w)
}

// showMeant prints the expected differences that came up.
func showMeant(w io.Writer, meant map[string]int) {
	for _, e := range expectations() {
		if n := meant[e.name]; n > 0 {
			fmt.Fprintf(w, "Expected in %d lines, %s: %s.\n", n, e.name, e.why)
		}
	}
}

// showCounts prints how the lines are spread.
func showCounts(w io.Writer, byCommand map[string]*count, all count) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "command\tlines\tanswered\trefused\texpected\tdiffer\t")
	row := func(name string, c count) {
		fmt.Fprintf(t, "%s\t%d\t%d\t%d\t%d\t%d\t\n", name, c.lines, c.answered, c.refused, c.meant, c.differ)
	}
	var names []string
	for name := range byCommand {
		names = append(names, name)
	}
	slices.SortFunc(names, cmp.Compare)
	for _, name := range names {
		row(name, *byCommand[name])
	}
	row("all", all)
	t.Flush()
}
