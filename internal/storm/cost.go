package storm

import (
	"math"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// Cost is what the storm costs and lays down. A part is nil where a price is
// not known; Total sums those that are.
type Cost struct {
	Salt, Water, Additive, Labour, Driving *quantity.Money
	Total                                  quantity.Money
	Missing                                bool // a price is not known
	Priced                                 bool // one at least is known of what was used
	PerVolume                              *quantity.PricePerVolume
	PerLane                                *quantity.PricePerLength // a pass
	PerRoad                                *quantity.PricePerLength // of a lane as it is, in all passes
	Lanes                                  quantity.Length          // served, all passes
	Road                                   quantity.Length          // lanes as they are, as far as they are served
	Chloride                               quantity.Mass
	ChloridePerLane                        quantity.MassPerLength // a pass
	ChloridePerRoad                        quantity.MassPerLength // of a lane as it is, in all passes
	ChloridePerArea                        float64                // kg/m2, on lanes of 12 feet
	// DrySalt is the same lanes with dry salt at the rate given, with its chloride;
	// nil without rate or price.
	DrySalt         *quantity.Money
	DrySaltChloride quantity.Mass
}

// cost prices what is loaded: brine at what it takes to make it, whenever it was
// made.
func (y *stormYard) cost(p *Plan) error {
	const waterDensity = 1000 // kg/m3, near enough for its price
	c, price, rock := &p.Cost, y.r.Prices, y.r.Pile.Quality
	c.Salt = bill(price.Salt, y.loaded.NaCl/rock.SodiumChloride()+float64(p.DrySalt))
	c.Water = bill(price.Water, y.loaded.Water/waterDensity)
	c.Labour = bill(price.Labour, float64(p.Production.DoneAt-y.r.Now+p.Loading.OnTheRoad))
	c.Driving = bill(price.Driving, float64(p.Loading.Driven))
	c.Additive = new(quantity.Money(0))
	c.Chloride = quantity.Mass(y.loaded.Chloride()) + chlorideOf(p.DrySalt, rock)
	for _, l := range p.Liquids {
		o := y.bought(l.Name)
		rho, err := o.liquid.Density(y.r.Temperature)
		if err != nil {
			return err
		}
		c.Chloride += quantity.Mass(float64(o.loaded.Mass(rho)) * o.liquid.Composition.Chloride())
		c.Additive = sum(c.Additive, bill(o.price, float64(o.loaded)))
	}
	for _, part := range []*quantity.Money{c.Salt, c.Water, c.Additive, c.Labour, c.Driving} {
		if part == nil {
			c.Missing = true
			continue
		}
		c.Total += *part
		c.Priced = c.Priced || part != c.Additive || *part > 0
	}
	c.perUnit(p, y.r)
	return nil
}

// perUnit spreads cost and chloride over what is served.
func (c *Cost) perUnit(p *Plan, r Request) {
	for _, route := range p.Routes {
		if route.Demanded > 0 {
			served := quantity.Length(route.Served / route.Demanded)
			c.Lanes += route.LaneLength * served
			if !route.Again {
				c.Road += route.Route.Length() * served
			}
		}
	}
	if p.Loaded > 0 && c.Priced {
		c.PerVolume = new(quantity.PricePerVolume(float64(c.Total) / float64(p.Loaded)))
	}
	if c.Lanes == 0 || c.Road == 0 {
		return
	}
	if c.Priced {
		c.PerLane = new(quantity.PricePerLength(float64(c.Total) / float64(c.Lanes)))
		c.PerRoad = new(quantity.PricePerLength(float64(c.Total) / float64(c.Road)))
	}
	c.ChloridePerRoad = quantity.MassPerLength(float64(c.Chloride) / float64(c.Road))
	c.ChloridePerLane = quantity.MassPerLength(float64(c.Chloride) / float64(c.Lanes))
	c.ChloridePerArea = float64(c.ChloridePerLane) / float64(yard.LaneWidth)
	if dry := float64(r.Prices.DrySalt) * float64(c.Lanes); dry > 0 && r.Prices.Salt != nil {
		c.DrySalt = bill(r.Prices.Salt, dry)
		c.DrySaltChloride = chlorideOf(quantity.Mass(dry), r.Pile.Quality)
	}
}

// chlorideOf is the chloride in rock salt as delivered.
func chlorideOf(m quantity.Mass, rock yard.RockSalt) quantity.Mass {
	return quantity.Mass(float64(m) * rock.SodiumChloride() * solution.Brine(1).Chloride())
}

// bill is what an amount costs; nil where the price is not known.
func bill[P ~float64](price *P, amount float64) *quantity.Money {
	if price == nil {
		return nil
	}
	return new(quantity.Money(math.Max(0, float64(*price)*amount)))
}

// sum adds two bills; nil where one of them is not known.
func sum(a, b *quantity.Money) *quantity.Money {
	if a == nil || b == nil {
		return nil
	}
	return new(*a + *b)
}
