package drill

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// batch is the balance of a batch on a heel, in any one set of units.
type batch struct {
	volume, density, target       float64
	heel, heelDensity, heelStrong float64
	water                         float64 // density
	purity, moisture              float64
	bucket                        float64 // weight of salt that is in already
}

// sodiumChloride is what the batch lacks of it.
func (b batch) sodiumChloride() float64 {
	return b.volume*b.density*b.target - b.heel*b.heelDensity*b.heelStrong
}

// salt is what is still to be loaded, as delivered.
func (b batch) salt() float64 {
	return b.sodiumChloride()/((1-b.moisture)*b.purity) - b.bucket
}

// freshWater is the volume that is run in.
func (b batch) freshWater() float64 {
	brought := b.heel*b.heelDensity*(1-b.heelStrong) + b.moisture*(b.salt()+b.bucket)
	return (b.volume*b.density*(1-b.target) - brought) / b.water
}

// The quantities that a batch can be asked for.
type batchAsk int

const (
	askSalt batchAsk = iota
	askBucket
	askWater
)

// heel is a batch on what is left in the tank.
type heel struct {
	tank    yard.Tank
	ask     batchAsk
	bucket  quantity.Mass
	request brine.BatchRequest
	result  brine.Batch
	heelRho quantity.Density
}

// batchOnHeel asks for the salt of a batch; from level 2 the heel is weak and the
// salt as delivered, at level 3 a bucket is in already or the water is asked for.
func batchOnHeel(d *draw) (sketch, error) {
	h := heel{tank: oneOf(d, d.Shop.mixers())}
	r := &h.request
	r.Volume, r.Target, r.RockSalt, r.Instrument = d.roundVolume(h.tank.WorkingVolume), d.target(), d.rockSalt(), d.instrument()
	r.WaterTemp = d.outdoors()
	r.HeelTemp, r.HeelStrength = r.WaterTemp, r.Target
	low, high := 0.1, 0.35
	if p := h.tank.PumpOff; p > 0 && p < h.tank.WorkingVolume {
		low = max(low, float64(1-p/h.tank.WorkingVolume))
	}
	r.HeelVolume = d.partly(r.Volume, low, max(high, low+0.1))
	if d.Level > 1 {
		r.HeelStrength = d.strength(max(0.01, r.Target-0.1), max(0.02, r.Target-0.03))
	}
	if d.Level == Highest {
		h.ask = oneOf(d, []batchAsk{askBucket, askWater})
	}
	var err error
	if h.result, err = brine.NewBatch(*r); err != nil {
		return sketch{}, err
	}
	if h.heelRho, err = balance.SaltBrine(r.HeelStrength).Density(r.HeelTemp); err != nil {
		return sketch{}, err
	}
	if h.ask == askBucket {
		// Two buckets or more would be no slip to forget.
		if h.bucket = d.roundMass(d.Shop.Bucket); !(h.bucket > 0 && h.bucket < 0.7*h.result.SaltToUse) {
			return sketch{}, errUnfit
		}
	}
	return h.sketch(d), nil
}

// sketch puts question, answer and mistakes together.
func (h heel) sketch(d *draw) sketch {
	r, b := h.request, h.result
	var out sketch
	out.Question, out.Args = h.question(d.Level)
	out.Working.Batch, out.Working.BatchResult = &h.request, &h.result
	hand := batch{
		volume: d.num(r.Volume), density: d.num(b.BrineDensity), target: d.num(r.Target),
		heel: d.num(r.HeelVolume), heelDensity: d.num(h.heelRho), heelStrong: d.num(r.HeelStrength),
		water: d.num(b.WaterDensity), purity: d.num(r.RockSalt.Purity), moisture: d.num(r.RockSalt.Moisture),
		bucket: d.num(h.bucket),
	}
	if h.ask == askWater {
		out.Answer, out.hand = volumeAnswer(b.Water), hand.freshWater()
		out.Mistakes = h.waterMistakes()
		return out
	}
	out.Answer, out.hand = massAnswer(b.SaltToUse-h.bucket), hand.salt()
	if h.ask == askBucket {
		out.Working.Closing = h.stillToCome()
	}
	out.Mistakes = h.saltMistakes(d.Level)
	return out
}

func (h heel) question(level int) (string, []quantity.Quantity) {
	r, b := h.request, h.result
	text := "A batch of %v of brine of %v is wanted in the tank %v, in which a heel of %v of brine of %v stands. "
	args := []quantity.Quantity{r.Volume, r.Target, Word(h.tank.Name), r.HeelVolume, r.HeelStrength}
	if level == 1 {
		text += "The brine weighs %v, water %v. How much pure, dry salt goes in?"
		return text, append(args, b.BrineDensity, b.WaterDensity)
	}
	text += "Heel and water are at %v. The batch weighs %v, the heel %v, water %v. " +
		"The rock salt holds %v of water as delivered, and the dry salt is %v pure. "
	args = append(args, r.WaterTemp, b.BrineDensity, h.heelRho, b.WaterDensity, r.RockSalt.Moisture, r.RockSalt.Purity)
	switch h.ask {
	case askWater:
		return text + "How much water is run in?", args
	case askBucket:
		return text + "One bucket of %v has been tipped in. How much salt is still to come?", append(args, h.bucket)
	}
	return text + "How much of it goes in?", args
}

// balance is the problem in SI.
func (h heel) balance() batch {
	r, b := h.request, h.result
	return batch{
		volume: float64(r.Volume), density: float64(b.BrineDensity), target: float64(r.Target),
		heel: float64(r.HeelVolume), heelDensity: float64(h.heelRho), heelStrong: float64(r.HeelStrength),
		water: float64(b.WaterDensity), purity: float64(r.RockSalt.Purity), moisture: float64(r.RockSalt.Moisture),
		bucket: float64(h.bucket),
	}
}

// empty is the batch with no heel.
func (b batch) empty() batch {
	b.heel = 0
	return b
}

// thin is the batch with brine weighed as water.
func (b batch) thin() batch {
	b.density, b.heelDensity = b.water, b.water
	return b
}

func (h heel) saltMistakes(level int) []Mistake {
	b := h.balance()
	mass := func(x float64) quantity.Quantity { return quantity.Mass(x) }
	out := []Mistake{noHeel.to(mass(b.empty().salt()))}
	if level > 1 {
		pure, even := b, b
		pure.purity, pure.moisture = 1, 0
		even.heelStrong, even.heelDensity = b.target, b.density
		out = append(out, asPure.to(mass(pure.salt())), heelOnTarget.to(mass(even.salt())))
	}
	if h.ask == askBucket {
		full := b
		full.bucket = 0
		out = append(out, noBucket.to(mass(full.salt())))
	}
	room := (b.volume - b.heel) * b.water // water's weight in the room above the heel
	share := (1 - b.moisture) * b.purity
	return append(out,
		asWater.to(mass(b.thin().salt())),
		ofWater.to(mass(room*b.target/share-b.bucket)),
		onTop.to(mass(room*b.target/(1-b.target)/share-b.bucket)))
}

func (h heel) waterMistakes() []Mistake {
	b := h.balance()
	volume := func(x float64) quantity.Quantity { return quantity.Volume(x) }
	return []Mistake{
		saltRoom.to(volume(b.volume - b.heel)),
		noHeel.to(volume(b.empty().freshWater())),
		asWater.to(volume(b.thin().freshWater())),
	}
}
