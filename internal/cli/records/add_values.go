package records

import (
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/enter"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// value binds one value of an entry.
type value func(*addition, *bind.Set)

var (
	tankFlag     = named("tank", "`tank` that it is about, or that it went into", bind.TankNames, func(e *journal.Entry) *string { return &e.Tank })
	toFlag       = named("to", "`tank` that it went into", bind.TankNames, func(e *journal.Entry) *string { return &e.Tank })
	fromFlag     = named("from", "`tank` that it came from", bind.TankNames, func(e *journal.Entry) *string { return &e.From })
	truckFlag    = named("truck", "`truck` that took it, or that it is about", bind.TruckNames, func(e *journal.Entry) *string { return &e.Truck })
	routeFlag    = named("route", "`route` that it was for", bind.RouteNames, func(e *journal.Entry) *string { return &e.Route })
	liquidFlag   = named("liquid", "`liquid` of the yard file; salt brine unless given", bind.LiquidNames, func(e *journal.Entry) *string { return &e.Liquid })
	lineFlag     = named("line", "`line` of the yard's plumbing that it went through", enter.LineNames, func(e *journal.Entry) *string { return &e.Line })
	ticketFlag   = named("ticket", "`number` of the weigh ticket, as it is written there", nil, func(e *journal.Entry) *string { return &e.Ticket })
	operatorFlag = named("operator", "who did it", nil, func(e *journal.Entry) *string { return &e.Operator })
	noteFlag     = named("note", "`words` of your own", nil, func(e *journal.Entry) *string { return &e.Note })

	volumeFlag   = amount(bind.Volume, "volume", "how much", func(e *journal.Entry) **quantity.Volume { return &e.Volume })
	waterFlag    = amount(bind.Volume, "water", "fresh water", func(e *journal.Entry) **quantity.Volume { return &e.Water })
	strengthFlag = amount(bind.Strength, "strength", "true strength in salt", func(e *journal.Entry) **quantity.Strength { return &e.NaCl })
	kclFlag      = amount(bind.Strength, "kcl", "potassium chloride in it", func(e *journal.Entry) **quantity.Strength { return &e.KCl })
	cacl2Flag    = amount(bind.Strength, "cacl2", "calcium chloride in it", func(e *journal.Entry) **quantity.Strength { return &e.CaCl2 })
	mgcl2Flag    = amount(bind.Strength, "mgcl2", "magnesium chloride in it", func(e *journal.Entry) **quantity.Strength { return &e.MgCl2 })
	saltFlag     = amount(bind.Mass, "salt", "rock salt, as delivered", func(e *journal.Entry) **quantity.Mass { return &e.Salt })
	costFlag     = amount(bind.Money, "cost", "what was paid, or what a sale brought", func(e *journal.Entry) **quantity.Money { return &e.Cost })
	purityFlag   = amount(bind.Strength, "purity", "NaCl in the dry salt, by its ticket", func(e *journal.Entry) **quantity.Strength { return &e.Purity })
	moistureFlag = amount(bind.Strength, "moisture", "water in the salt, by its ticket", func(e *journal.Entry) **quantity.Strength { return &e.Moisture })
	ranFlag      = amount(hoursWorked, "hours", "how long its water ran, where it ran once through the bed", func(e *journal.Entry) **quantity.Duration { return &e.Hours })
	hoursFlag    = amount(hoursWorked, "hours", "how long was worked", func(e *journal.Entry) **quantity.Duration { return &e.Hours })
	distanceFlag = amount(driven, "distance", "how far was driven", func(e *journal.Entry) **quantity.Length { return &e.Distance })
)

// How long and how far are typed: a bare number is hours, or miles.
var (
	hoursWorked = bind.Kind[quantity.Duration]{Name: "time", Bare: "h", Parse: parseHours}
	driven      = bind.Kind[quantity.Length]{Name: "distance", Bare: "mi or km", Parse: quantity.ParseLength}
)

// parseHours reads a time of which a bare number is hours: nobody works minutes.
func parseHours(text string) (quantity.Duration, bool, error) {
	d, bare, err := quantity.ParseDuration(text)
	if bare {
		d *= 60
	}
	return d, bare, err
}

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

// depthFlag is the depth of what was counted, on the stick: the volume follows from the tank's shape.
func depthFlag(q *addition, b *bind.Set) {
	var stick bind.Stick
	var tank yard.Tank
	b.Then(func(s *bind.Scope) (err error) {
		tank = yard.Tank{}
		if q.entry.Tank != "" && q.entry.Tank != journal.Pile && s.Yard != nil {
			tank, err = s.Tank("tank", q.entry.Tank)
		}
		return err
	})
	stick.Bind(b, "depth of it on the stick, instead of --volume", func() yard.Tank { return tank })
	b.Then(func(*bind.Scope) error {
		switch {
		case !stick.Given():
			return nil
		case q.entry.Volume != nil:
			return fault.Refuse("--volume and --depth: two volumes; allowed: one of them")
		}
		v := stick.Result.Volume
		q.entry.Volume = &v
		return nil
	})
}

// dueFlag is the day on which something is to come.
func dueFlag(q *addition, b *bind.Set) {
	var text string
	due := bind.Name(b, &text, "due", "`day` on which it is to come, like 2027-12-20", nil)
	b.Then(func(s *bind.Scope) error {
		if q.entry.Due = nil; !due.Given() {
			return nil
		}
		at, err := bind.Day(s, "due", text)
		q.entry.Due = new(time.Time)
		*q.entry.Due = at
		return err
	})
}
