package file

import (
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// read turns the tables of a file into a yard, and gathers every fault.
func (r *reader) read(values map[string]any) *yard.Yard {
	root := &table{r: r, value: values}
	y := &yard.Yard{Name: root.text("name"), Units: quantityOf(root, "units", units)}
	y.Target = readTarget(root.sub("target"))
	y.Hydrometer = readHydrometer(root.sub("hydrometer"))
	y.Salt = readSalt(root.sub("salt"))
	y.Supply = readSupply(root.sub("supply"))
	y.Pump = readPump(root.sub("pump"))
	y.Cleaning = readCleaning(root.sub("cleaning"))
	names := names{}
	for _, t := range root.list("liquid") {
		y.Liquids = append(y.Liquids, readLiquid(t, names))
	}
	for _, t := range root.list("blend") {
		y.Blends = append(y.Blends, readBlend(t, names, y)) // liquids and blends share their names
	}
	y.Prices = readPrices(root.sub("prices"))
	names = map[string]bool{}
	for _, t := range root.list("mixing_tank") {
		y.MixingTanks = append(y.MixingTanks, readMixingTank(t, names))
	}
	for _, t := range root.list("storage_tank") {
		y.StorageTanks = append(y.StorageTanks, readStorageTank(t, names, y))
	}
	names = map[string]bool{}
	for _, t := range root.list("truck") {
		y.Trucks = append(y.Trucks, readTruck(t, names))
	}
	names = map[string]bool{}
	for _, t := range root.list("route") {
		y.Routes = append(y.Routes, readRoute(t, names, y))
	}
	y.Plumbing = readPlumbing(root, y)
	root.done()
	return y
}

func units(text string) (quantity.System, bool, error) {
	sys, err := quantity.ParseSystem(text)
	return sys, false, err
}

func readTarget(t *table) yard.Target {
	g := yard.Target{
		Strength: quantityOf(t, "strength", quantity.ParseStrength),
		Low:      quantityOf(t, "low", quantity.ParseStrength),
		High:     quantityOf(t, "high", quantity.ParseStrength),
	}
	if g.Low != nil && g.High != nil && *g.Low > *g.High {
		t.fault("low", "target: low %v is above high %v", show(*g.Low), show(*g.High))
	}
	if g.Strength != nil && (g.Low != nil && *g.Strength < *g.Low || g.High != nil && *g.Strength > *g.High) {
		t.fault("strength", "target: strength %v lies outside the band of low and high", show(*g.Strength))
	}
	t.dissolves("strength", g.Strength)
	t.done()
	return g
}

// dissolves refuses a strength of salt brine above saturation in the warm.
func (t *table) dissolves(key string, s *quantity.Strength) {
	full, _, err := solution.Anchored().Solubility(solution.NaCl, solution.SearchTop)
	if s != nil && err == nil && float64(*s) > full {
		t.fault(key, "%s%s %v is above saturation; allowed: up to %v", t.label(), key, show(*s), show(quantity.Strength(full)))
	}
}

func readHydrometer(t *table) yard.Hydrometer {
	h := yard.Hydrometer{Calibration: quantityOf(t, "calibration", quantity.ParseTemperature)}
	t.done()
	return h
}

func readSalt(t *table) yard.Salt {
	s := yard.Salt{
		Purity:   quantityOf(t, "purity", quantity.ParseStrength),
		Moisture: quantityOf(t, "moisture", quantity.ParseStrength),
		Price:    quantityOf(t, "price", quantity.ParsePricePerMass),
		Bucket:   quantityOf(t, "bucket", quantity.ParseMass),
		Pile:     quantityOf(t, "pile", quantity.ParseMass),
	}
	positive(t, "bucket", s.Bucket)
	if s.Purity != nil && *s.Purity < 0.5 {
		t.fault("purity", "salt: purity %v is of no rock salt; allowed: 50%% to 100%%", show(*s.Purity))
	}
	if s.Moisture != nil && *s.Moisture > 0.2 {
		t.fault("moisture", "salt: moisture %v is of no rock salt; allowed: 0%% to 20%%", show(*s.Moisture))
	}
	t.done()
	return s
}

func readSupply(t *table) yard.Supply {
	s := yard.Supply{
		Flow:        quantityOf(t, "flow", quantity.ParseFlow),
		Temperature: quantityOf(t, "temperature", quantity.ParseTemperature),
	}
	positive(t, "flow", s.Flow)
	if s.Temperature != nil && s.Temperature.Celsius() < 0 {
		t.fault("temperature", "supply: temperature %v: fresh water is ice there; allowed: 32 F and above", show(*s.Temperature))
	}
	t.done()
	return s
}

// names are those given to tanks, or to liquids.
type names map[string]bool

// name reads a name that is to be there, and be the only one.
func (t *table) uniqueName(taken names) string {
	name := t.text("name")
	_, isText := t.value["name"].(string)
	switch {
	case !isText && t.value["name"] != nil:
		return "" // told already
	case strings.TrimSpace(name) == "":
		t.fault("name", "%s: name is missing", t.name)
	case taken[name]:
		t.fault("name", "%s: the name %q is taken", t.name, name)
	}
	taken[name] = true
	return name
}

func readMixingTank(t *table, taken names) yard.MixingTank {
	m := yard.MixingTank{
		Name:          t.uniqueName(taken),
		Capacity:      t.capacity(),
		WorkingVolume: quantityOf(t, "working_volume", quantity.ParseVolume),
		PumpOff:       quantityOf(t, "pump_off", quantity.ParseVolume),
		BedCapacity:   quantityOf(t, "bed_capacity", quantity.ParseMass),
		Bed:           quantityOf(t, "bed", quantity.ParseMass),
		MixTime:       quantityOf(t, "mix_time", quantity.ParseDuration),
	}
	within(t, "working_volume", m.WorkingVolume, "capacity", m.Capacity)
	full, name := m.WorkingVolume, "working_volume"
	if full == nil {
		full, name = m.Capacity, "capacity"
	}
	within(t, "pump_off", m.PumpOff, name, full)
	within(t, "bed", m.Bed, "bed_capacity", m.BedCapacity)
	positive(t, "working_volume", m.WorkingVolume)
	positive(t, "pump_off", m.PumpOff)
	t.done()
	return m
}

func (t *table) capacity() *quantity.Volume {
	c := quantityOf(t, "capacity", quantity.ParseVolume)
	if _, there := t.value["capacity"]; !there {
		t.fault("capacity", "%scapacity is missing", t.label())
	}
	if c != nil && *c == 0 {
		t.fault("capacity", "%scapacity is nothing; allowed: above 0", t.label())
	}
	return c
}

// within reports a quantity above another.
func within[Q interface {
	~float64
	quantity.Quantity
}](t *table, key string, q *Q, limit string, most *Q) {
	if q != nil && most != nil && *q > *most {
		t.fault(key, "%s%s %v is above %s %v", t.label(), key, show(*q), limit, show(*most))
	}
}

func readStorageTank(t *table, taken names, y *yard.Yard) yard.StorageTank {
	s := yard.StorageTank{
		Name:       t.uniqueName(taken),
		Capacity:   t.capacity(),
		DeadVolume: quantityOf(t, "dead_volume", quantity.ParseVolume),
		Contents:   quantityOf(t, "contents", quantity.ParseVolume),
		Strength:   quantityOf(t, "strength", quantity.ParseStrength),
		Liquid:     t.text("liquid"),
	}
	within(t, "dead_volume", s.DeadVolume, "capacity", s.Capacity)
	within(t, "contents", s.Contents, "capacity", s.Capacity)
	t.dissolves("strength", s.Strength)
	if _, known := y.Liquid(s.Liquid); s.Liquid != "" && !known {
		t.fault("liquid", "%sno liquid is named %q", t.label(), s.Liquid)
	}
	if s.Liquid != "" && s.Strength != nil {
		t.fault("liquid", "%sliquid and strength are two contents; allowed: one of them", t.label())
	}
	t.done()
	return s
}

func readLiquid(t *table, taken names) yard.Liquid {
	l := yard.Liquid{
		Name:  t.uniqueName(taken),
		NaCl:  quantityOf(t, "nacl", quantity.ParseStrength),
		KCl:   quantityOf(t, "kcl", quantity.ParseStrength),
		CaCl2: quantityOf(t, "cacl2", quantity.ParseStrength),
		MgCl2: quantityOf(t, "mgcl2", quantity.ParseStrength),
		Price: quantityOf(t, "price", quantity.ParsePricePerVolume),

		OnHand: quantityOf(t, "on_hand", quantity.ParseVolume),
	}
	l.Product = readProduct(t)
	salts := l.NaCl != nil || l.KCl != nil || l.CaCl2 != nil || l.MgCl2 != nil
	switch {
	case reserved[l.Name]:
		t.fault("name", "liquid: %q is a built-in liquid; allowed: another name", l.Name)
	case salts && l.Product != nil:
		t.fault("freezing", "%sa freezing table and salts are two descriptions; allowed: one of them", t.label())
	case !salts && l.Product == nil:
		t.fault("name", "%swhat it holds is missing; allowed: nacl, kcl, cacl2, mgcl2, or solute, density and freezing", t.label())
	case salts:
		if err := l.Liquid().Composition.Check(); err != nil {
			t.fault("name", "%smore is dissolved than there can be; allowed: 50%% in all", t.label())
		}
	}
	t.done()
	return l
}

// reserved are the names of the built-in liquids.
var reserved = map[string]bool{"brine": true, "nacl": true, "kcl": true, "cacl2": true, "mgcl2": true, "water": true}

// readProduct reads what a data sheet tells; nil when there is none.
func readProduct(t *table) *solution.Product {
	solute := quantityOf(t, "solute", quantity.ParseStrength)
	density := quantityOf(t, "density", quantity.ParseDensity)
	rows := t.freezing()
	if solute == nil && density == nil && rows == nil {
		return nil
	}
	if solute == nil || density == nil || len(rows) == 0 {
		for _, key := range []string{"solute", "density", "freezing"} {
			if _, given := t.value[key]; !given {
				t.fault(key, "%s%s is missing; a product takes solute, density and freezing", t.label(), key)
			}
		}
		return &solution.Product{}
	}
	p := &solution.Product{Solute: float64(*solute), Density: float64(*density), Freezing: rows}
	if err := p.Check(); err != nil {
		t.fault("freezing", "%s%v", t.label(), err)
	}
	return p
}

// freezing reads a list of pairs of strength and temperature.
func (t *table) freezing() []solution.FreezingPoint {
	v, ok := t.take("freezing")
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok {
		t.fault("freezing", "%sfreezing takes a list of pairs, like [[\"10%%\", \"-5C\"], [\"20%%\", \"-12C\"]]", t.label())
		return nil
	}
	if len(list) == 0 {
		t.fault("freezing", "%sfreezing is empty; allowed: pairs of strength and temperature", t.label())
	}
	rows := []solution.FreezingPoint{}
	for i, e := range list {
		pair, ok := e.([]any)
		if !ok || len(pair) != 2 {
			t.fault("freezing", "%srow %d of freezing is no pair of strength and temperature", t.label(), i+1)
			continue
		}
		first, ok1 := scalar(pair[0])
		second, ok2 := scalar(pair[1])
		s, _, err1 := quantity.ParseStrength(first)
		c, _, err2 := quantity.ParseTemperature(second)
		switch {
		case !ok1 || err1 != nil:
			t.fault("freezing", "%srow %d of freezing: strength %q: %v", t.label(), i+1, first, err1)
		case !ok2 || err2 != nil:
			t.fault("freezing", "%srow %d of freezing: temperature %q: %v", t.label(), i+1, second, err2)
		default:
			rows = append(rows, solution.FreezingPoint{Solute: float64(s), Temperature: float64(c)})
		}
	}
	return rows
}
