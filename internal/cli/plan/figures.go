package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/storm"
)

// figures are what the plan comes to: amounts, times, loads and cost.
func figures(v show.View, p storm.Plan) []report.Figure {
	return slices.Concat(amountFigures(v, p), timeFigures(v, p), loadFigures(v, p.Loading), costFigures(v, p.Cost), afterFigures(v, p.After))
}

// of names the yard, the storm file, which is empty where there is none, and when the plan was made.
func (q *stormQuestion) of(now time.Time) (yard, orders, made string) {
	return cmp.Or(q.asked.yard.Name, q.asked.yard.Path), q.asked.orders.Path, now.Format("2006-01-02 15:04")
}

// title is what the plan is of.
func (q *stormQuestion) title() string {
	yard, orders, made := q.of(q.asked.clock())
	if orders != "" {
		yard += ", " + orders
	}
	return "Storm plan of " + yard + ", made " + made
}

// downBy is when all is to lie on the road.
func (q *stormQuestion) downBy(v show.View) report.Figure {
	f := report.Figure{Key: "down_by", Label: "Down by", Value: report.Nothing("min", "as soon as it can be")}
	if q.asked.request.DownBy > 0 {
		f.Value = v.TimeOf(q.asked.request.DownBy)
	}
	return show.Quiet(f)
}

// head says what the plan is of: yard and storm, when it was made, from when to when, for which low, with which reserve, and who
// said what stands in the yard.
func (q *stormQuestion) head(v show.View, now time.Time) []report.Figure {
	r := q.asked.request
	yard, orders, made := q.of(now)
	word := func(key, label, text string) report.Figure {
		return show.Quiet(report.Figure{Key: key, Label: label, Value: report.Word(text)})
	}
	return []report.Figure{
		word("yard", "Yard", yard), word("storm_file", "Storm file", cmp.Or(orders, "none")), word("made_at", "Made at", made),
		show.Quiet(at(v, "begins", "Begins", r.Now)), show.Quiet(at(v, "start", "Trucks leave from", r.Start)), q.downBy(v),
		show.Quiet(v.Figure("low", "Low", r.Low)), show.Quiet(v.Figure("reserve", "Reserve", r.Reserve)),
		word("stock_by", "Stock", strings.TrimSpace(v.StockSource(r.Tanks, now))),
	}
}

func amountFigures(v show.View, p storm.Plan) []report.Figure {
	pr := p.Production
	pair := v.Figure("demanded", "Wanted, loaded, short", p.Demanded)
	pair.Value.Text = v.Say("%v, %v, %v", p.Demanded, p.Loaded, p.Short)
	salt := v.Figure("salt", "Salt to use", pr.Salt)
	if pr.Buckets > 0 {
		salt.Value.Text = v.Say("%v, %v buckets", pr.Salt, quantity.Count(pr.Buckets))
	}
	return []report.Figure{
		pair, show.Quiet(v.Figure("loaded", "Loaded", p.Loaded)), show.Quiet(v.Figure("short", "Short", p.Short)),
		show.QuietUnless(p.InTime < p.Loaded, v.Figure("down_in_time", "Down in time", p.InTime)),
		show.Quiet(v.Figure("down_bound", "At most down in time", p.Bound)),
		show.Quiet(v.Figure("made", "Made", pr.Made)),
		v.Figure("batches", "Batches to make", quantity.Count(pr.Batches)),
		salt, show.Quiet(v.Figure("buckets", "Buckets", quantity.Count(pr.Buckets))),
		show.QuietUnless(p.DrySalt > 0, v.Figure("dry_salt", "Dry salt to pre-wet", p.DrySalt)),
		v.Figure("water", "Water to run in", pr.Water),
		show.QuietUnless(len(p.Liquids) > 0, report.Figure{Key: "liquids_wanted", Label: "Liquids not made here", Value: report.Word(liquidsText(v, p))}),
	}
}

// liquidsText is what the routes take of bought liquids.
func liquidsText(v show.View, p storm.Plan) string {
	var liquids []string
	for _, l := range p.Liquids {
		liquids = append(liquids, v.Say("%s, %v of %v", l.Name, l.Wanted, l.OnHand))
	}
	return strings.Join(liquids, "; ")
}

func timeFigures(v show.View, p storm.Plan) []report.Figure {
	pr := p.Production
	return []report.Figure{
		show.QuietUnless(pr.Batches > 0, at(v, "done_time", "Last batch done", pr.DoneAt)),
		show.QuietUnless(pr.Batches > 0 && !pr.Late || pr.Earlier, at(v, "latest_start", latestLabel(pr), pr.Latest)),
		show.QuietUnless(pr.InMixers > 0, v.Figure("left_in_mixers", "Left in the mixers", pr.InMixers)),
		show.QuietUnless(p.ReserveGap > 0, v.Figure("reserve_short", "Reserve lacks", p.ReserveGap)),
		show.Quiet(v.Figure("pump_time", "Pump on batches", pr.PumpTime)),
		show.Quiet(v.Figure("idle_first_fill", "Pump waits for the first fill", pr.IdleFirst)),
		show.Quiet(v.Figure("idle_later_fills", "Pump waits for later fills", pr.IdleLater)),
	}
}

// at is a labelled time of day.
func at(v show.View, key, label string, t quantity.Duration) report.Figure {
	return report.Figure{Key: key, Label: label, Value: v.TimeOf(t)}
}

// latestLabel says what the latest start is for.
func latestLabel(pr storm.Production) string {
	if pr.Earlier {
		return "For all of it, begin by"
	}
	return "Begin at the latest"
}

func loadFigures(v show.View, l storm.Loading) []report.Figure {
	if len(l.Loads) == 0 {
		return nil
	}
	loads := v.Figure("loads", "Truckloads", quantity.Count(len(l.Loads)))
	loads.Value.Text = v.Say("%v, out %s to %s, last back %s", quantity.Count(len(l.Loads)), v.Clock(l.FirstOut), v.Clock(l.LastOut), v.Clock(l.LastBack()))
	return []report.Figure{loads, show.Quiet(at(v, "first_out", "First out", l.FirstOut)), show.Quiet(at(v, "last_out", "Last out", l.LastOut)),
		show.Quiet(at(v, "last_back", "Last back", l.LastBack()))}
}

// costFigures are the cost, the chloride, and dry salt beside them.
func costFigures(v show.View, c storm.Cost) []report.Figure {
	cost := report.Figure{Key: "cost", Label: "Cost", Value: costValue(v, c)}
	if c.Missing && c.Priced {
		cost.Label = "Cost of what has a price"
	}
	if c.PerVolume != nil && c.PerLane != nil {
		cost.Value.Text = v.Say("%v: %v, %v of lane, %v a pass", c.Total, *c.PerVolume, *c.PerRoad, *c.PerLane)
	}
	area := chloridePerArea(v, c.ChloridePerArea)
	chloride := v.Figure("chloride", "Chloride laid down", c.Chloride)
	if c.ChloridePerLane > 0 {
		chloride.Value.Text = v.Say("%v: %v of lane, %v a pass", c.Chloride, c.ChloridePerRoad, c.ChloridePerLane)
	}
	dry := show.Known(v, "cost_dry_salt", "Dry salt in its place", c.DrySalt)
	if c.DrySalt != nil {
		dry.Value.Text = v.Say("%v for salt alone, with %v of chloride", *c.DrySalt, c.DrySaltChloride)
	}
	figures := []report.Figure{cost, costParts(v, c), chloride}
	for _, part := range partsOf(c) {
		figures = append(figures, show.Quiet(show.Known(v, part.key, part.label, part.money)))
	}
	return append(figures,
		show.Quiet(show.Known(v, "cost_per_volume", "Cost of a volume", c.PerVolume)),
		show.Quiet(show.Known(v, "cost_per_lane", "Cost of a lane, a pass", c.PerLane)),
		show.Quiet(show.Known(v, "cost_per_road", "Cost of a lane, all passes", c.PerRoad)),
		show.Quiet(v.Figure("chloride_per_lane", "Chloride on a lane, a pass", c.ChloridePerLane)),
		show.Quiet(v.Figure("chloride_per_road", "Chloride on a lane, all passes", c.ChloridePerRoad)),
		show.Quiet(report.Figure{Key: "chloride_per_area", Label: "Chloride on an area", Value: area}),
		show.Quiet(dry), show.Quiet(v.Figure("chloride_dry_salt", "Its chloride", c.DrySaltChloride)))
}

// afterFigures are what is left after the storm, and for how many more such storms.
func afterFigures(v show.View, a storm.After) []report.Figure {
	storms := report.Figure{Key: "more_storms", Label: "More such storms", Value: report.Nothing("", "as many as may be")}
	if !math.IsInf(a.Storms, 1) {
		storms.Value = report.Number(a.Storms, "", fmt.Sprintf("%.1f", a.Storms))
	}
	return []report.Figure{
		show.Quiet(v.Figure("left_brine", "Brine left", a.Brine)), show.Quiet(show.Known(v, "left_salt", "Salt left", a.Pile)), show.Quiet(storms),
	}
}

// costValue is the cost, and nothing where no price is known.
func costValue(v show.View, c storm.Cost) report.Value {
	if !c.Priced {
		return report.Nothing("", "no prices known")
	}
	return v.Value(c.Total)
}

// costPart is a part of the cost; money is nil where it is not known.
type costPart struct {
	word, key, label string
	money            *quantity.Money
}

func partsOf(c storm.Cost) []costPart {
	return []costPart{
		{"salt", "cost_salt", "Salt", c.Salt}, {"water", "cost_water", "Water", c.Water},
		{"liquids", "cost_additive", "Additive", c.Additive}, {"labour", "cost_labour", "Labour", c.Labour},
		{"driving", "cost_driving", "Driving", c.Driving},
	}
}

// costParts are the parts of the cost in words, those that are known.
func costParts(v show.View, c storm.Cost) report.Figure {
	var parts []string
	for _, part := range partsOf(c) {
		if part.money != nil {
			parts = append(parts, v.Say("%s %v", part.word, *part.money))
		}
	}
	return show.Quiet(report.Figure{Key: "cost_parts", Label: "Of that", Value: report.Word(strings.Join(parts, ", "))})
}

// chloridePerArea shows kg/m2 in the units of the trade.
func chloridePerArea(v show.View, kg float64) report.Value {
	x, unit := kg*float64(quantity.Acre)/float64(quantity.Pound), "lb/acre"
	if v.System == quantity.Metric {
		x, unit = kg*1e4, "kg/ha"
	}
	return report.Number(x, unit, fmt.Sprintf("%.1f %s", x, unit))
}
