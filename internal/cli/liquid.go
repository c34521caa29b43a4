package cli

import (
	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
)

// compositionText lists the salts of a liquid: 18.2% NaCl, 7% CaCl2. It stands in refusals
// too, which are words even where numbers alone are wanted.
func (s *setting) compositionText(l balance.Liquid) string {
	return show.View{System: s.system}.CompositionText(l)
}

// contents names a liquid by its strength, or by what is in it.
func (s *setting) contents(l balance.Liquid) string { return s.view().Contents(l) }
