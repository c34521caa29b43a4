package plan

import (
	"math"
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/storm"
)

const lineWidth = 60 // characters

// line is a stretch of time, drawn as characters.
type line struct {
	begin, span quantity.Duration
	marks       []byte
}

func newLine(begin, span quantity.Duration) *line {
	return &line{begin, span, []byte(strings.Repeat(".", lineWidth))}
}

// draw marks the time between two moments, with one character at least.
func (l *line) draw(from, to quantity.Duration, mark byte) {
	a := int(float64(from-l.begin) / float64(l.span) * lineWidth)
	b := max(a+1, int(math.Round(float64(to-l.begin)/float64(l.span)*lineWidth)))
	for i := a; i < min(b, lineWidth); i++ {
		l.marks[i] = mark
	}
}

// scale writes the time at every quarter.
func (l *line) scale() string {
	text := []byte(strings.Repeat(" ", lineWidth+6))
	for i := range 5 {
		at := l.begin + quantity.Duration(float64(l.span)*float64(i)/4)
		copy(text[min(i*lineWidth/4, lineWidth-1):], show.HourText(at))
	}
	return strings.TrimRight(string(text), " ")
}

// timeLine draws water and pump from the first job to the last load.
func timeLine(r storm.Request, p storm.Plan) []string {
	span := max(r.Start, p.Loading.LastOut) - r.Now
	if span <= 0 || len(p.Production.Jobs)+len(p.Loading.Loads) == 0 {
		return nil
	}
	water, pump := newLine(r.Now, span), newLine(r.Now, span)
	for _, j := range p.Production.Jobs {
		switch j.Kind {
		case storm.JobFill:
			water.draw(j.Start, j.End, 'f')
		case storm.JobMix:
			pump.draw(j.Start, j.End, 'm')
		default:
			pump.draw(j.Start, j.End, 'p')
		}
	}
	for _, l := range p.Loading.Loads {
		pump.draw(l.Start, l.Out, 'l')
	}
	return []string{
		"Time line: f fill, m mix, p pump off, l load",
		"  water " + string(water.marks), "  pump  " + string(pump.marks), "        " + water.scale(),
	}
}
