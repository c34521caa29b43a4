package drill

import (
	"math"
	"strings"
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// ofKind returns a problem with an answer of a kind.
func ofKind(t testing.TB, k Kind, sys quantity.System) Problem {
	t.Helper()
	topic := map[Kind]Topic{KindVolume: Strong, KindMass: Weak, KindStrength: Reading, KindWord: Valves}[k]
	p, err := first(Request{Seed: 11, Level: 1, Topic: topic, System: sys})
	require.NoError(t, err)
	require.Equal(t, k, p.Answer.Kind)
	return p
}

func TestNoAnswers(t *testing.T) {
	for _, c := range []struct {
		kind    Kind
		text    string
		message string
	}{
		{KindVolume, "", "answer: not a volume; write it like 500gal or 1900L"},
		{KindVolume, "  ", "answer: not a volume; write it like 500gal or 1900L"},
		{KindVolume, "NaN", "answer: not a volume; write it like 500gal or 1900L"},
		{KindVolume, "Inf", "answer: not a volume; write it like 500gal or 1900L"},
		{KindVolume, "50 lb", `answer: "lb" is no unit of a volume; allowed: gal, L, kL, m3`},
		{KindVolume, "50%", `answer: "%" is no unit of a volume; allowed: gal, L, kL, m3`},
		{KindVolume, "-50", "answer: out of range; allowed: 0gal to 26417205gal"},
		{KindMass, "50gal", `answer: "gal" is no unit of a weight; allowed: lb, kg, ton, t`},
		{KindMass, "1e999", "answer: out of range; allowed: 0lb to 220462262lb"},
		{KindStrength, "20F", `answer: "F" is no unit of a strength; allowed: %`},
		{KindStrength, "120", "answer: out of range; allowed: 0% to 100%"},
		{KindWord, "", "answer: none of the answers; allowed: "},
		{KindWord, "12gal", "answer: none of the answers; allowed: "},
	} {
		p := ofKind(t, c.kind, quantity.US)
		_, err := p.Judge(c.text)
		var bad *fault.InputError
		require.ErrorAs(t, err, &bad, c.text)
		require.Equal(t, FieldAnswer, bad.Field)
		require.Contains(t, err.Error(), c.message)
	}
}

// A bare number is in the unit of the system that was asked in.
func TestBareNumbers(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		sys  quantity.System
		want quantity.Quantity
		unit string
	}{
		{KindVolume, quantity.US, 120 * quantity.Gallon, "gal"},
		{KindVolume, quantity.Metric, 120 * quantity.Liter, "L"},
		{KindMass, quantity.US, 120 * quantity.Pound, "lb"},
		{KindMass, quantity.Metric, quantity.Mass(120), "kg"},
	} {
		p := ofKind(t, c.kind, c.sys)
		require.Equal(t, c.unit, p.Unit())
		v, err := p.Judge("120")
		require.NoError(t, err)
		require.InEpsilon(t, si(c.want), si(v.Given), 1e-12)
		v, err = p.Judge("120 " + c.unit)
		require.NoError(t, err)
		require.InEpsilon(t, si(c.want), si(v.Given), 1e-12)
	}
	p := ofKind(t, KindStrength, quantity.Metric)
	v, err := p.Judge("20")
	require.NoError(t, err)
	require.InEpsilon(t, 0.2, si(v.Given), 1e-12)
	require.Empty(t, ofKind(t, KindWord, quantity.US).Unit())
}

// Words differ by case only where the answers do not.
func TestWords(t *testing.T) {
	p := Problem{Answer: wordAnswer("s1", []string{"S1", "s1", "D1"})}
	v, err := p.Judge("s1")
	require.NoError(t, err)
	require.True(t, v.Right)
	v, err = p.Judge("S1")
	require.NoError(t, err)
	require.False(t, v.Right)
	v, err = p.Judge(" d1 ")
	require.NoError(t, err)
	require.Equal(t, fault.Word("D1"), v.Given)
}

// Whatever is typed is refused with a message, or judged with sense.
func FuzzJudge(f *testing.F) {
	for _, s := range []string{"", "52", "52gal", "1e3 L", "S1", "dry run", "23.3%", "NaN", "-1", "1,200gal", "%d", "12%!"} {
		f.Add(s)
	}
	var all []Problem
	for _, k := range []Kind{KindVolume, KindMass, KindStrength, KindWord} {
		all = append(all, ofKind(f, k, quantity.US), ofKind(f, k, quantity.Metric))
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, p := range all {
			v, err := p.Judge(text)
			if err != nil {
				require.NotEmpty(t, err.Error())
				require.True(t, strings.Contains(text, "%!") || !strings.Contains(err.Error(), "%!("), "%q", err)
				continue
			}
			require.NotNil(t, v.Given)
			require.False(t, math.IsNaN(v.Off))
			require.False(t, v.Right && v.Mistake != nil)
			require.True(t, p.Answer.Kind == KindWord || v.Right == (math.Abs(v.Off) <= p.Answer.Tolerance*(1+1e-9)))
		}
	})
}
