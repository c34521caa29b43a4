package learn

import (
	"fmt"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/show"
	"brineyard/internal/level"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

// The rest of the wall: what stands in a tank by the stick, and who to call.

// stickRows are the most rows of the stick's chart that leave room on its page.
const stickRows = 10

// stickSheet is the stick's chart of every tank whose shape is known; none where none is.
func (k *sheets) stickSheet() ([]*report.Document, error) {
	tanks := k.shaped()
	if len(tanks) == 0 {
		return nil, nil
	}
	d := &report.Document{
		Command: "card", Title: "In a tank by the stick, without salt on its floor",
		Verdict:  "By the depth on the stick, without salt on the floor.",
		Notes:    []string{k.made},
		Cautions: []string{show.CautionEntry},
	}
	step := k.stickStep(tanks)
	for len(tanks) > 0 {
		n := min(tanksOfStick, len(tanks))
		d.Tables = append(d.Tables, k.stickTable(len(d.Tables), tanks[:n], step))
		tanks = tanks[n:]
	}
	return []*report.Document{d}, nil
}

// tanksOfStick stand beside each other in the stick's chart.
const tanksOfStick = 5

// shaped are the tanks that a stick tells the volume of.
func (k *sheets) shaped() (tanks []yard.Tank) {
	if k.yard == nil {
		return nil
	}
	for _, t := range k.yard.Tanks {
		if t.Bed, t.OnFloor = 0, nil; t.Shape.Form != yard.Unshaped && t.Capacity > 0 {
			tanks = append(tanks, t)
		}
	}
	return tanks
}

// stickStep is the least round step with which the deepest tank has few enough rows.
func (k *sheets) stickStep(tanks []yard.Tank) quantity.Depth {
	steps := []quantity.Depth{3 * quantity.Inch, 6 * quantity.Inch, 12 * quantity.Inch, 24 * quantity.Inch}
	if k.view.System == quantity.Metric {
		steps = []quantity.Depth{10 * quantity.Centimeter, 20 * quantity.Centimeter, 25 * quantity.Centimeter, 50 * quantity.Centimeter}
	}
	for _, step := range steps {
		fits := true
		for _, t := range tanks {
			_, under := stands(t, step*(stickRows+1))
			fits = fits && !under
		}
		if fits {
			return step
		}
	}
	return steps[len(steps)-1]
}

// stands is what stands in a tank at a depth; false above its brim.
func stands(t yard.Tank, depth quantity.Depth) (quantity.Volume, bool) {
	at, err := level.Calculate(bind.StickRequest(t, depth))
	return at.Volume, err == nil && at.Volume <= t.Capacity
}

func (k *sheets) stickTable(nth int, tanks []yard.Tank, step quantity.Depth) report.Table {
	key := "stick"
	if nth > 0 {
		key = fmt.Sprintf("stick_%d", nth+1)
	}
	t := report.Table{Key: key, Title: "The stick's chart", Columns: []report.Column{{Key: "depth", Label: "Depth"}}}
	for _, tank := range tanks {
		t.Columns = append(t.Columns, report.Column{Key: "tank_" + keyOf(tank.Name), Label: tank.Name})
	}
	for depth := step; ; depth += step {
		row, any := []report.Value{k.view.Value(depth)}, false
		for _, tank := range tanks {
			volume, under := stands(tank, depth)
			cell := k.view.Value(volume)
			if !under {
				cell = report.Nothing(cell.Unit, "-")
			}
			row, any = append(row, cell), any || under
		}
		if !any {
			return t
		}
		t.Rows = append(t.Rows, row)
	}
}

// callSheet has room for the numbers that are called when something goes wrong.
func (k *sheets) callSheet() ([]*report.Document, error) {
	t := report.Table{Key: "call", Title: "Who to call", Columns: []report.Column{{Key: "for", Label: "For"}, {Key: "name", Label: "Name"}, {Key: "number", Label: "Number"}}}
	for _, what := range []string{"somebody hurt", "a spill", "foreman", "supervisor", "salt, liquids, pump"} {
		t.Rows = append(t.Rows, []report.Value{report.Word(what), report.Nothing("", ""), report.Nothing("", "")})
	}
	return []*report.Document{{
		Command: "card", Title: "Who to call",
		Verdict:  "Write the numbers in before you need them.",
		Tables:   []report.Table{t},
		Notes:    []string{k.made},
		Cautions: []string{show.CautionLocal},
	}}, nil
}
