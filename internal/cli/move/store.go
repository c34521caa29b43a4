package move

import (
	"strconv"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

var storeCommand = run.Command{
	Screen: true,
	Use:    "store LOT LOT ...",
	Short:  "What transfers make of a tank, and what brings it to target",
	Long: "store tells what lots of liquid make together in a tank. A lot may be a volume\n" +
		"with its strength, like 6000gal@23.1%. It may be a volume with a liquid, like\n" +
		"500gal:cacl2@32%. It may be a storage tank of the yard file by name. The first\n" +
		"lot is what the tank holds. The others go into it.",
	Example: "  brineyard store 6000gal@23.1% 800gal@25%\n" +
		"  brineyard store 6000gal@22.4% --to 23.3% --with 25.5% --capacity 8000gal",
	New:       func() run.Question { return &store{} },
	Rows:      true,
	NoWorking: "No working here: of a product only its data sheet is known.",
}

type store struct {
	request brine.StoreRequest
	tank    yard.Tank  // the first lot's; zero where that is a volume
	from    []string   // the tank of each lot; empty for one from outside the yard
	stick   bind.Stick // of the first lot's tank
	clock   func() time.Time
	record  run.Record
}

// Bind binds the request.
func (q *store) Bind(b *bind.Set) {
	r := &q.request
	bind.Count(b, &r.Batches, "batches", "add the last lot so many times, and show the tank after each", "number of batches")
	b.Says(fault.FieldParts, "the lots")
	b.Says(fault.FieldStrength, "the lots")
	b.SaysOf(fault.FieldBatches, func() string { return "--batches " + strconv.Itoa(r.Batches) })
	b.Then(q.findTank)
	q.stick.Bind(b, "depth of what stands in the tank of the first lot, on the stick", func() yard.Tank { return q.tank })
	q.record.Bind(b, func(*bind.Scope) bool { return q.tank.Name != "" }, "with the name of a tank in the yard file as the first lot")
	var to, with *bind.Value[quantity.Strength]
	b.Then(func(s *bind.Scope) error {
		if q.record.On && len(s.Args) == 1 && !to.Given() {
			return fault.Refuse("--record: nothing goes into %s; allowed: with further lots, or with --to and --with", words.Quoted(q.tank.Name))
		}
		return q.readLots(s)
	})
	b.Then(func(*bind.Scope) error {
		switch {
		case to.Given() && !with.Given():
			return fault.Refuse("%s: needs the strength of what is added; allowed: with --with, like --with 25%%", to.Said())
		case with.Given() && !to.Given():
			return fault.Refuse("%s: needs a target; allowed: with --to, like --to 23.3%%", with.Said())
		}
		return nil
	})
	capacity := bind.Of(b, bind.Volume, &r.Capacity, "capacity", "what the tank can hold; the yard file's for a tank by name",
		bind.KeyNamed(func() string { return "tank " + words.Quoted(q.tank.Name) + " capacity" }, func() quantity.Volume { return q.tank.Capacity }))
	to = bind.Of(b, bind.Strength, &r.Target, "to", "target; with --with")
	with = bind.Of(b, bind.Strength, &r.With, "with", "strength of the batch that is to bring it to target")
	to.NotZero(b, "no target", "above 0%")
	capacity.NotZero(b, "nothing", "above 0")
	bind.Of(b, bind.Temperature, &r.Temperature, "temp", "temperature of it all; 60F unless given", bind.Default(quantity.Fahrenheit(60)))
	bind.Glass(b, &r.Instrument)
}

// findTank finds the tank that the first lot stands in, where it is named.
func (q *store) findTank(s *bind.Scope) error {
	q.tank = yard.Tank{}
	if len(s.Args) == 0 {
		return bind.LackOfWords(fault.Refuse("no lots; allowed: like 6000gal@23.1%% 800gal@25%%, or the name of a storage tank"),
			"What is mixed? A tank, and what is added to it, e.g. north 800gal@25%", "")
	}
	if s.IsTank(s.Args[0]) {
		var err error
		if q.tank, err = s.Tank("tank", s.Args[0]); err != nil {
			return err
		}
	}
	q.clock = s.Now
	return nil
}

// readLots reads the words without a flag.
func (q *store) readLots(s *bind.Scope) error {
	q.request.Lots, q.from = nil, nil
	for _, text := range s.Args {
		lot, err := s.Lot(text)
		if err != nil {
			return err
		}
		from := ""
		if s.IsTank(text) {
			t, err := s.Tank("tank", text)
			if err != nil {
				return err
			}
			from = t.Name
		}
		q.request.Lots, q.from = append(q.request.Lots, lot), append(q.from, from)
	}
	if q.stick.Given() {
		q.request.Lots[0].Volume, q.request.Lots[0].VolumeHalf = q.stick.Result.Volume, q.stick.Half()
	}
	return nil
}

// source says who said what the tank holds; nothing where that was typed.
func (q *store) source(v show.View) string {
	switch {
	case q.tank.Name == "":
		return ""
	case q.stick.Given():
		return q.stick.Said(v)
	}
	return v.Source(q.tank.Said, q.clock())
}

// Answer mixes the lots.
func (q *store) Answer(s *run.Session) (run.Reply, error) {
	r := q.request
	out, err := brine.Store(r)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: storeFigures(s.View, r, out),
		Words: func(d *report.Document) {
			storeWords(s.View, d, r, out, q.source(s.View))
			if q.tank.Name != "" {
				d.Doubts = show.Said(s.View.Doubt(q.tank.Name, q.tank.Said, q.clock()))
			}
		},
		Working: func() []report.Step { return storeWorking(s.View, r, out) },
		Record:  &q.record, Entries: q.entries(out),
	}, nil
}
