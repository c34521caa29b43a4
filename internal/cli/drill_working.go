package cli

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/report"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// blendWorking is that of blend.
func blendWorking(s *setting, r brine.BlendRequest, b brine.Blend) []report.Step {
	return derive.Blend(s.view(), r, b)
}

// truckWorking is that of truck.
func truckWorking(s *setting, r truck.Request, out truck.Result) []report.Step {
	return derive.Truck(s.view(), r, out)
}

// judgeDocument says what a setting of valves does.
func (s *setting) judgeDocument(_ yard.Plumbing, setting lineup.Setting) *report.Document {
	d := &report.Document{}
	d.Verdict, d.Notes = show.SettingWords(setting)
	return d
}
