package drill

import (
	"math"

	"brineyard/internal/quantity"
)

// Closing is a step from the calculator's figures to the answer of a problem.
type Closing struct {
	What, Formula string
	Numbers       string // with a {} for each of Args
	Args          []quantity.Quantity
	Result        quantity.Quantity
}

// lastLoad leads to the last load of a haul.
func (h haul) lastLoad() []Closing {
	load := h.result.Load
	full := math.Ceil(float64(h.request.Haul/load.Volume)-1e-9) - 1
	return []Closing{{
		"Last load", "haul - full loads x load", "{} - {} x {}",
		[]quantity.Quantity{h.request.Haul, quantity.Count(full), load.Volume}, load.LastOne,
	}}
}

// stillToCome leads to the salt that is still to come after a bucket.
func (h heel) stillToCome() []Closing {
	return []Closing{{
		"Salt still to come", "salt to load - bucket", "{} - {}",
		[]quantity.Quantity{h.result.SaltToUse, h.bucket}, h.result.SaltToUse - h.bucket,
	}}
}

// saltIn leads to the salt that is dissolved in a volume of brine.
func saltIn(v quantity.Volume, rho quantity.Density, s quantity.Strength) []Closing {
	return []Closing{{
		"Salt dissolved in it", "volume x density x strength", "{} x {} x {}",
		[]quantity.Quantity{v, rho, s}, v.Mass(rho).Times(s),
	}}
}

// partOf leads to the volume of stock brine, or of water, in a volume of weaker brine.
func partOf(volume quantity.Volume, rho quantity.Density, wanted, stock quantity.Strength, own quantity.Density, water bool) []Closing {
	part := Closing{"Brine in it, by weight", "wanted / stock", "{} / {}", []quantity.Quantity{wanted, stock}, quantity.Fraction(wanted / stock)}
	name, share := "Brine", float64(wanted/stock)
	if water {
		share, name = 1-share, "Water"
		part.What, part.Formula, part.Numbers, part.Result = "Water in it, by weight", "1 - wanted / stock", "1 - {} / {}", quantity.Fraction(share)
	}
	whole := volume.Mass(rho)
	return []Closing{
		part,
		{"Weight of what is wanted", "volume x density", "{} x {}", []quantity.Quantity{volume, rho}, whole},
		{name + " to take", "weight x share / its density", "{} x {} / {}",
			[]quantity.Quantity{whole, quantity.Fraction(share), own}, quantity.Mass(float64(whole) * share).Volume(own)},
	}
}
