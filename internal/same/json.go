package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// Numbers of JSON are the same within this part of the larger one, or within the floor.
const (
	closeEnough = 1e-9
	closeFloor  = 1e-12
)

// sameNumber tells whether two numbers are the same but for their last digits.
func sameNumber(a, b float64) bool {
	off := math.Abs(a - b)
	return off <= closeFloor || off <= closeEnough*max(math.Abs(a), math.Abs(b))
}

// jsonObject reads a text that is one JSON object.
func jsonObject(text string) (map[string]any, bool) {
	if !strings.HasPrefix(text, "{") {
		return nil, false
	}
	var o map[string]any
	return o, json.Unmarshal([]byte(text), &o) == nil
}

// mostShown is how many lines of a difference are shown.
const mostShown = 8

// jsonDifference tells where two values part; empty when they do not.
func jsonDifference(before, after any) string {
	var out []string
	walk("", before, after, &out)
	if len(out) > mostShown {
		out = append(out[:mostShown], fmt.Sprintf("  and %d more", len(out)-mostShown))
	}
	return strings.Join(out, "\n")
}

// walk notes the differences of two values and of all below them.
func walk(path string, before, after any, out *[]string) {
	switch b := before.(type) {
	case map[string]any:
		if a, ok := after.(map[string]any); ok {
			walkObject(path, b, a, out)
			return
		}
	case []any:
		if a, ok := after.([]any); ok && len(a) == len(b) {
			for i := range b {
				walk(fmt.Sprintf("%s[%d]", path, i), b[i], a[i], out)
			}
			return
		}
	case float64:
		if a, ok := after.(float64); ok && sameNumber(a, b) {
			return
		}
	default:
		if before == after {
			return
		}
	}
	*out = append(*out, fmt.Sprintf("%s:\n- %s\n+ %s", strings.TrimPrefix(path, "."), asJSON(before), asJSON(after)))
}

// walkObject compares the members of two objects.
func walkObject(path string, before, after map[string]any, out *[]string) {
	all := maps.Clone(before)
	maps.Copy(all, after)
	for _, key := range slices.Sorted(maps.Keys(all)) {
		b, inBefore := before[key]
		a, inAfter := after[key]
		place := path + "." + key
		switch {
		case !inAfter:
			*out = append(*out, "- "+strings.TrimPrefix(place, ".")+": "+asJSON(b))
		case !inBefore:
			*out = append(*out, "+ "+strings.TrimPrefix(place, ".")+": "+asJSON(a))
		default:
			walk(place, b, a, out)
		}
	}
}

// asJSON shows a value on one line.
func asJSON(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		return fmt.Sprint(v)
	}
	return clipped(string(text))
}
