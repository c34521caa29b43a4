package cli

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/derive"
	"brineyard/internal/report"
)

// blendWorking is that of blend.
func blendWorking(s *setting, r brine.BlendRequest, b brine.Blend) []report.Step {
	return derive.Blend(s.view(), r, b)
}
