package drill

import (
	"fmt"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// blend is two liquids that are mixed.
type blend struct {
	request brine.BlendRequest
	result  brine.Blend
	rho     [2]quantity.Density
	salt    [2]quantity.Strength // NaCl in each
}

// blendOf asks for the NaCl in a mix of volumes: of brine and water, from level 2 of two
// brines or of brine with a liquid that the yard buys. At level 3 it gives the mix, and asks
// for one of its parts.
func blendOf(d *draw) (draft, error) {
	if d.Level == Highest {
		return dilution(d)
	}
	if d.Level == 1 {
		return mixture(d, named{"brine", balance.SaltBrine(d.strength(0.18, 0.25))}, named{"water", balance.SaltBrine(0)})
	}
	first := named{"brine", balance.SaltBrine(d.strength(0.2, 0.25))}
	if len(d.Shop.Liquids) > 0 && d.rng.IntN(2) == 0 {
		l := oneOf(d, d.Shop.Liquids)
		return mixture(d, first, named{l.Name, l.Liquid})
	}
	return mixture(d, first, named{"weak brine", balance.SaltBrine(d.strength(0.02, 0.1))})
}

// newBlend mixes two liquids.
func newBlend(r brine.BlendRequest) (blend, error) {
	b := blend{request: r}
	var err error
	if b.result, err = brine.NewBlend(r); err != nil {
		return blend{}, err
	}
	for i, p := range r.Parts {
		if b.rho[i], err = p.Liquid.Density(r.Temperature); err != nil {
			return blend{}, err
		}
		b.salt[i] = quantity.Strength(p.Liquid.Composition.NaCl)
	}
	return b, nil
}

// named is a liquid by the name that the question gives it.
type named struct {
	name   string
	liquid balance.Liquid
}

// mixture draws two volumes.
func mixture(d *draw, first, second named) (draft, error) {
	largest := 800 * quantity.Gallon
	return mixed(d, first, second, [2]quantity.Volume{d.partly(largest, 0.3, 1), d.partly(largest, 0.1, 0.8)}, d.outdoors())
}

// mixed asks for the NaCl in the mix of two volumes.
func mixed(d *draw, first, second named, v [2]quantity.Volume, t quantity.Temperature) (draft, error) {
	b, err := newBlend(brine.BlendRequest{
		Parts: []brine.Part{
			{Liquid: first.liquid, Amount: float64(v[0])}, {Liquid: second.liquid, Amount: float64(v[1])},
		},
		Temperature: t, Instrument: d.instrument(),
	})
	if err != nil {
		return draft{}, err
	}
	var out draft
	out.Question, out.Args = b.question(v, first.name, second.name)
	out.Answer = strengthAnswer(quantity.Strength(b.result.Liquid.Composition.NaCl))
	out.Working.Blend, out.Working.BlendResult = &b.request, &b.result
	out.byHand = 100 * mean(d.num(v[0])*d.num(b.rho[0]), d.num(b.salt[0]), d.num(v[1])*d.num(b.rho[1]), d.num(b.salt[1]))
	w := [2]float64{float64(b.salt[0]), float64(b.salt[1])}
	strength := func(x float64) quantity.Quantity { return quantity.Strength(x) }
	out.Mistakes = []Mistake{
		byVolume.to(strength(mean(float64(v[0]), w[0], float64(v[1]), w[1]))),
		plainMean.to(strength((w[0] + w[1]) / 2)),
		swapped.to(strength(mean(float64(v[1].Mass(b.rho[0])), w[0], float64(v[0].Mass(b.rho[1])), w[1]))),
		notDiluted.to(b.salt[0]),
	}
	return out, nil
}

// question names the two liquids, and asks for the strength of the mix.
func (b blend) question(v [2]quantity.Volume, first, second string) (string, []quantity.Quantity) {
	text := "%v of %v with %v of salt (NaCl) and %v of %v "
	args := []quantity.Quantity{v[0], fault.Word(first), b.salt[0], v[1], fault.Word(second)}
	if b.salt[1] > 0 {
		text += "with %v of it "
		args = append(args, b.salt[1])
	} else {
		text += "without any "
	}
	text += "are mixed at %v. The one weighs %v, the other %v. What is the strength of the mix in NaCl?"
	return text, append(args, b.request.Temperature, b.rho[0], b.rho[1])
}

// mean is the average of two values by their amounts.
func mean(a, x, b, y float64) float64 { return (a*x + b*y) / (a + b) }

// dilution draws a weaker brine, and which of its parts is asked for.
func dilution(d *draw) (draft, error) {
	stock, wanted := d.strength(0.2, 0.25), d.strength(0.05, 0.12)
	volume := d.partly(1000*quantity.Gallon, 0.2, 1)
	return diluted(d, stock, wanted, volume, d.outdoors(), d.rng.IntN(2))
}

// diluted asks for the brine (which 0), or the water (1), in a volume of weaker brine.
func diluted(d *draw, stock, wanted quantity.Strength, volume quantity.Volume, t quantity.Temperature, which int) (draft, error) {
	share := float64(wanted / stock)
	b, err := newBlend(brine.BlendRequest{
		Parts: []brine.Part{
			{Liquid: balance.SaltBrine(stock), Amount: share}, {Liquid: balance.SaltBrine(0), Amount: 1 - share},
		},
		ByWeight: true, Volume: volume, Temperature: t, Instrument: d.instrument(),
	})
	if err != nil {
		return draft{}, err
	}
	part, share, other := [2]string{"brine", "water"}[which], [2]float64{share, 1 - share}[which], b.rho[1-which]
	var out draft
	out.Question = fmt.Sprintf("%%v of brine of %%v is wanted for rinsing, at %%v, made of brine of %%v and water. "+
		"Brine of %%v weighs %%v, water %%v, and what is wanted %%v. Volumes do not add up exactly. How much %s goes into it?", part)
	out.Args = []quantity.Quantity{volume, wanted, t, stock, stock, b.rho[0], b.rho[1], b.result.Density}
	out.Answer = volumeAnswer(b.result.Amounts[which])
	out.Working.Closing = partOf(volume, b.result.Density, wanted, stock, b.rho[which], which == 1)
	byHand := d.num(wanted) / d.num(stock)
	if which == 1 {
		byHand = 1 - byHand
	}
	out.byHand = d.num(volume) * d.num(b.result.Density) * byHand / d.num(b.rho[which])
	whole := volume.Mass(b.result.Density)
	out.Mistakes = []Mistake{
		byVolume.to(quantity.Volume(float64(volume) * share)),
		otherDensity.to(quantity.Mass(float64(whole) * share).Volume(other)),
		swapped.to(quantity.Mass(float64(whole) * (1 - share)).Volume(b.rho[which])),
	}
	return out, nil
}
