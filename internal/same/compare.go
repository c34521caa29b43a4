package main

import (
	"fmt"
	"maps"
	"slices"
)

// difference is where two results part, and how.
type difference struct{ where, how string }

// compare tells all differences of two results. Streams and files are compared byte for
// byte, but a JSON answer by its values.
func compare(before, after *result) []difference {
	var out []difference
	if before.status != after.status {
		out = append(out, difference{"exit status", fmt.Sprintf("- %d\n+ %d", before.status, after.status)})
	}
	note := func(where, how string) {
		if how != "" {
			out = append(out, difference{where, how})
		}
	}
	note("standard error", textDifference(before.stderr, after.stderr))
	note("standard output", outputDifference(before.stdout, after.stdout))
	names := maps.Clone(before.files)
	maps.Copy(names, after.files)
	for _, name := range slices.Sorted(maps.Keys(names)) {
		b, inBefore := before.files[name]
		a, inAfter := after.files[name]
		switch {
		case !inAfter:
			note("file "+name, "the old program leaves it, the new one does not")
		case !inBefore:
			note("file "+name, "the new program leaves it, the old one does not")
		default:
			note("file "+name, textDifference(b, a))
		}
	}
	return out
}

// outputDifference compares two JSON objects by their values, and other text as it is.
func outputDifference(before, after string) string {
	if before == after {
		return ""
	}
	b, ok1 := jsonObject(before)
	a, ok2 := jsonObject(after)
	if ok1 && ok2 {
		return jsonDifference(b, a)
	}
	return textDifference(before, after)
}
