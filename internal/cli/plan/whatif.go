package plan

import (
	"slices"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/storm"
	"brineyard/internal/words"
)

// changeable are the flags that a what-if may change.
var changeable = [...]string{"now", "start", "down-by", "low", "reserve", "rate", "passes", "pile", "supply", "liquid", "out", "skip", "first"}

// variant is a plan with what was changed for it.
type variant struct {
	changes string
	plan    storm.Plan
}

// compare plans the storm again for each set of changes.
func (q *stormQuestion) compare(s *run.Session) ([]variant, error) {
	var all []variant
	for _, changes := range q.whatIf {
		p, err := q.planWith(s, changes)
		if err != nil {
			return nil, err
		}
		all = append(all, variant{changes, p})
	}
	return all, nil
}

// planWith asks the same question with changes like rate=30,start=20:00.
func (q *stormQuestion) planWith(s *run.Session, changes string) (storm.Plan, error) {
	changed := asked{orders: q.asked.orders}
	b, err := q.bound.Again(changed.bind)
	if err != nil {
		return storm.Plan{}, err
	}
	if err := apply(b, changes); err != nil {
		return storm.Plan{}, fault.Refuse("--what-if %s: %v", words.Quoted(changes), err)
	}
	scope := s.Scope(nil)
	if err := b.Fill(scope); err != nil {
		return storm.Plan{}, err
	}
	for _, note := range scope.Notes {
		s.Note(note)
	}
	p, err := storm.Make(changed.request)
	if err != nil {
		return p, fault.Refuse("--what-if %s: %v", words.Quoted(changes), b.Explain(err, s.View.System))
	}
	return p, nil
}

// apply types changes over what was typed.
func apply(b *bind.Set, changes string) error {
	typed := map[string]bool{}
	for _, change := range strings.Split(changes, ",") {
		name, value, ok := strings.Cut(change, "=")
		name = strings.TrimSpace(name)
		if truck, out := strings.CutSuffix(value, ":out"); name == "truck" && out {
			name, value = "out", truck
		}
		switch {
		case !ok || !slices.Contains(changeable[:], name):
			return fault.Refuse("%s is no change; allowed: now, start, down-by, low, reserve, rate, passes, pile, supply, liquid, out, skip or first, like rate=30,start=20:00", words.Quoted(change))
		case typed[name]:
			return fault.Refuse("%s comes twice; allowed: once, and --what-if again for another plan", words.Quoted(name))
		}
		typed[name] = true
		if err := b.Type(name, strings.TrimSpace(value)); err != nil {
			return fault.Refuse("%s: %v", words.Quoted(change), err)
		}
	}
	return nil
}

// whatIfColumns are what plans are compared by. A plan whose reserve lacks something needs a
// column for that.
var whatIfColumns = [...]struct {
	key, label string
	value      func(show.View, storm.Plan) report.Value
	reserve    bool // shown only where a reserve lacks something
}{
	{"demanded", "Wanted", func(v show.View, p storm.Plan) report.Value { return v.Value(p.Demanded) }, false},
	{"short", "Short", func(v show.View, p storm.Plan) report.Value { return v.Value(p.Short) }, false},
	{"reserve_short", "Reserve lacks", func(v show.View, p storm.Plan) report.Value { return v.Value(p.ReserveGap) }, true},
	{"down_in_time", "In time", func(v show.View, p storm.Plan) report.Value { return v.Value(p.InTime) }, false},
	{"batches", "Batches", func(v show.View, p storm.Plan) report.Value { return v.Value(quantity.Count(p.Production.Batches)) }, false},
	{"latest", "Begin by", func(v show.View, p storm.Plan) report.Value { return shortTime(v, p.Production.Latest) }, false},
	{"last_back", "Last back", func(v show.View, p storm.Plan) report.Value { return shortTime(v, p.Loading.LastBack()) }, false},
	{"cost", "Cost", func(v show.View, p storm.Plan) report.Value { return costValue(v, p.Cost) }, false},
}

// whatIfTable sets plans side by side.
func whatIfTable(v show.View, plans []variant) report.Table {
	lacking := slices.ContainsFunc(plans, func(p variant) bool { return p.plan.ReserveGap > 0 })
	t := report.Table{Key: "what_if", Title: "What if", Rows: make([][]report.Value, len(plans))}
	for _, c := range whatIfColumns {
		if c.reserve && !lacking {
			continue
		}
		t.Columns = append(t.Columns, report.Column{Key: c.key, Label: c.label})
		for i, p := range plans {
			t.Rows[i] = append(t.Rows[i], c.value(v, p.plan))
		}
	}
	t.Columns = append(t.Columns, report.Column{Key: "plan", Label: "Plan"})
	for i, p := range plans {
		t.Rows[i] = append(t.Rows[i], report.Word(strings.ReplaceAll(p.changes, ",", ", ")))
	}
	return t
}
