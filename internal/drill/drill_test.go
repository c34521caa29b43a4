package drill

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// problems is how many are drawn for the tests of what holds of any.
const problems = 1000

// first draws the first problem of a request.
func first(r Request) (Problem, error) { return NewSet(r).Next() }

// anyRequest goes through levels, systems and yards.
func anyRequest(n int) Request {
	shops := []Shop{{}, villageShop(), metricShop()}
	return Request{
		Seed: uint64(n), Level: Lowest + n%Highest,
		System: quantity.System(n / 3 % 2), Shop: shops[n/6%3],
	}
}

// eachProblem draws the problems, and checks one after another.
func eachProblem(t *testing.T, check func(*testing.T, Problem)) {
	t.Helper()
	all, err := drawn()
	require.NoError(t, err)
	for n, p := range all {
		check(t, p)
		if t.Failed() {
			t.Fatalf("problem %d: %s", n, p.Text())
		}
	}
}

// drawn draws them once for all tests.
var drawn = sync.OnceValues(func() ([]Problem, error) {
	var all []Problem
	for n := range problems {
		p, err := first(anyRequest(n))
		if err != nil {
			return nil, fmt.Errorf("problem %d: %w", n, err)
		}
		all = append(all, p)
	}
	return all, nil
})

// typed is a quantity as a person types it.
func typed(q quantity.Quantity, sys quantity.System) string {
	shown := q.In(sys)
	return quantity.Plain(shown.Digits()) + shown.Unit
}

// exactly is a quantity with all its digits.
func exactly(q quantity.Quantity, sys quantity.System) string {
	if w, ok := q.(fault.Word); ok {
		return string(w)
	}
	shown := q.In(sys)
	return fmt.Sprintf("%.9f%s", shown.Value, shown.Unit)
}

// The printed answer is right in either system's unit and without one; what lies
// three tolerances off either way is not.
func TestRightAnswers(t *testing.T) {
	eachProblem(t, func(t *testing.T, p Problem) {
		answers := []string{typed(p.Answer.Value, p.System), " " + strings.ToUpper(typed(p.Answer.Value, p.System))}
		if p.Answer.Kind != KindWord {
			other := quantity.Metric - p.System
			answers = append(answers, strings.TrimSuffix(answers[0], p.Unit()), exactly(p.Answer.Value, other))
		}
		for _, text := range answers {
			v, err := p.Judge(text)
			require.NoError(t, err)
			require.True(t, v.Right, text)
			require.Nil(t, v.Mistake)
		}
		if p.Answer.Kind == KindWord {
			return
		}
		for _, sign := range []float64{-1, 1} {
			x := si(p.Answer.Value) * (1 + sign*0.03)
			if p.Answer.Kind == KindStrength {
				x = si(p.Answer.Value) + sign*0.003
			}
			v, err := p.Judge(exactly(p.Answer.like(x), p.System))
			require.NoError(t, err)
			require.False(t, v.Right)
			require.Equal(t, sign > 0, v.Off > 0)
			require.InDelta(t, 3*p.Answer.Tolerance, math.Abs(v.Off), 1e-6)
		}
	})
}

// Each wrong method's answer is refused, and told by name.
func TestMistakesAreNamed(t *testing.T) {
	eachProblem(t, func(t *testing.T, p Problem) {
		require.NotEmpty(t, p.Mistakes)
		for _, m := range p.Mistakes {
			v, err := p.Judge(exactly(m.Answer, p.System))
			require.NoError(t, err)
			require.False(t, v.Right)
			require.NotNil(t, v.Mistake, m.Name)
			require.Equal(t, m.Name, v.Mistake.Name)
			require.NotEmpty(t, m.Explain)
			v, err = p.Judge(typed(m.Answer, p.System))
			require.NoError(t, err)
			require.False(t, v.Right, "as printed: %s", m.Name)
		}
		for i, m := range p.Mistakes {
			if p.Answer.Kind == KindWord {
				require.Contains(t, p.Answer.Words, string(m.Answer.(fault.Word)))
				continue
			}
			require.Greater(t, math.Abs(p.Answer.off(m.Answer, p.Answer.Value)), 3*p.Answer.Tolerance)
			for _, n := range p.Mistakes[:i] {
				require.Greater(t, math.Abs(p.Answer.off(m.Answer, n.Answer)), 2*p.Answer.Tolerance)
			}
		}
	})
}

// What goes wrong without a known cause is refused without one.
func TestUnknownCause(t *testing.T) {
	p, err := first(Request{Seed: 4, Level: 1, Topic: Strong})
	require.NoError(t, err)
	v, err := p.Judge(exactly(p.Answer.Value.(quantity.Volume)*10, p.System))
	require.NoError(t, err)
	require.False(t, v.Right)
	require.Nil(t, v.Mistake)
	require.InDelta(t, 9, v.Off, 1e-6)
}

// Salt and weight in a tank balance: what was in it less what is drawn off, and what
// is added, is brine on target.
func TestTanksBalance(t *testing.T) {
	seen := map[Topic]int{}
	eachProblem(t, func(t *testing.T, p Problem) {
		r, c := p.Working.Correct, p.Working.Correction
		if r == nil {
			return
		}
		seen[p.Topic]++
		stays := float64(r.Volume-c.DrawOffFirst) * float64(c.TankDensity)
		salt, weight := stays*float64(r.Strength), stays
		switch {
		case p.Topic == Weak:
			added := si(p.Answer.Value)
			pure := added * (1 - float64(r.RockSalt.Moisture)) * float64(r.RockSalt.Purity)
			salt += pure
			weight += pure + added*float64(r.RockSalt.Moisture)
		case p.Answer.Value == quantity.Quantity(c.DrawOffFirst):
			weight += float64(c.Water) * float64(c.AddDensity)
		default:
			weight += si(p.Answer.Value) * float64(c.AddDensity)
		}
		require.InEpsilon(t, float64(r.Target), salt/weight, 1e-9)
		if r.Capacity > 0 {
			require.InEpsilon(t, float64(r.Capacity), weight/float64(c.EndDensity), 1e-9)
		}
	})
	require.Greater(t, seen[Strong], 50)
	require.Greater(t, seen[Weak], 50)
}

// A number in a question is exactly what is printed of it, but for densities, and
// has few digits.
func TestRoundNumbers(t *testing.T) {
	silly := regexp.MustCompile(`\.\d{3}|NaN|Inf|%!|\d-`)
	names := regexp.MustCompile(`truck-fill|floor-drain|lot-brine|larch-acetate|big-sprayer|lot-pickup`)
	eachProblem(t, func(t *testing.T, p Problem) {
		require.False(t, silly.MatchString(names.ReplaceAllString(p.Text(), "")), p.Text())
		require.True(t, strings.HasSuffix(p.Text(), "?"))
		for _, q := range p.Args {
			shown := q.In(p.System)
			switch q.(type) {
			case fault.Word, quantity.Density:
			default:
				require.InDelta(t, shown.Value, digits(shown), 1e-6, "%v", shown)
			}
			switch q.(type) {
			case quantity.Volume:
				require.InDelta(t, 0, math.Remainder(shown.Value, 5), 1e-6, "%v", shown)
			case quantity.Mass:
				require.InDelta(t, 0, math.Remainder(shown.Value, 10), 1e-6, "%v", shown)
			}
		}
	})
}

// At level 1 the numbers are rounder.
func TestFirstLevelIsRound(t *testing.T) {
	for n := range uint64(50) {
		p, err := first(Request{Seed: n, Level: 1, Topic: Strong})
		require.NoError(t, err)
		r := p.Working.Correct
		require.InDelta(t, 0, math.Remainder(float64(r.Volume/quantity.Gallon), 50), 1e-6)
		require.InDelta(t, 0, math.Remainder(1000*float64(r.Strength), 5), 1e-6)
		require.Equal(t, quantity.Fahrenheit(60), r.Temperature)
	}
}

// The numbers that the question prints lead to the answer with a pocket calculator.
func TestPrintedNumbersLeadThere(t *testing.T) {
	fit := 0
	for n := range 300 {
		r := anyRequest(n)
		r.Shop = r.Shop.filled()
		for _, topic := range r.Shop.topics() {
			p, ok := r.draw(topic)
			require.True(t, ok, "%v %v", topic.name, r.Level)
			if topic.name != Truck || p.Working.Truck.Haul > 0 {
				continue
			}
			q := p.Working.Truck
			density := digits(p.Working.TruckResult.Density.In(p.System))
			load := (digits(q.Gross.In(p.System)) - digits(q.Empty.In(p.System))) / density
			if p.System == quantity.Metric {
				load *= 1000
			}
			load = math.Min(load, digits(q.Tank.In(p.System)))
			require.InEpsilon(t, p.Answer.Value.In(p.System).Value, load, 0.004)
			fit++
		}
	}
	require.Greater(t, fit, 50)
}

// Every topic and level comes up, of each topic many problems.
func TestVariety(t *testing.T) {
	seen, texts := map[string]int{}, map[Topic]map[string]bool{}
	eachProblem(t, func(_ *testing.T, p Problem) {
		seen[fmt.Sprint(p.Topic, p.Level)]++
		if texts[p.Topic] == nil {
			texts[p.Topic] = map[string]bool{}
		}
		texts[p.Topic][p.Text()] = true
	})
	for _, topic := range Topics() {
		for level := Lowest; level <= Highest; level++ {
			require.Greater(t, seen[fmt.Sprint(topic, level)], 15, "%v %v", topic, level)
		}
		require.Greater(t, len(texts[topic]), 50, topic)
	}
}

// The same request gives the same problem, another seed another one.
func TestSameSeedSameProblem(t *testing.T) {
	for n := range 60 {
		a, err := first(anyRequest(n))
		require.NoError(t, err)
		b, err := first(anyRequest(n))
		require.NoError(t, err)
		require.Equal(t, a, b)
	}
}

// Each mistake comes up in some problem: none is unreachable.
func TestEveryMistakeComesUp(t *testing.T) {
	seen := map[string]bool{}
	eachProblem(t, func(_ *testing.T, p Problem) {
		for _, m := range p.Mistakes {
			seen[m.Name] = true
		}
	})
	for _, s := range []slip{
		byVolume, noTemperature, wrongWay, ofVolume, ofOldStrength, overflowOnly, noDrawOff, asWater, ownWeight, asPure,
		noHeel, heelOnTarget, ofWater, onTop, saltRoom, noBucket, plainMean, otherDensity, swapped, notDiluted,
		tankFilled, noTruck, noGear, weightAlone, wrongSide, wrongPlace, shutWanted, halfChecked,
	} {
		require.True(t, seen[s.name], s.name)
		require.Equal(t, 1, strings.Count(s.explain, "."), "one sentence: %s", s.explain)
	}
}

// Topics without their equipment are left out; with no equipment at all the default
// shop serves.
func TestTopicsOfAShop(t *testing.T) {
	require.Equal(t, Topics(), Shop{}.Topics())
	trucks := Shop{Trucks: DefaultShop().Trucks}
	require.Equal(t, []Topic{Reading, Blend, Truck}, trucks.Topics())
	require.NotContains(t, Shop{Tanks: DefaultShop().Tanks[:1]}.Topics(), Truck)
	require.NotContains(t, Shop{Tanks: DefaultShop().Tanks[1:]}.Topics(), Heel)
	for n := range 100 {
		p, err := first(Request{Seed: uint64(n), Level: Lowest + n%Highest, Shop: trucks})
		require.NoError(t, err)
		require.True(t, slices.Contains(trucks.Topics(), p.Topic))
	}
}

func TestRefusedRequests(t *testing.T) {
	hopeless := DefaultShop()
	hopeless.Band = yard.Band{Target: 0.26, Low: 0.25, High: 0.262}
	for _, c := range []struct {
		request Request
		message string
	}{
		{Request{Level: 0}, "level: no such level; allowed: 1, 2, 3"},
		{Request{Level: 4}, "level: no such level; allowed: 1, 2, 3"},
		{Request{Level: 1, Topic: "taxes"}, "topic: no such topic with this equipment; allowed: strong, weak, reading, heel, blend, truck, valves"},
		{Request{Level: 1, Topic: Valves, Shop: Shop{Trucks: DefaultShop().Trucks}}, "topic: no such topic with this equipment; allowed: reading, blend, truck"},
		{Request{Level: 1, Topic: Strong, Shop: hopeless}, "topic: these numbers give no problem of strong at this level; allowed: another topic or level"},
	} {
		_, err := first(c.request)
		var bad *fault.InputError
		require.ErrorAs(t, err, &bad)
		require.EqualError(t, err, c.message)
	}
	p, err := first(Request{Seed: 1, Level: 1, Shop: hopeless})
	require.NoError(t, err, "another topic serves")
	require.NotEqual(t, Strong, p.Topic)
}

// like gives a number in SI the type of the answer.
func (a Answer) like(x float64) quantity.Quantity {
	switch a.Kind {
	case KindVolume:
		return quantity.Volume(x)
	case KindMass:
		return quantity.Mass(x)
	}
	return quantity.Strength(x)
}
