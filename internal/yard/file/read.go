package file

import (
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// section is a table of the yard file, or a list of tables.
type section struct {
	name  string
	names string // the group within which names of a list differ; empty for one table
	read  func(t *table, y *yard.Yard)
}

// sections are those of the yard file. One that speaks of another's names comes after it.
func sections() []section {
	return []section{
		{name: "target", read: readTarget},
		{name: "hydrometer", read: readHydrometer},
		{name: "glass", names: "glasses", read: readGlass},
		{name: "thermometer", read: readThermometer},
		{name: "salt", read: readSalt},
		{name: "supply", read: readSupply},
		{name: "pump", read: readPump},
		{name: "other_pump", names: "pumps", read: readOtherPump},
		{name: "cleaning", read: readCleaning},
		{name: "liquid", names: "liquids", read: readLiquid},
		{name: "blend", names: "liquids", read: readBlend},
		{name: "prices", read: readPrices},
		{name: "mixing_tank", names: "tanks", read: readMixingTank},
		{name: "storage_tank", names: "tanks", read: readStorageTank},
		{name: "truck", names: "trucks", read: readTruck},
		{name: "route", names: "routes", read: readRoute},
		{name: "plumbing", read: readPlumbing},
		{name: "line", names: "links", read: readLink},
		{name: "valve", names: "links", read: readLink},
		{name: "destination", names: "destinations", read: readDestination},
	}
}

// read turns the tables of a file into a yard, and gathers every fault.
func (r *reader) read(values map[string]any) *yard.Yard {
	root, y := &table{r: r, value: values}, &yard.Yard{}
	root.read(text("name", &y.Name), optional("units", units, &y.Units))
	r.system = orZero(y.Units) // that of bare numbers below
	taken := map[string]map[string]bool{"liquids": {}, "tanks": {}, "trucks": {}, "routes": {}, "links": {}, "glasses": {}, "pumps": {}, "destinations": {}}
	for _, s := range sections() {
		tables := []*table{}
		if s.names == "" {
			tables = append(tables, root.sub(s.name))
		} else {
			tables = root.list(s.name, taken[s.names])
		}
		for _, t := range tables {
			s.read(t, y)
			t.done()
		}
	}
	if p := y.Pump; p.Flow > 0 || p.Power > 0 || len(p.Curve) > 0 || len(y.Plumbing.Pumps) > 0 {
		y.Plumbing.Pumps = append([]yard.Pump{p}, y.Plumbing.Pumps...)
	}
	y.Plumbing.Supply = y.Supply.Flow
	checkPlumbing(r, y.Plumbing)
	root.done()
	return y
}

func readTarget(t *table, y *yard.Yard) {
	g := &y.Target
	t.read(
		optional("strength", quantity.ParseTypedStrength, &g.Strength),
		optional("low", quantity.ParseTypedStrength, &g.Low),
		optional("high", quantity.ParseTypedStrength, &g.High),
	)
	strength, low, high := orZero(g.Strength), orZero(g.Low), orZero(g.High)
	atMost(t, "low", low, "high", high)
	outside := t.knows("low") && strength < low || t.knows("high") && strength > high
	t.refuse(t.knows("strength") && outside, "strength", "strength %v lies outside the band of low and high", show(strength))
	t.dissolves("strength", strength)
}

// orZero returns the value that p points to; zero when the file does not say.
func orZero[Q any](p *Q) Q {
	if p == nil {
		var zero Q
		return zero
	}
	return *p
}

// dissolves refuses a strength of salt brine above saturation in the warm.
func (t *table) dissolves(key string, s quantity.Strength) {
	full, _, err := solution.Anchored().Solubility(solution.NaCl, solution.SearchTop)
	t.refuse(err == nil && float64(s) > full, key, "%s %v is above saturation; allowed: up to %v", key, show(s), show(quantity.Strength(full)))
}

func readHydrometer(t *table, y *yard.Yard) {
	t.read(
		calibration(&y.Calibration),
		day("checked", &y.Checked),
	)
}

func readSalt(t *table, y *yard.Yard) {
	salt := &y.Pile.Quality
	t.read(
		number("purity", quantity.ParseStrength, &salt.Purity),
		number("moisture", quantity.ParseTypedMoisture, &salt.Moisture),
		optional("price", quantity.ParsePricePerMass, &y.Prices.Salt),
		number("bucket", quantity.ParseMass, &y.Pile.Bucket).aboveZero(),
		number("bulk_density", quantity.ParseBulkDensity, &y.Pile.Bulk),
		number("angle", quantity.ParseAngle, &y.Pile.Angle).aboveZero(),
		optional("pile", quantity.ParseMass, &y.Pile.OnHand),
	)
	t.refuse(t.knows("purity") && salt.Purity < yard.LeastPurity, "purity", "purity %v is of no rock salt; allowed: %v to 100%%", show(salt.Purity), show(yard.LeastPurity))
	t.refuse(salt.Moisture > yard.MostMoisture, "moisture", "moisture %v is of no rock salt; allowed: 0%% to %v", show(salt.Moisture), show(yard.MostMoisture))
}

func readSupply(t *table, y *yard.Yard) {
	water := &y.Supply.Temperature
	t.read(
		number("flow", quantity.ParseFlow, &y.Supply.Flow).aboveZero(),
		number("temperature", quantity.ParseTemperature, water),
		number("tank", quantity.ParseVolume, &y.Supply.Tank).aboveZero(),
		number("tank_flow", quantity.ParseFlow, &y.Supply.TankFlow).aboveZero(),
	)
	t.refuse(t.has("tank_flow") && !t.has("tank"), "tank_flow", "there is no fresh-water tank without tank; allowed: both, or tank alone")
	t.refuse(t.knows("temperature") && water.Celsius() < 0, "temperature",
		"temperature %v: fresh water is ice there; allowed: %v and above", show(*water), show(quantity.Celsius(0)))
}

func readCleaning(t *table, y *yard.Yard) {
	t.read(number("every", quantity.ParseVolume, &y.CleanEvery).aboveZero())
}

// readPrices reads the prices that have a table of their own.
func readPrices(t *table, y *yard.Yard) {
	p := &y.Prices
	t.read(
		optional("water", quantity.ParsePricePerVolume, &p.Water),
		optional("labour", quantity.ParsePricePerTime, &p.Labour),
		optional("driving", quantity.ParsePricePerLength, &p.Driving),
		number("dry_salt", quantity.ParseMassPerLength, &p.DrySalt),
	)
}
