package run

import "brineyard/internal/yard/file"

// EachFault is an error that shows all faults of a yard or storm file, a line each.
func EachFault(faults file.Faults) FaultList {
	var list FaultList
	for _, f := range faults {
		list = append(list, f)
	}
	return list
}
