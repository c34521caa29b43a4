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
	hour        func(quantity.Duration) string
}

func newLine(v show.View, begin, span quantity.Duration) *line {
	return &line{begin, span, []byte(strings.Repeat(".", lineWidth)), v.Hour}
}

// draw marks the time between two moments, with one character at least.
func (l *line) draw(from, to quantity.Duration, mark byte) {
	a := int(float64(from-l.begin) / float64(l.span) * lineWidth)
	b := max(a+1, int(math.Round(float64(to-l.begin)/float64(l.span)*lineWidth)))
	for i := a; i < min(b, lineWidth); i++ {
		l.marks[i] = mark
	}
}

// least is the room that a time of day takes in the scale.
const least = 7

// scale writes whole hours, as many as have room, each behind a tick.
func (l *line) scale() string {
	text := []byte(strings.Repeat(" ", lineWidth+least))
	for at := l.begin; at <= l.begin+l.span+quantity.Minute; at += hoursApart(l.span) {
		copy(text[int(float64(at-l.begin)/float64(l.span)*lineWidth):], "|"+l.hour(at))
	}
	return strings.TrimRight(string(text), " ")
}

// hoursApart is how many hours lie between two ticks.
func hoursApart(span quantity.Duration) quantity.Duration {
	for _, hours := range []quantity.Duration{1, 2, 3, 4, 6, 12} {
		if apart := hours * hour; float64(apart/span)*lineWidth >= least {
			return apart
		}
	}
	return 24 * hour * quantity.Duration(math.Ceil(float64(span/(24*hour))*least/lineWidth))
}

const hour = 60 * quantity.Minute

// count writes how many of some stretches of time lie at each moment; + for more than nine.
func (l *line) count(from, to []quantity.Duration) {
	for i := range l.marks {
		at, n := l.begin+l.span*quantity.Duration((float64(i)+0.5)/lineWidth), 0
		for k := range from {
			if from[k] <= at && at < to[k] {
				n++
			}
		}
		switch {
		case n > 9:
			l.marks[i] = '+'
		case n > 0:
			l.marks[i] = byte('0' + n)
		}
	}
}

// timeLine draws water, pump and trucks in whole hours, from before the first job to after the last truck is back.
func timeLine(v show.View, r storm.Request, p storm.Plan) []string {
	if len(p.Production.Jobs)+len(p.Loading.Loads) == 0 {
		return nil
	}
	begin := quantity.Duration(math.Floor(float64(r.Now/hour))) * hour
	end := quantity.Duration(math.Ceil(float64(max(r.Start, p.Loading.LastOut, p.Loading.LastBack())/hour))) * hour
	span := max(hour, end-begin)
	water, pump, trucks := newLine(v, begin, span), newLine(v, begin, span), newLine(v, begin, span)
	for _, j := range p.Production.Jobs {
		switch j.Kind {
		case storm.JobFill:
			water.draw(j.Start, j.End, 'f')
		case storm.JobMix, storm.JobCorrect:
			pump.draw(j.Start, j.End, 'm')
		default:
			pump.draw(j.Start, j.End, 'p')
		}
	}
	var out, back []quantity.Duration
	for _, l := range p.Loading.Loads {
		pump.draw(l.Start, l.Out, 'l')
		out, back = append(out, l.Out), append(back, l.Back)
	}
	rows := []string{
		"Time line: f fill; m mix, p pump off, l load; how many trucks are out",
		"  Filling " + string(water.marks), "  Pump    " + string(pump.marks),
	}
	if len(out) > 0 {
		trucks.count(out, back)
		rows = append(rows, "  Trucks  "+string(trucks.marks))
	}
	return append(rows, "          "+water.scale())
}
