package drill

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// batch is the balance of a batch on a heel, in any one set of units.
type batch struct {
	volume, density, target         float64
	heel, heelDensity, heelStrength float64
	water                           float64 // density
	purity, moisture                float64
	bucket                          float64 // weight of salt that is in already
}

// sodiumChloride is the mass of NaCl that the batch lacks.
func (b batch) sodiumChloride() float64 {
	return b.volume*b.density*b.target - b.heel*b.heelDensity*b.heelStrength
}

// salt is the salt still to be loaded, as delivered.
func (b batch) salt() float64 {
	return b.sodiumChloride()/((1-b.moisture)*b.purity) - b.bucket
}

// freshWater is the volume that is run in.
func (b batch) freshWater() float64 {
	brought := b.heel*b.heelDensity*(1-b.heelStrength) + b.moisture*(b.salt()+b.bucket)
	return (b.volume*b.density*(1-b.target) - brought) / b.water
}

// The quantities that a batch can be asked for.
type batchAsk int

const (
	askSalt batchAsk = iota
	askBucket
	askWater
)

// heel is a batch on brine that was left in the tank.
type heel struct {
	tank    yard.Tank
	ask     batchAsk
	bucket  quantity.Mass
	request brine.BatchRequest
	result  brine.Batch
	heelRho quantity.Density
}

// batchOnHeel asks for the salt of a batch. From level 2 the heel is weak and the salt as
// delivered; at level 3 a bucket is in already, or the question asks for the water.
func batchOnHeel(d *draw) (draft, error) {
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
		return draft{}, err
	}
	if h.heelRho, err = balance.SaltBrine(r.HeelStrength).Density(r.HeelTemp); err != nil {
		return draft{}, err
	}
	if h.ask == askBucket {
		// Nobody forgets a bucket that is most of the salt.
		if h.bucket = d.roundMass(d.Shop.Bucket); !(h.bucket > 0 && h.bucket < 0.7*h.result.SaltToUse) {
			return draft{}, errUnfit
		}
	}
	return h.draft(d), nil
}

// draft puts question, answer and mistakes together.
func (h heel) draft(d *draw) draft {
	b := h.result
	var out draft
	out.Question, out.Args = h.question(d.Level)
	out.Working.Batch, out.Working.BatchResult = &h.request, &h.result
	byHand := h.balance(d.num)
	if h.ask == askWater {
		out.Answer, out.byHand = volumeAnswer(b.Water), byHand.freshWater()
		out.Mistakes = h.waterMistakes()
		return out
	}
	out.Answer, out.byHand = massAnswer(b.SaltToUse-h.bucket), byHand.salt()
	if h.ask == askBucket {
		out.Working.Closing = h.stillToCome()
	}
	out.Mistakes = h.saltMistakes(d.Level)
	return out
}

func (h heel) question(level int) (string, []quantity.Quantity) {
	r, b := h.request, h.result
	text := "A batch of %v of brine of %v is wanted in the tank %v, in which a heel of %v of brine of %v stands. "
	args := []quantity.Quantity{r.Volume, r.Target, fault.Word(h.tank.Name), r.HeelVolume, r.HeelStrength}
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

// balance is the problem in the numbers that num makes of its quantities.
func (h heel) balance(num func(quantity.Quantity) float64) batch {
	r, b := h.request, h.result
	return batch{
		volume: num(r.Volume), density: num(b.BrineDensity), target: num(r.Target),
		heel: num(r.HeelVolume), heelDensity: num(h.heelRho), heelStrength: num(r.HeelStrength),
		water: num(b.WaterDensity), purity: num(r.RockSalt.Purity), moisture: num(r.RockSalt.Moisture),
		bucket: num(h.bucket),
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
	b := h.balance(si)
	out := []Mistake{noHeel.to(quantity.Mass(b.empty().salt()))}
	if level > 1 {
		pure, even := b, b
		pure.purity, pure.moisture = 1, 0
		even.heelStrength, even.heelDensity = b.target, b.density
		out = append(out, asPure.to(quantity.Mass(pure.salt())), heelOnTarget.to(quantity.Mass(even.salt())))
	}
	if h.ask == askBucket {
		full := b
		full.bucket = 0
		out = append(out, noBucket.to(quantity.Mass(full.salt())))
	}
	room := (b.volume - b.heel) * b.water // water's weight in the room above the heel
	share := (1 - b.moisture) * b.purity
	return append(out,
		asWater.to(quantity.Mass(b.thin().salt())),
		ofWater.to(quantity.Mass(room*b.target/share-b.bucket)),
		onTop.to(quantity.Mass(room*b.target/(1-b.target)/share-b.bucket)))
}

func (h heel) waterMistakes() []Mistake {
	b := h.balance(si)
	return []Mistake{
		saltRoom.to(quantity.Volume(b.volume - b.heel)),
		noHeel.to(quantity.Volume(b.empty().freshWater())),
		asWater.to(quantity.Volume(b.thin().freshWater())),
	}
}
