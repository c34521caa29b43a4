package season

import (
	"fmt"
	"math"
	"sort"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// Replay is a yard as the entries so far leave it.
type Replay struct {
	shop  Shop
	tanks map[string]*Tank
	// Pile is rock salt as delivered. It may come out below nothing where deliveries
	// are missing.
	Pile      quantity.Mass
	PileKnown bool // counted or delivered once
	PileCount *PileCount
	Problems  []Problem
}

// Problem is an entry that does not fit what came before it. It is taken as well as it
// goes.
type Problem struct {
	Entry int
	Text  string // a format for Args
	Args  []quantity.Quantity
}

// Flow is what an entry moved across the yard's bounds.
type Flow struct {
	Into   Masses          // the tanks; negative for what left
	Volume quantity.Volume // made, laid or moved
	Liquid string          // laid or delivered
	Salt   quantity.Mass   // used off the pile
	OfSalt float64         // kg of NaCl that it brought into the brine
	Water  quantity.Volume // fresh water used
	// Used is what was taken of a bought liquid, by its name.
	Used       quantity.Volume
	UsedLiquid string
}

// NewReplay is a yard before its first entry: empty tanks, no pile.
func NewReplay(shop Shop) *Replay { return &Replay{shop: shop, tanks: map[string]*Tank{}} }

// Tanks returns the tanks that entries named, in the order of their names.
func (r *Replay) Tanks() []*Tank {
	var all []*Tank
	for _, t := range r.tanks {
		all = append(all, t)
	}
	sort.Slice(all, func(i, j int) bool { return all[i].Name < all[j].Name })
	return all
}

// Apply takes an entry into account. Entries come in the order of their times, those taken
// back left out.
func (r *Replay) Apply(e *journal.Entry) Flow {
	switch e.Kind {
	case journal.Batch:
		return r.batch(e)
	case journal.Correction:
		return r.correct(e)
	case journal.Transfer:
		return r.transfer(e)
	case journal.Load:
		return r.load(e)
	case journal.Delivery:
		return r.deliver(e)
	case journal.Clean:
		return r.clean(e)
	case journal.Count:
		return r.count(e)
	case journal.Reading:
		r.read(e)
	}
	return Flow{}
}

func (r *Replay) tank(name string) *Tank {
	t := r.tanks[name]
	if t == nil {
		t = &Tank{Name: name, Liquid: balance.Liquid{Name: saltBrine}}
		r.tanks[name] = t
	}
	return t
}

func (r *Replay) problem(e *journal.Entry, text string, args ...quantity.Quantity) {
	r.Problems = append(r.Problems, Problem{e.Number, text, args})
}

// heelAtMost is the part of a batch up to which what stood in the tank passes for its heel.
// Common practice, no source.
const heelAtMost = 0.5

// batch takes the tank to what was measured in it, or adds what was put in where
// nothing was measured.
func (r *Replay) batch(e *journal.Entry) Flow {
	t := r.tank(e.Tank)
	if t.First.IsZero() {
		t.First = e.Time
	}
	before, volume := t.Masses(), t.Volume(r.shop.Temperature)
	l, ok := r.shop.liquidOf(e)
	switch {
	case e.Volume != nil && ok:
		r.set(t, l, *e.Volume)
	case e.Salt != nil || e.Water != nil:
		r.addPutIn(t, e)
	default:
		r.problem(e, "a batch without volume and strength, or salt and water: left out")
		return Flow{}
	}
	f := Flow{Into: t.Masses().Plus(before.Times(-1)), Volume: t.Volume(r.shop.Temperature) - volume, Liquid: t.Liquid.Name}
	made := f.Into
	if e.Volume != nil && ok && volume > heelAtMost**e.Volume {
		r.problem(e, t.Name+" still held %v by the entries, too much for a heel: taken as gone, by a transfer or a load that was not recorded", volume)
		made, f.Volume = t.Masses(), t.Volume(r.shop.Temperature)
	}
	f.OfSalt = made.NaCl
	f.Salt = quantity.Mass(max(0, made.NaCl) / r.shop.RockSalt.SodiumChloride())
	if e.Salt != nil {
		f.Salt = *e.Salt
	}
	f.Water = r.freshWater(max(0, made.Water-float64(f.Salt.Times(r.shop.RockSalt.Moisture))))
	if e.Water != nil {
		f.Water = *e.Water
	}
	r.usePile(t, f.Salt)
	t.Made += max(0, f.Volume)
	r.overfull(e, t)
	return f
}

// set makes a tank hold a volume of a liquid.
func (r *Replay) set(t *Tank, l balance.Liquid, v quantity.Volume) {
	if rho, err := l.Density(r.shop.Temperature); err == nil {
		t.Liquid, t.Mass, t.Known = l, float64(v.Mass(rho)), true
	}
}

// freshWater is the volume of kg of it.
func (r *Replay) freshWater(kg float64) quantity.Volume {
	rho, err := water.Density(r.shop.WaterTemp)
	if err != nil {
		return 0
	}
	return quantity.Mass(kg).Volume(rho)
}

// addPutIn adds salt and water to a tank.
func (r *Replay) addPutIn(t *Tank, e *journal.Entry) {
	if e.Salt != nil {
		l, mass := dissolved(*e.Salt, r.shop.RockSalt)
		t.add(l, mass)
	}
	if e.Water != nil {
		if rho, err := water.Density(r.shop.WaterTemp); err == nil {
			t.add(water, float64(e.Water.Mass(rho)))
		}
	}
}

// usePile takes salt off the pile; what of it does not dissolve lies in the tank.
func (r *Replay) usePile(t *Tank, salt quantity.Mass) {
	r.Pile -= salt
	t.Insolubles += quantity.Mass(float64(salt) * r.shop.RockSalt.Insoluble())
}

func (r *Replay) correct(e *journal.Entry) Flow {
	t := r.tank(e.Tank)
	before := t.Masses()
	f := Flow{Liquid: t.Liquid.Name}
	r.addPutIn(t, e)
	if e.Salt != nil {
		f.Salt = *e.Salt
		f.OfSalt = float64(f.Salt) * r.shop.RockSalt.SodiumChloride()
		r.usePile(t, f.Salt)
	}
	if e.Water != nil {
		f.Water = *e.Water
	}
	if e.From == "" && e.Volume != nil {
		r.addOutside(t, e)
		r.used(&f, e.Liquid, *e.Volume)
	}
	f.Into = t.Masses().Plus(before.Times(-1))
	if e.From != "" && e.Volume != nil {
		r.used(&f, r.tank(e.From).Liquid.Name, *e.Volume)
		r.move(e, r.tank(e.From), t)
	}
	r.overfull(e, t)
	return f
}

// addOutside adds a liquid of which no tank of the yard is the source.
func (r *Replay) addOutside(t *Tank, e *journal.Entry) {
	l, ok := r.shop.liquidOf(e)
	rho, err := l.Density(r.shop.Temperature)
	if !ok || err != nil {
		r.problem(e, "a correction with a liquid of which neither the row nor the yard file says what it is: left out")
		return
	}
	t.add(l, float64(e.Volume.Mass(rho)))
}

func (r *Replay) transfer(e *journal.Entry) Flow {
	if e.Volume == nil || e.From == "" || e.Tank == "" {
		r.problem(e, "a transfer without volume or tanks: left out")
		return Flow{}
	}
	f := Flow{Volume: *e.Volume}
	if from, to := r.tank(e.From).Liquid.Name, r.tank(e.Tank); to.Mass > 0 && to.Liquid.Name != from {
		r.used(&f, from, *e.Volume)
	}
	r.move(e, r.tank(e.From), r.tank(e.Tank))
	r.overfull(e, r.tank(e.Tank))
	f.Liquid = r.tank(e.Tank).Liquid.Name
	return f
}

// used notes what is taken of a liquid, if it is one that the yard buys.
func (r *Replay) used(f *Flow, liquid string, v quantity.Volume) {
	if _, known := r.shop.Liquids[liquid]; known && liquid != balance.BrineName && liquid != saltBrine {
		f.Used, f.UsedLiquid = v, liquid
	}
}

// move takes a volume out of one tank into another.
func (r *Replay) move(e *journal.Entry, from, to *Tank) {
	l := from.Liquid
	mass := r.drawn(e, from)
	from.take(mass)
	to.add(l, mass)
}

// drawn is the mass of the volume that an entry takes out of a tank: no more than is
// in it.
func (r *Replay) drawn(e *journal.Entry, from *Tank) float64 {
	have := from.Volume(r.shop.Temperature)
	// Gallons are read to whole ones.
	const slack = 1e-3
	switch {
	case !from.Known:
		r.problem(e, "nothing says what was in "+from.Name+"; a count before it would")
		return 0
	case *e.Volume > have*(1+slack):
		r.problem(e, from.Name+" held %v by the entries, and %v were taken out: only what it held is counted", have, *e.Volume)
		return from.Mass
	case have == 0:
		return 0
	}
	return from.Mass * min(1, float64(*e.Volume/have))
}

func (r *Replay) load(e *journal.Entry) Flow {
	if e.Volume == nil {
		r.problem(e, "a load without a volume: left out")
		return Flow{}
	}
	t := r.tank(e.From)
	f := Flow{Volume: *e.Volume, Liquid: e.Liquid}
	if f.Liquid == "" {
		f.Liquid = t.Liquid.Name
	}
	f.Volume = min(f.Volume, t.Volume(r.shop.Temperature))
	r.used(&f, t.Liquid.Name, f.Volume)
	mass := r.drawn(e, t)
	f.Into = massesOf(t.Liquid, -mass)
	t.take(mass)
	return f
}

func (r *Replay) deliver(e *journal.Entry) Flow {
	if e.Salt != nil {
		r.Pile += *e.Salt
		r.PileKnown = true
		return Flow{}
	}
	l, ok := r.shop.liquidOf(e)
	if e.Volume == nil || !ok {
		r.problem(e, "a delivery of a liquid of which neither the row nor the yard file says what it is: left out")
		return Flow{}
	}
	rho, err := l.Density(r.shop.Temperature)
	if err != nil {
		return Flow{}
	}
	mass := float64(e.Volume.Mass(rho))
	t := r.tank(e.Tank)
	t.add(l, mass)
	r.overfull(e, t)
	return Flow{Into: massesOf(l, mass), Volume: *e.Volume, Liquid: l.Name}
}

// countAllowed is the part of what is in a tank by which a count may differ from the
// entries before it is flagged: a level is read to a mark or two. Common practice, no
// source.
const countAllowed = 0.05

// PileCount is the last count of the pile beside what the entries said then.
type PileCount struct {
	Entry             int
	Counted, Expected quantity.Mass
}

// count takes a tank, or the pile, to what was found.
func (r *Replay) count(e *journal.Entry) Flow {
	if e.Salt != nil && (e.Tank == journal.Pile || e.Tank == "") {
		if r.PileKnown {
			r.PileCount = &PileCount{Entry: e.Number, Counted: *e.Salt, Expected: r.Pile}
		}
		r.Pile, r.PileKnown = *e.Salt, true
		return Flow{}
	}
	if e.Volume == nil {
		r.problem(e, "a count without a volume: left out")
		return Flow{}
	}
	t := r.tank(e.Tank)
	if had := t.Volume(r.shop.Temperature); t.Known && math.Abs(float64(*e.Volume-had)) > countAllowed*float64(max(had, *e.Volume)) {
		r.problem(e, t.Name+" was counted at %v where the entries leave %v: look for what was not recorded", *e.Volume, had)
	}
	before := t.Masses()
	l, ok := r.shop.liquidOf(e)
	switch {
	case ok:
		r.set(t, l, *e.Volume)
	case t.Known && t.Mass > 0 || *e.Volume == 0:
		r.set(t, t.Liquid, *e.Volume)
	default:
		r.problem(e, "a count of "+t.Name+" that does not say what is in it: left out")
	}
	return Flow{Into: t.Masses().Plus(before.Times(-1))}
}

// read compares an instrument with the entries.
func (r *Replay) read(e *journal.Entry) {
	t := r.tank(e.Tank)
	strength, ok := r.strengthRead(e)
	if !ok {
		r.problem(e, "a reading that no salt brine gives: left out")
		return
	}
	expected, plain := t.Liquid.Strength()
	t.Reading = &Seen{Entry: e.Number, Time: e.Time, True: strength, Expected: expected, Comparable: t.Mass > 0 && plain}
	if t.Reading.Drifted() {
		r.problem(e, t.Name+" reads %v true where the entries make it %v", strength, t.Reading.Expected)
	}
}

// strengthRead is the true strength that a row gives, or that its reading means.
func (r *Replay) strengthRead(e *journal.Entry) (quantity.Strength, bool) {
	if e.NaCl != nil {
		return *e.NaCl, true
	}
	scale, known := gauge.ScaleNamed(e.Scale)
	if !known || e.Reading == nil || e.Temp == nil {
		return 0, false
	}
	got, err := brine.Reading(brine.Sample{
		Instrument: gauge.Instrument{Scale: scale, Calibration: float64(r.shop.Calibration)}, Reading: scale.FromRow(*e.Reading), Temperature: *e.Temp,
	})
	return got.True, err == nil
}

// overfull flags a tank that would have run over.
func (r *Replay) overfull(e *journal.Entry, t *Tank) {
	if most, known := r.shop.Capacities[t.Name]; known && most > 0 {
		if v := t.Volume(r.shop.Temperature); v > most*1.001 {
			r.problem(e, t.Name+" would hold %v by the entries, and its capacity is %v", v, most)
		}
	}
}

// String is the problem in US units, for logs of programs.
func (p Problem) String() string {
	return fmt.Sprintf("entry %d: %s", p.Entry, fault.Sentence(p.Text, p.Args, quantity.US))
}
