package storm

import "brineyard/internal/balance"

// Balance is the brine that the yard began with, made, loaded and has left:
// Start + Made = Loaded + Left.
type Balance struct{ Start, Made, Loaded, Left balance.Masses }

func (y *stormYard) balance() Balance {
	b := Balance{Start: y.start, Made: y.made, Loaded: y.loaded}
	for _, tanks := range [][]*vessel{y.tanks, y.held} {
		for _, t := range tanks {
			b.Left = b.Left.Plus(t.Masses())
		}
	}
	return b
}
