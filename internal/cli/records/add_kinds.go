package records

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// entryKind is a kind of entry that people record.
type entryKind struct {
	name             journal.Kind
	short            string
	example, another string
	needs            []string // flags
	takes            []value  // besides those that every kind takes
}

// line is the command line that adds an entry.
func (k entryKind) line(flags string) string {
	return "brineyard journal add " + string(k.name) + " " + flags
}

var entryKinds = []entryKind{
	{journal.Batch, "A batch was made: what the mixing tank then holds",
		"--tank mixer --volume 1095gal --strength 23.4%", "--tank mixer --salt 2650lb --water 982gal",
		[]string{"tank"}, []value{tankFlag, volumeFlag, strengthFlag, cacl2Flag, mgcl2Flag, kclFlag, saltFlag, waterFlag}},
	{journal.Reading, "An instrument was read in a tank",
		"--tank mixer --hydrometer 23.9% --temp 41F", "--tank mixer --sg 1.178 --temp 12C",
		[]string{"tank"}, []value{tankFlag, readingFlags}},
	{journal.Correction, "Water, salt or brine went into a tank to correct it",
		"--tank mixer --water 40gal", "--tank north --volume 300gal --strength 26%",
		[]string{"tank"}, []value{tankFlag, waterFlag, saltFlag, volumeFlag, strengthFlag, fromFlag}},
	{journal.Transfer, "A volume went from one tank into another",
		"--from mixer --tank north --volume 1095gal", "--from north --tank south --volume 2kL",
		[]string{"from", "tank", "volume"}, []value{fromFlag, tankFlag, volumeFlag}},
	{journal.Load, "A truck was loaded for a route",
		"--from north --volume 487gal --route ridge-road", "--from south --volume 60gal --liquid cold-mix",
		[]string{"from", "volume"}, []value{fromFlag, truckFlag, routeFlag, volumeFlag, liquidFlag}},
	{journal.Delivery, "Salt or a liquid was delivered",
		"--salt 25ton --cost 1790", "--tank south --liquid cal31 --volume 1500gal",
		nil, []value{saltFlag, tankFlag, liquidFlag, volumeFlag, strengthFlag, cacl2Flag, mgcl2Flag, kclFlag, costFlag}},
	{journal.Clean, "A tank was emptied and cleaned",
		"--tank mixer", "--tank mixer --note \"sludge to the pad\"",
		[]string{"tank"}, []value{tankFlag, costFlag}},
	{journal.Count, "A tank, or the salt pile, was measured",
		"--tank north --volume 3450gal", "--tank pile --salt 38ton",
		nil, []value{tankFlag, volumeFlag, strengthFlag, liquidFlag, cacl2Flag, mgcl2Flag, kclFlag, saltFlag}},
	{journal.Note, "Anything else",
		"--note \"valve F3 drips\"", "--note \"first flake\" --at \"2026-01-14 05:40\"",
		[]string{"note"}, []value{tankFlag}},
}

// value binds one value of an entry.
type value func(*addition, *bind.Set)

var (
	tankFlag     = named("tank", "`tank` that it is about, or that it went into", bind.TankNames, func(e *journal.Entry) *string { return &e.Tank })
	fromFlag     = named("from", "`tank` that it came from", bind.TankNames, func(e *journal.Entry) *string { return &e.From })
	truckFlag    = named("truck", "`truck` that took it", bind.TruckNames, func(e *journal.Entry) *string { return &e.Truck })
	routeFlag    = named("route", "`route` that it was for", bind.RouteNames, func(e *journal.Entry) *string { return &e.Route })
	liquidFlag   = named("liquid", "`liquid` of the yard file; salt brine unless given", bind.LiquidNames, func(e *journal.Entry) *string { return &e.Liquid })
	operatorFlag = named("operator", "who did it", nil, func(e *journal.Entry) *string { return &e.Operator })
	noteFlag     = named("note", "`words` of your own", nil, func(e *journal.Entry) *string { return &e.Note })

	volumeFlag   = amount(bind.Volume, "volume", "how much", func(e *journal.Entry) **quantity.Volume { return &e.Volume })
	waterFlag    = amount(bind.Volume, "water", "fresh water", func(e *journal.Entry) **quantity.Volume { return &e.Water })
	strengthFlag = amount(bind.Strength, "strength", "true strength in salt", func(e *journal.Entry) **quantity.Strength { return &e.NaCl })
	kclFlag      = amount(bind.Strength, "kcl", "potassium chloride in it", func(e *journal.Entry) **quantity.Strength { return &e.KCl })
	cacl2Flag    = amount(bind.Strength, "cacl2", "calcium chloride in it", func(e *journal.Entry) **quantity.Strength { return &e.CaCl2 })
	mgcl2Flag    = amount(bind.Strength, "mgcl2", "magnesium chloride in it", func(e *journal.Entry) **quantity.Strength { return &e.MgCl2 })
	saltFlag     = amount(bind.Mass, "salt", "rock salt, as delivered", func(e *journal.Entry) **quantity.Mass { return &e.Salt })
	costFlag     = amount(bind.Money, "cost", "what was paid", func(e *journal.Entry) **quantity.Money { return &e.Cost })
)

// named is a value that is a name, or a note.
func named(flag, usage string, names func(*yard.Yard) []string, to func(*journal.Entry) *string) value {
	return func(q *addition, b *bind.Set) { bind.Name(b, to(&q.entry), flag, usage, names) }
}

// amount is a value that is a quantity, nil unless it is typed.
func amount[Q quantity.Quantity](kind bind.Kind[Q], flag, usage string, to func(*journal.Entry) **Q) value {
	return func(q *addition, b *bind.Set) { bind.Optional(b, kind, to(&q.entry), flag, usage) }
}

// readingFlags is what an instrument showed, with the temperature of the sample.
func readingFlags(q *addition, b *bind.Set) {
	q.sample = &brine.Sample{}
	new(bind.Reading).BindSample(b, q.sample, "temperature of the sample")
}
