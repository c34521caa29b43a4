package cli

import (
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

func timeValue(at quantity.Duration, clock bool) report.Value {
	return report.Number(float64(at/quantity.Minute), "min", clockText(at, clock))
}
