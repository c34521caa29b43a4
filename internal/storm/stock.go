package storm

import (
	"slices"
	"sort"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// stormYard is the yard while the plan is made: what stands where, by mass.
type stormYard struct {
	r       Request
	tanks   []*tankState
	others  map[string]*otherState
	blends  map[string]yard.Blend
	density quantity.Density // of brine on target
	lines   []SupplyLine
	// outOfBand counts brine tanks that are not used until they are corrected.
	outOfBand int

	start, made, loaded Ledger
	extra               map[string]quantity.Volume // of liquids other than brine, loaded
}

// Ledger is kg of liquid, of NaCl in it and of chloride.
type Ledger struct{ Mass, Salt, Chloride float64 }

func (l *Ledger) add(o Ledger, sign float64) {
	l.Mass += sign * o.Mass
	l.Salt += sign * o.Salt
	l.Chloride += sign * o.Chloride
}

// tankState is a tank of salt brine in the band.
type tankState struct {
	tank  yard.Tank
	brine Ledger
}

// volume of what is in it.
func (t *tankState) volume(at quantity.Temperature) quantity.Volume {
	if t.brine.Mass == 0 {
		return 0
	}
	return quantity.Mass(t.brine.Mass).Volume(balance.BrineDensity(quantity.Strength(t.brine.Salt/t.brine.Mass), at))
}

// otherState is a liquid that is not made in the yard.
type otherState struct {
	liquid balance.Liquid
	left   quantity.Volume
	price  *quantity.PricePerVolume
}

// SupplyLine is what stands in a tank or on hand.
type SupplyLine struct {
	Where    string
	Liquid   string
	Usable   quantity.Volume
	Strength quantity.Strength // of salt brine; 0 for others
	// First is what forms first in it on cooling, and Clear is false where it has formed
	// at the storm's low.
	First solution.Onset
	Clear bool
	// Fix brings salt brine out of the band back to target; nil for what needs
	// none. Until then it is not counted.
	Fix *brine.Correction
}

// newStormYard takes stock.
func newStormYard(r Request) (*stormYard, error) {
	y := &stormYard{r: r, others: map[string]*otherState{}, blends: map[string]yard.Blend{}, extra: map[string]quantity.Volume{}}
	y.density = balance.BrineDensity(r.Band.Target, r.Temperature)
	for _, b := range r.Blends {
		y.blends[b.Name] = b
	}
	for _, o := range r.Others {
		y.others[o.Name] = &otherState{liquid: o.Liquid, left: o.OnHand, price: o.Price}
		if o.OnHand > 0 {
			y.lines = append(y.lines, SupplyLine{Where: "on hand", Liquid: o.Name, Usable: o.OnHand})
		}
	}
	for _, t := range r.Tanks {
		if err := y.takeStock(t); err != nil {
			return nil, err
		}
	}
	return y, nil
}

// takeStock counts what stands in a tank.
func (y *stormYard) takeStock(t yard.Tank) error {
	usable := max(0, t.Held()-t.DeadVolume)
	strength, plain := t.Holds().Strength()
	if bought := t.LiquidName != "" && t.LiquidName != balance.BrineName; bought || !plain {
		o := y.others[t.LiquidName]
		if o == nil {
			o = &otherState{liquid: t.Holds()}
			y.others[t.LiquidName] = o
		}
		o.left += usable
		y.lines = append(y.lines, SupplyLine{Where: t.Name, Liquid: t.LiquidName, Usable: usable})
		return nil
	}
	state := &tankState{tank: t}
	if t.Held() > 0 {
		held, err := balance.Know(fault.FieldStrength, strength, y.r.Temperature)
		if err != nil {
			return err
		}
		line := SupplyLine{Where: t.Name, Liquid: balance.BrineName, Usable: usable, Strength: strength}
		if y.r.Band.Judge(strength) != yard.MayPump {
			return y.setAside(t, line, held)
		}
		y.lines = append(y.lines, line)
		state.brine = brineLedger(t.Held().Mass(held.Density), strength)
	}
	y.tanks = append(y.tanks, state)
	y.start.add(state.brine, 1)
	return nil
}

// setAside notes a tank out of the band, with what corrects it.
func (y *stormYard) setAside(t yard.Tank, line SupplyLine, held balance.Known) error {
	fix, err := brine.CorrectKnown(brine.CorrectRequest{
		Volume: t.Held(), Target: y.r.Band.Target, Capacity: t.Capacity, RockSalt: y.r.Plant.RockSalt, Instrument: gauge.PercentGlass(),
	}, held)
	line.Fix = &fix
	y.outOfBand++
	y.lines = append(y.lines, line)
	return err
}

// brineLedger is salt brine by mass.
func brineLedger(mass quantity.Mass, s quantity.Strength) Ledger {
	return Ledger{float64(mass), float64(mass.Times(s)), float64(mass) * solution.Brine(float64(s)).Chloride()}
}

// usable is the brine above the dead volumes.
func (y *stormYard) usable() quantity.Volume {
	sum := quantity.Volume(0)
	for _, t := range y.tanks {
		sum += max(0, t.volume(y.r.Temperature)-t.tank.DeadVolume)
	}
	return sum
}

// room is what the brine tanks can still take.
func (y *stormYard) room() quantity.Volume {
	sum := quantity.Volume(0)
	for _, t := range y.tanks {
		sum += max(0, t.tank.Capacity-t.volume(y.r.Temperature))
	}
	return sum
}

// store puts brine on target into the tanks with the most room.
func (y *stormYard) store(v quantity.Volume) {
	order := append([]*tankState(nil), y.tanks...)
	sort.SliceStable(order, func(i, j int) bool {
		return order[i].tank.Capacity-order[i].volume(y.r.Temperature) > order[j].tank.Capacity-order[j].volume(y.r.Temperature)
	})
	for _, t := range order {
		part := min(v, max(0, t.tank.Capacity-t.volume(y.r.Temperature)))
		if part <= 0 {
			continue
		}
		in := brineLedger(part.Mass(y.density), y.r.Band.Target)
		t.brine.add(in, 1)
		y.made.add(in, 1)
		v -= part
	}
}

// hold counts finished brine that stays in a mixing tank as one more tank to load from.
func (y *stormYard) hold(run MixerRun) {
	if run.Holds == 0 {
		return
	}
	in := brineLedger(run.Holds.Mass(y.density), y.r.Band.Target)
	y.made.add(in, 1)
	y.tanks = append(y.tanks, &tankState{tank: yard.Tank{Name: run.Mixer.Name, Capacity: run.Holds}, brine: in})
}

// draw takes brine from the fullest tanks, down to their dead volumes.
func (y *stormYard) draw(v quantity.Volume) {
	order := append([]*tankState(nil), y.tanks...)
	sort.SliceStable(order, func(i, j int) bool { return order[i].volume(y.r.Temperature) > order[j].volume(y.r.Temperature) })
	for _, t := range order {
		have := t.volume(y.r.Temperature)
		part := min(v, max(0, have-t.tank.DeadVolume))
		if part <= 0 {
			continue
		}
		share := float64(part / have)
		out := Ledger{t.brine.Mass * share, t.brine.Salt * share, t.brine.Chloride * share}
		t.brine.add(out, -1)
		y.loaded.add(out, 1)
		v -= part
	}
}

// parts splits a volume of a liquid into brine and another liquid. A blend's parts
// are a little more than the blend, since volumes shrink in mixing.
func (y *stormYard) parts(name string, v quantity.Volume) (ofBrine, other quantity.Volume, which string, err error) {
	b, isBlend := y.blends[name]
	switch {
	case name == balance.BrineName:
		return v, 0, "", nil
	case !isBlend:
		if y.others[name] == nil {
			return 0, 0, "", fault.Input(fault.FieldRoutes, "no liquid is named %v; allowed: %v", fault.Word(name), fault.Word(y.liquidNames()))
		}
		return 0, v, name, nil
	case y.others[b.Additive] == nil:
		return 0, 0, "", fault.Input(fault.FieldRoutes, "the additive %v of blend %v is no liquid of the yard; allowed: %v", fault.Word(b.Additive), fault.Word(name), fault.Word(y.liquidNames()))
	}
	mixed, err := brine.NewBlend(y.blendRequest(b, v))
	if err != nil {
		return 0, 0, "", err
	}
	return mixed.Amounts[0], mixed.Amounts[1], b.Additive, nil
}

// blendRequest is a blend of the yard as a question to NewBlend.
func (y *stormYard) blendRequest(b yard.Blend, v quantity.Volume) brine.BlendRequest {
	return brine.BlendRequest{
		Parts: []brine.Part{
			{Liquid: balance.SaltBrine(y.r.Band.Target), Amount: float64(1 - b.Share)},
			{Liquid: y.others[b.Additive].liquid, Amount: float64(b.Share)},
		},
		Temperature: y.r.Temperature, Volume: v, Instrument: gauge.PercentGlass(),
	}
}

// liquidNames lists what a route can take.
func (y *stormYard) liquidNames() string {
	names := []string{balance.BrineName}
	for n := range y.others {
		names = append(names, n)
	}
	for n := range y.blends {
		names = append(names, n)
	}
	slices.Sort(names)
	return words.Joined(names, "none")
}
