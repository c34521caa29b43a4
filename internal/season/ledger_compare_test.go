package season

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state"

	"github.com/stretchr/testify/require"
)

// Over random journals every figure of the season, and of what stands in the yard, is that
// of a ledger of plain sums.
func TestAgainstLedger(t *testing.T) {
	const events = 5000
	for seed := range uint64(20) {
		g := randomJournal{rand.New(rand.NewPCG(seed, 21))}
		y, entries := pricedYard(seed%2 == 0), g.rows(events)
		var period journal.Period
		if seed%3 > 0 { // a part of the season, or all of it
			period.From = entries[g.IntN(1000)].Time.Add(-5 * time.Hour)
			period.To = entries[events-1000+g.IntN(1000)].Time.Add(-5 * time.Hour)
			period.From, period.To = journal.WallClock(period.From), journal.WallClock(period.To)
		}
		report := SumUp(Request{Yard: y, Period: period}, inOrder(entries))
		ledger := newLedger(y)
		ledger.enterAll(entries, period)
		ledger.close()
		requireFigures(t, ledger.figures, figuresOf(report), "seed %d", seed)
		requireProblems(t, ledger.problems, report.Problems)
		requireRolls(t, report.Stocks)
		if seed%3 == 0 {
			requireFigures(t, ledger.standing(), standingIn(state.Replay(y, inOrder(entries))), "seed %d", seed)
		}
	}
}

// requireFigures compares figures by their paths; one that is missing is 0.
func requireFigures(t *testing.T, want, got map[string]float64, format string, args ...any) {
	t.Helper()
	require.Greater(t, len(got), 15)
	paths := maps.Clone(want)
	maps.Copy(paths, got)
	var wrong []string
	for path := range paths {
		if w, g := want[path], got[path]; !(math.Abs(w-g) <= 1e-9*math.Max(math.Abs(w), math.Abs(g))+1e-6) {
			wrong = append(wrong, fmt.Sprintf("%s: %v by the ledger, got %v", path, w, g))
		}
	}
	require.Empty(t, wrong, fmt.Sprintf(format, args...))
}

// requireRolls checks that what stood of a liquid at the end of a month is what stood before it and
// what moved, and stands at the beginning of the next.
func requireRolls(t *testing.T, stocks []Stock) {
	t.Helper()
	stands := map[string]quantity.Volume{}
	for i, s := range stocks {
		sum := s.Opening
		for _, v := range s.Moved {
			sum += v
		}
		require.InDelta(t, float64(sum), float64(s.Closing), 1e-9*math.Max(1, float64(s.Opening)), "%v", s)
		if before, known := stands[s.Liquid]; known || i > 0 && s.Month != stocks[0].Month {
			require.InDelta(t, float64(before), float64(s.Opening), 1e-9, "%v", s)
		}
		stands[s.Liquid] = s.Closing
	}
}

// requireProblems compares how many problems each entry has.
func requireProblems(t *testing.T, want map[int]int, problems []state.Problem) {
	t.Helper()
	texts, left := map[int][]string{}, maps.Clone(want)
	for _, p := range problems {
		left[p.Entry]--
		texts[p.Entry] = append(texts[p.Entry], fault.Sentence(p.Text, p.Args, quantity.US))
	}
	require.NotEmpty(t, problems)
	for entry, n := range left {
		require.Zero(t, n, "entry %d has %d by the ledger, and %q", entry, want[entry], texts[entry])
	}
}

// enterAll enters rows by their times. The clock of the place stands in front of the zone
// in the text of a time.
func (l *ledger) enterAll(entries []journal.Entry, period journal.Period) {
	const clock = "2006-01-02T15:04:05"
	entries = slices.Clone(entries)
	slices.SortStableFunc(entries, func(a, b journal.Entry) int { return cmp.Compare(a.Time.Unix(), b.Time.Unix()) })
	begun := false
	for i := range entries {
		e := &entries[i]
		at := e.Time.Format(clock)
		if !period.To.IsZero() && at >= period.To.Format(clock) {
			continue
		}
		in := begun || period.From.IsZero() || at >= period.From.Format(clock)
		if in && !begun {
			begun = true
			l.in = true
			l.countAll("opening ", l.all())
			l.figures["pile opening"] = l.pile
		}
		l.post(e, in)
	}
}

var substanceNames = [substances]string{"water", "nacl", "kcl", "cacl2", "mgcl2", "product"}

func (l *ledger) countAll(path string, s sums) {
	for i, name := range substanceNames {
		l.count(path+name, s[i])
	}
}

// close works out the figures that stand at the end.
func (l *ledger) close() {
	l.in = true
	l.countAll("closing ", l.all())
	if l.figures["entries"] == 0 {
		l.figures["pile opening"] = l.pile
	}
	for i, w := range l.strengths {
		who, verdict := l.made[i].Operator, "in"
		switch {
		case w < 0.23-5e-6 && w+l.halves[i] >= 0.23, w > 0.24+5e-6 && w-l.halves[i] <= 0.24:
			verdict = "edge"
		case w < 0.23-5e-6:
			verdict = "weak"
		case w > 0.24+5e-6:
			verdict = "strong"
		default:
			l.count("operator "+who+" in", 1)
		}
		l.count("band "+verdict, 1)
		l.count(fmt.Sprint("batch ", i), w)
	}
	l.count("batches", float64(len(l.strengths)))
	for _, r := range l.yard.Routes {
		l.count("route "+r.Name+" rate", l.figures["route "+r.Name+" chloride"]/float64(r.Lanes))
	}
	l.closePile()
	l.closeCosts()
	for name, p := range l.pots {
		l.closeCleanings("cleaning "+name+" ", p)
	}
	for path := range l.figures { // what nobody signed is listed nowhere
		if len(path) > 10 && path[:10] == "operator  " {
			delete(l.figures, path)
		}
	}
}

// closeCosts prices what was used; notKnown stands where the yard has no price.
func (l *ledger) closeCosts() {
	price := func(path string) float64 {
		return 0.08*(l.figures[path+"salt"]+l.figures[path+"spread"]) + 1.1*l.figures[path+"water"]
	}
	for path, liquid := range l.lines {
		used := l.figures[path+"used"]
		l.count(path+"cost", price(path)+330*used)
		if liquid == "syrup" && used > 0 {
			l.figures[path+"cost"] = notKnown
		}
	}
	l.count("at prices", price("total "))
}

// closePile balances the salt over the period.
func (l *ledger) closePile() {
	f := l.figures
	f["pile closing"] = l.pile
	f["pile gone"] = f["pile opening"] + f["pile delivered"] - l.pile
	f["pile elsewhere"] = f["pile spread"] + f["pile on beds"]
	f["pile unexplained"] = f["pile gone"] - f["pile moisture"] - f["pile sludge"] - f["pile in brine"] - f["pile elsewhere"]
	delete(f, "pile spread")
	for _, month := range slices.Sorted(maps.Keys(l.months)) {
		for liquid, v := range l.months[month] {
			f["stood "+month+" "+liquid] = v
		}
	}
}

// closeCleanings works out when a tank is to be cleaned: by the mean of the last five
// cleanings that came after a batch, of which there are to be two where the yard has a rule.
func (l *ledger) closeCleanings(path string, p *pot) {
	var told [][2]float64
	all := p.inAll
	for _, c := range p.cleanings {
		if c[0] > 0 {
			told = append(told, c)
		}
	}
	if p.made == 0 && len(p.cleanings) == 0 {
		return
	}
	told = told[max(0, len(told)-5):]
	every, sludge := float64(l.yard.CleanEvery), 0.0
	if len(told) >= 2 || every == 0 && len(told) == 1 {
		every = 0
		for _, c := range told {
			every += c[0] / float64(len(told))
			sludge += c[1] / float64(len(told))
		}
	} else {
		told = nil
	}
	l.count(path+"learned", float64(len(told)))
	l.count(path+"interval", every)
	l.count(path+"usual", sludge)
	l.count(path+"since", p.made)
	l.count(path+"sludge", p.sludge)
	if every > 0 {
		l.count(path+"left", max(0, every-p.made))
		hours := l.last.Sub(p.first).Hours()
		l.count(path+"due", math.Round(float64(l.last.Unix())+3600*hours*max(0, every-p.made)/all))
	}
}

// standing is what the ledger leaves in the yard.
func (l *ledger) standing() map[string]float64 {
	l.figures = map[string]float64{"pile": l.pile, "pile wet": l.rockWet, "pile pure": l.rockPure}
	for name, p := range l.pots {
		if !p.known && p.in.total() == 0 && p.read == 0 {
			continue
		}
		l.countPot("tank "+name, p)
		l.count("tank "+name+" bed", p.bed)
		l.count("tank "+name+" read", p.read)
		if p.read > 0 && !math.IsNaN(p.wanted) {
			l.count("tank "+name+" drift", p.read-p.wanted)
		}
	}
	for name, p := range l.beside {
		l.countPot("beside "+name, p)
	}
	for name, p := range l.trucks {
		l.countPot("truck "+name, p)
	}
	l.count("pile expected", l.expected)
	return l.figures
}

func (l *ledger) countPot(path string, p *pot) {
	l.countAll(path+" ", p.in)
	l.count(path+" volume", p.in.volume())
	if p.in.total() > 0 {
		l.count(path+" is "+p.of, 1)
	}
	for what, is := range map[string]bool{"known": p.known, "sure": p.sure} {
		if is {
			l.count(path+" "+what, 1)
		}
	}
}
