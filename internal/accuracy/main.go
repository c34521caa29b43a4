// Command accuracy compares the program with every published table in testdata, and
// fails where a deviation is larger than its bound. It is for make accuracy; its output
// stands in docs/method.md.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

func main() {
	tables := flag.String("tables", filepath.Join("testdata", "published"), "folder of the tables")
	svg := flag.String("svg", "", "write the plot of deviations to this file")
	flag.Parse()
	lines, err := compareAll(*tables)
	if err == nil && *svg != "" {
		err = plot(*tables, *svg)
	}
	if err == nil {
		err = show(os.Stdout, lines)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "accuracy:", err)
		os.Exit(1)
	}
}

// show writes a line for each comparison. Error: a broken bound, after all lines.
func show(w io.Writer, lines []line) error {
	fmt.Fprintf(w, "%-29s %-27s %6s %7s %7s %7s\n%s\n", "Table", "Property", "Values", "Mean", "Worst", "Bound", strings.Repeat("-", 88))
	var broken []string
	for _, l := range lines {
		fmt.Fprintf(w, "%-29s %-27s %6d %7.*f %7.*f %7.*f\n", strings.TrimSuffix(l.table, ".csv"), l.property, l.values, l.decimals, l.mean, l.decimals, l.worst, l.decimals, l.bound)
		if !(l.worst <= l.bound) || l.values == 0 {
			broken = append(broken, l.table+" "+l.property)
		}
	}
	if len(broken) > 0 {
		return fmt.Errorf("out of bounds: %s", strings.Join(broken, ", "))
	}
	return nil
}
