package file

import (
	"strings"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// read turns the tables of a file into a yard, and gathers every fault.
func (r *reader) read(values map[string]any) *yard.Yard {
	root := &table{r: r, value: values}
	y := &yard.Yard{Name: root.text("name"), Units: quantityOf(root, "units", units)}
	y.Target = readTarget(root.sub("target"))
	y.Calibration = readHydrometer(root.sub("hydrometer"))
	y.Pile, y.Prices.Salt = readSalt(root.sub("salt"))
	y.Supply = readSupply(root.sub("supply"))
	y.Pump = readPump(root.sub("pump"))
	y.CleanEvery = readCleaning(root.sub("cleaning"))
	names := names{}
	for _, t := range root.list("liquid") {
		y.Liquids = append(y.Liquids, readLiquid(t, names))
	}
	for _, t := range root.list("blend") {
		y.Blends = append(y.Blends, readBlend(t, names, y)) // liquids and blends share their names
	}
	readPrices(root.sub("prices"), &y.Prices)
	names = map[string]bool{}
	for _, t := range root.list("mixing_tank") {
		y.Tanks = append(y.Tanks, readMixingTank(t, names))
	}
	for _, t := range root.list("storage_tank") {
		y.Tanks = append(y.Tanks, readStorageTank(t, names, y))
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

func readHydrometer(t *table) quantity.Temperature {
	calibration := quantityOf(t, "calibration", quantity.ParseTemperature)
	t.done()
	return orZero(calibration)
}

func readSalt(t *table) (yard.Pile, *quantity.PricePerMass) {
	purity := quantityOf(t, "purity", quantity.ParseStrength)
	moisture := quantityOf(t, "moisture", quantity.ParseStrength)
	price := quantityOf(t, "price", quantity.ParsePricePerMass)
	bucket := quantityOf(t, "bucket", quantity.ParseMass)
	pile := quantityOf(t, "pile", quantity.ParseMass)
	positive(t, "bucket", bucket)
	if purity != nil && *purity < yard.LeastPurity {
		t.fault("purity", "salt: purity %v is of no rock salt; allowed: 50%% to 100%%", show(*purity))
	}
	if moisture != nil && *moisture > yard.MostMoisture {
		t.fault("moisture", "salt: moisture %v is of no rock salt; allowed: 0%% to 20%%", show(*moisture))
	}
	t.done()
	return yard.Pile{Quality: yard.RockSalt{Purity: orZero(purity), Moisture: orZero(moisture)}, Bucket: orZero(bucket), OnHand: pile}, price
}

func readSupply(t *table) yard.Supply {
	flow := quantityOf(t, "flow", quantity.ParseFlow)
	temperature := quantityOf(t, "temperature", quantity.ParseTemperature)
	positive(t, "flow", flow)
	if temperature != nil && temperature.Celsius() < 0 {
		t.fault("temperature", "supply: temperature %v: fresh water is ice there; allowed: 32 F and above", show(*temperature))
	}
	t.done()
	return yard.Supply{Flow: orZero(flow), Temperature: orZero(temperature)}
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

func readMixingTank(t *table, taken names) yard.Tank {
	m := yard.Tank{Name: t.uniqueName(taken), Mixing: true}
	capacity := t.capacity()
	working := quantityOf(t, "working_volume", quantity.ParseVolume)
	pumpOff := quantityOf(t, "pump_off", quantity.ParseVolume)
	bedCapacity := quantityOf(t, "bed_capacity", quantity.ParseMass)
	bed := quantityOf(t, "bed", quantity.ParseMass)
	mixTime := quantityOf(t, "mix_time", quantity.ParseDuration)
	within(t, "working_volume", working, "capacity", capacity)
	full, name := working, "working_volume"
	if full == nil {
		full, name = capacity, "capacity"
	}
	within(t, "pump_off", pumpOff, name, full)
	within(t, "bed", bed, "bed_capacity", bedCapacity)
	positive(t, "working_volume", working)
	positive(t, "pump_off", pumpOff)
	t.done()
	m.Capacity, m.WorkingVolume, m.PumpOff, m.MixTime = orZero(capacity), orZero(working), orZero(pumpOff), orZero(mixTime)
	m.Bed, m.BedCapacity = orZero(bed), orZero(bedCapacity)
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

func readStorageTank(t *table, taken names, y *yard.Yard) yard.Tank {
	s := yard.Tank{Name: t.uniqueName(taken)}
	capacity := t.capacity()
	dead := quantityOf(t, "dead_volume", quantity.ParseVolume)
	s.Contents = quantityOf(t, "contents", quantity.ParseVolume)
	strength := quantityOf(t, "strength", quantity.ParseStrength)
	s.LiquidName = t.text("liquid")
	within(t, "dead_volume", dead, "capacity", capacity)
	within(t, "contents", s.Contents, "capacity", capacity)
	t.dissolves("strength", strength)
	bought, known := y.Liquid(s.LiquidName)
	switch {
	case known && strength == nil:
		s.Liquid = &bought.Liquid
	case s.LiquidName != "" && !known:
		t.fault("liquid", "%sno liquid is named %q", t.label(), s.LiquidName)
	}
	if strength != nil {
		brine := balance.SaltBrine(*strength)
		s.Liquid = &brine
	}
	if s.LiquidName != "" && strength != nil {
		t.fault("liquid", "%sliquid and strength are two contents; allowed: one of them", t.label())
	}
	t.done()
	s.Capacity, s.DeadVolume = orZero(capacity), orZero(dead)
	return s
}

func readLiquid(t *table, taken names) yard.Liquid {
	name := t.uniqueName(taken)
	c, salts := readSalts(t)
	l := yard.Liquid{
		Liquid: balance.Liquid{Name: name, Composition: c},
		Price:  quantityOf(t, "price", quantity.ParsePricePerVolume),
		OnHand: orZero(quantityOf(t, "on_hand", quantity.ParseVolume)),
	}
	product := readProduct(t)
	switch {
	case reserved[name]:
		t.fault("name", "liquid: %q is a built-in liquid; allowed: another name", name)
	case salts && product != nil:
		t.fault("freezing", "%sa freezing table and salts are two descriptions; allowed: one of them", t.label())
	case !salts && product == nil:
		t.fault("name", "%swhat it holds is missing; allowed: nacl, kcl, cacl2, mgcl2, or solute, density and freezing", t.label())
	case salts:
		if err := c.Check(); err != nil {
			t.fault("name", "%smore is dissolved than there can be; allowed: 50%% in all", t.label())
		}
	default:
		l.Liquid = balance.OfProduct(name, product)
	}
	t.done()
	return l
}

// readSalts reads the salts in a liquid, and whether there are any.
func readSalts(t *table) (c solution.Composition, given bool) {
	for _, salt := range []struct {
		key string
		to  *float64
	}{{"nacl", &c.NaCl}, {"kcl", &c.KCl}, {"cacl2", &c.CaCl2}, {"mgcl2", &c.MgCl2}} {
		if w := quantityOf(t, salt.key, quantity.ParseStrength); w != nil {
			*salt.to, given = float64(*w), true
		}
	}
	return c, given
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
