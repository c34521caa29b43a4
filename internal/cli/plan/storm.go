package plan

import (
	"errors"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/report"
	"brineyard/internal/storm"
	"brineyard/internal/yard/file"
)

var stormCommand = run.Command{
	Use:   "storm [FILE]",
	Short: "Gallons, batches, salt, loads, hours and cost for a storm",
	Long: "storm plans a storm from the yard file. It tells what the routes take, and\n" +
		"what the tanks hold. It tells which batches to make, and when to begin. It\n" +
		"names what falls short, and who gets it. It plans the loads of the trucks. It\n" +
		"shows what the cold does to the liquids, and what it all costs.",
	Example: "  brineyard storm --now 12:00 --start 20:00 --low 19F\n" +
		"  brineyard storm --start 20:00 --low 19F --what-if start=22:00,rate=30",
	Args: run.OneFile,
	New:  func() run.Question { return &stormQuestion{} },
}

type stormQuestion struct {
	asked  asked
	bound  *bind.Set
	whatIf []string // changes to compare the plan with
	page   bool     // the drivers' sheet instead of the plan
}

// Bind reads the storm file, if one is named, before what stands above it.
func (q *stormQuestion) Bind(b *bind.Set) {
	q.bound = b
	b.Then(q.readOrders)
	q.asked.bind(b)
	bind.Switch(b, &q.page, "page", "a sheet for the drivers instead: each truck's loads in order")
	b.Flags().StringArrayVar(&q.whatIf, "what-if", nil,
		"compare with `changes`: now, start, down-by, low, reserve, rate, passes, pile, supply, liquid, out, skip or first, like rate=30,start=22:00; may be given again")
}

// readOrders reads the storm file for the yard, and shows all its faults.
func (q *stormQuestion) readOrders(s *bind.Scope) (err error) {
	if s.Yard == nil {
		return fault.Refuse("no yard file, so nothing to plan with; allowed: --yard with a file; yard init writes one")
	}
	q.asked.orders = &file.Storm{}
	if len(s.Args) == 0 {
		return nil
	}
	q.asked.orders, err = file.LoadStorm(s.Open, s.Args[0], s.Yard)
	var faults file.Faults
	if errors.As(err, &faults) {
		return run.EachFault(faults)
	}
	return err
}

// Answer plans the storm, and once more for each set of changes.
func (q *stormQuestion) Answer(s *run.Session) (run.Reply, error) {
	r := q.asked.request
	s.View.Midnight = q.asked.midnight
	p, err := storm.Make(r)
	if err != nil {
		return run.Reply{}, err
	}
	if q.page {
		return q.sheet(s, p)
	}
	others, err := q.compare(s)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: append(q.head(s.View, q.asked.clock()), figures(s.View, p)...),
		Words: func(d *report.Document) {
			d.Title, d.Verdict, d.Notes = q.title(), verdict(s.View, r, p)+s.View.StockSource(q.asked.request.Tanks, q.asked.clock()), notes(s.View, r, p)
			if q.asked.clocked {
				d.Verdict += s.View.Say(" Now is %s by the clock.", s.View.Clock(r.Now))
			}
			d.Notes = append(s.View.StockDoubts(q.asked.request.Tanks, q.asked.clock()), d.Notes...)
			if len(others) > 0 {
				d.Tables = []report.Table{whatIfTable(s.View, append([]variant{{"as planned", p}}, others...))}
			}
			d.Tables = append(d.Tables, tables(s.View, r.Low, p)...)
			d.Drawings, d.Next = timeLine(s.View, r, p), "batch --tank says what goes into each batch; --what-if compares plans."
			d.Cautions = []string{show.CautionPump, show.CautionDrain, "Axle and gross limits of the trucks are the law's, not this plan's.", show.CautionLocal}
		},
		Working: func() []report.Step { return derive.Storm(s.View, r, p) },
	}, nil
}

// sheet is the drivers' sheet.
func (q *stormQuestion) sheet(s *run.Session, p storm.Plan) (run.Reply, error) {
	if len(p.Loading.Loads) == 0 {
		return run.Reply{}, fault.Refuse("--page: nothing is loaded, so there is nothing for the drivers; allowed: a yard file with trucks, and routes that get something")
	}
	return run.Reply{
		Figures: q.head(s.View, q.asked.clock()),
		Words: func(d *report.Document) {
			d.Title, d.Verdict, d.Tables = q.title(), q.title()+".", drivers(s.View, q.asked.request, p)
			d.Notes = []string{"Setting is what the boom gives at that speed, or for a pre-wetted route the salt that is spread."}
			d.Cautions = []string{show.CautionPump, "Axle and gross limits are the law's: weigh before the first trip.", show.CautionLocal}
		},
	}, nil
}
