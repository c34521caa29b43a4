package drill

import (
	"slices"

	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// moves lists the moves past the pump that the plumbing allows, into tanks that may hold the liquid.
func (s Shop) moves() []lineup.Move {
	p := s.Plumbing
	var all []lineup.Move
	for _, from := range append([]string{yard.FreshWater}, p.Tanks...) {
		for _, to := range append(slices.Clone(p.Tanks), p.Outlets...) {
			m, err := lineup.Plan(p, "", from, to)
			if err == nil && m.Pumped && from != to && s.takes(to, from) && len(m.Setting.Open) > 0 {
				all = append(all, m)
			}
		}
	}
	return all
}

// board is a plumbing with a move that is wanted.
type board struct {
	plumbing yard.Plumbing
	move     lineup.Move
	all      []string // the valves
}

// valveSetting asks which valve to open, at level 2 which one to shut, and at level 3 for the
// fault of a setting.
func valveSetting(d *draw) (draft, error) {
	b := board{plumbing: d.Shop.Plumbing, all: d.Shop.Plumbing.Valves()}
	all := d.Shop.moves()
	if len(all) == 0 {
		return draft{}, errUnfit
	}
	b.move = oneOf(d, all)
	switch d.Level {
	case 1:
		return b.toOpen(d)
	case 2:
		return b.toShut(d)
	}
	return b.fault(d)
}

// judge is the lineup's judgement. All valves exist, so that an error cannot come.
func (b board) judge(open []string) lineup.Setting {
	s, err := lineup.Judge(b.plumbing, "", open)
	if err != nil {
		return lineup.Setting{Findings: []lineup.Finding{{Fault: lineup.DryRun}}}
	}
	return s
}

// does reports whether a setting does the move and nothing else.
func (b board) does(s lineup.Setting) bool {
	return len(s.Findings) == 0 && s.Does(b.move.From, b.move.To)
}

// shut lists the valves that a setting leaves shut.
func (b board) shut(open []string) []string { return without(b.all, open...) }

// without leaves words out of a list.
func without(list []string, out ...string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(w string) bool { return slices.Contains(out, w) })
}

// with puts a word behind a list.
func with(list []string, more string) []string { return append(slices.Clone(list), more) }

// only returns the one word of a list that passes.
func only(list []string, pass func(string) bool) (string, bool) {
	passed := slices.DeleteFunc(slices.Clone(list), func(w string) bool { return !pass(w) })
	if len(passed) != 1 {
		return "", false
	}
	return passed[0], true
}

// toOpen leaves one valve of the move shut and asks for it.
func (b board) toOpen(d *draw) (draft, error) {
	missing := oneOf(d, b.move.Setting.Open)
	open := without(b.move.Setting.Open, missing)
	shut := b.shut(open)
	if _, ok := only(shut, func(v string) bool { return b.does(b.judge(with(open, v))) }); !ok {
		return draft{}, errUnfit
	}
	var out draft
	out.Question = "The pump is to draw from %v and to deliver to %v. Open so far: %v. Which valve do you open as well?"
	out.Args = []quantity.Quantity{fault.Word(b.move.From), fault.Word(b.move.To), listed(open)}
	out.Answer = wordAnswer(missing, shut)
	suction := len(b.judge([]string{missing}).Sources) > 0
	for _, v := range without(shut, missing) {
		s := b.judge([]string{v})
		switch {
		case suction && slices.Contains(s.Outlets, b.move.From), !suction && slices.Contains(s.Sources, b.move.To):
			out.Mistakes = append(out.Mistakes, wrongSide.to(fault.Word(v)))
		case suction && len(s.Sources) > 0, !suction && len(s.Outlets) > 0:
			out.Mistakes = append(out.Mistakes, wrongPlace.to(fault.Word(v)))
		}
	}
	b.note(&out.Working, b.move.Setting.Open)
	return out, nil
}

// toShut opens one valve too many and asks for it.
func (b board) toShut(d *draw) (draft, error) {
	closed := b.shut(b.move.Setting.Open)
	if len(closed) == 0 {
		return draft{}, errUnfit
	}
	extra := oneOf(d, closed)
	open := b.inOrder(with(b.move.Setting.Open, extra))
	now := b.judge(open)
	if len(now.Sources)+len(now.Outlets) < 3 {
		return draft{}, errUnfit // the extra valve leads to no place that the pump reaches
	}
	if _, ok := only(open, func(v string) bool { return b.does(b.judge(without(open, v))) }); !ok {
		return draft{}, errUnfit
	}
	var out draft
	out.Question = "The pump is to draw from %v alone and to deliver to %v alone. Open: %v. Which valve do you shut?"
	out.Args = []quantity.Quantity{fault.Word(b.move.From), fault.Word(b.move.To), listed(open)}
	out.Answer = wordAnswer(extra, open)
	suction := len(b.judge([]string{extra}).Sources) > 0
	for _, v := range b.move.Setting.Open {
		if alone := b.judge([]string{v}); suction == (len(alone.Sources) > 0) {
			out.Mistakes = append(out.Mistakes, shutWanted.to(fault.Word(v)))
			continue
		}
		out.Mistakes = append(out.Mistakes, wrongSide.to(fault.Word(v)))
	}
	b.note(&out.Working, b.move.Setting.Open)
	return out, nil
}

// note puts a setting into a problem's working.
func (b board) note(w *Working, open []string) {
	s := b.judge(open)
	w.Lineup = &Lineup{Plumbing: b.plumbing, From: b.move.From, To: b.move.To, Open: open}
	w.LineupSetting = &s
}

// inOrder puts valves into the plumbing's order, so that the order gives no hint.
func (b board) inOrder(open []string) []string {
	return slices.DeleteFunc(slices.Clone(b.all), func(v string) bool { return !slices.Contains(open, v) })
}

// listed joins valves in a sentence.
func listed(valves []string) fault.Word {
	if len(valves) == 0 {
		return "none"
	}
	text := valves[0]
	for i, v := range valves[1:] {
		if i == len(valves)-2 {
			text += " and " + v
			continue
		}
		text += ", " + v
	}
	return fault.Word(text)
}
