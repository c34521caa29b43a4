package state

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Class is how a liquid came to the tanks and the liquids beside them, or how it left; or how
// salt came to the pile or left it.
type Class int

// The classes. What an entry moves between two tanks has none.
const (
	Made        Class = iota // in a batch
	Delivered                // bought
	Outside                  // came with a correction or a load from stock of which nothing was known
	PutIn                    // salt and water of a correction
	Rinsed                   // water that rinsed a line
	Laid                     // on a truck, less what it brought back
	Spilled                  // lost
	Sold                     // for money
	Lent                     // to be given back
	Given                    // away
	Cleaned                  // out of a tank with its sludge
	Found                    // by the count of a vessel of which nothing had told what it held
	Counted                  // what a count found against the entries
	Read                     // what a reading found against the entries
	Mixed                    // became another liquid, or shrank, when liquids were mixed
	Unexplained              // recorded as moved where it cannot have been
	Gone                     // stood in a tank by the entries when a batch was made there
	Classes                  // how many there are
)

// String names the class.
func (c Class) String() string {
	return [Classes]string{
		"made", "delivered", "from outside", "put in", "rinsed", "laid", "spilled", "sold", "lent", "given",
		"cleaned", "found", "counted", "read", "mixed", "unexplained", "taken as gone",
	}[c]
}

// Part is what an entry did to the stock of one liquid. The parts of an entry sum up to the
// change of what stands in the tanks and beside them, by volume of each liquid and by mass.
type Part struct {
	Class  Class
	Liquid string
	Volume quantity.Volume // into the stock; negative for what left
	Masses balance.Masses  // none of Mixed
}

// PileMove is what an entry did to the pile.
type PileMove struct {
	Class   Class         // Made is of salt for batches and corrections
	Mass    quantity.Mass // onto the pile, as delivered; negative for what left
	Salt    yard.RockSalt // that it is of
	Known   bool          // the pile was, before
	Counted bool
}

// Effect is what an entry did.
type Effect struct {
	Parts    []Part
	Pile     PileMove
	Problems []Problem
	LeftOut  bool // the entry makes no sense, and nothing changed
	// Of a batch or a correction, and of a rinse:
	Liquid string          // that was made or corrected
	Volume quantity.Volume // made
	Water  quantity.Volume // fresh water used
	NaCl   quantity.Mass   // that went into the brine as salt
	// Bed is NaCl that salt left on the bed, negative for what came off it, or what a count of a
	// known bed found against that.
	Bed quantity.Mass
	// Moved is what went from one tank to another, and MovedLiquid what it was.
	Moved       quantity.Volume
	MovedLiquid string
	// Used is what was taken of a bought liquid, by its name.
	Used       quantity.Volume
	UsedLiquid string
	// Of a load or an unload:
	Route     string // that the truck was loaded for
	Continues bool   // the row is a further part of a truckload
	Read      *TankReading
}

// reset makes room for the next entry.
func (f *Effect) reset() {
	*f = Effect{Parts: f.Parts[:0], Problems: f.Problems[:0]}
}

// part notes what an entry did to the stock of a liquid.
func (s *State) part(c Class, liquid string, v quantity.Volume, m balance.Masses) {
	s.effect.Parts = append(s.effect.Parts, Part{c, liquid, v, m})
}

// moved is a stock as an entry found it.
type moved struct {
	stock  *Stock
	liquid string
	volume quantity.Volume
}

// touch notes how a stock stands before an entry changes it.
func (s *State) touch(stock *Stock) *Stock {
	for _, m := range s.moved {
		if m.stock == stock {
			return stock
		}
	}
	s.moved = append(s.moved, moved{stock, stock.Liquid.Name, stock.Volume()})
	return stock
}

// drop is a volume that rounding alone can have left, m3.
const drop = 1e-12

// settle says who changed the stocks, and what became of volumes that no part tells: mixing
// gives a liquid another name, and makes it shrink.
func (s *State) settle(e *journal.Entry) {
	parts := s.effect.Parts
	var left [8]Part
	rest := left[:0]
	change := func(liquid string, v quantity.Volume) {
		for i := range rest {
			if rest[i].Liquid == liquid {
				rest[i].Volume += v
				return
			}
		}
		rest = append(rest, Part{Class: Mixed, Liquid: liquid, Volume: v})
	}
	for _, m := range s.moved {
		m.stock.Said.Entry, m.stock.Said.Time = e.Number, e.Time
		change(m.liquid, -m.volume)
		change(m.stock.Liquid.Name, m.stock.Volume())
	}
	for _, p := range parts {
		change(p.Liquid, -p.Volume)
	}
	for _, p := range rest {
		if math.Abs(float64(p.Volume)) > drop {
			s.effect.Parts = append(s.effect.Parts, p)
		}
	}
}

// Into sums up what an entry brought into the tanks and beside them; negative for what left.
func (f *Effect) Into() balance.Masses {
	var m balance.Masses
	for _, p := range f.Parts {
		m = m.Plus(p.Masses)
	}
	return m
}
