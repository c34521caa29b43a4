package drill

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// drawFor returns a draw at a level; the tests draw nothing from it.
func drawFor(level int, sys quantity.System) *draw {
	return &draw{Request: Request{Level: level, System: sys, Shop: DefaultShop()}}
}

// worked compares a draft with an answer and mistakes that were worked out by hand,
// in the unit of the answer, within what the source's digits are good for.
func worked(t *testing.T, s draft, sys quantity.System, answer float64, mistakes map[string]float64) {
	t.Helper()
	const within = 3e-3 // the sources' densities differ from the program's by up to 0.15 %
	workedWithin(t, within, s, sys, answer, mistakes)
}

func workedWithin(t *testing.T, within float64, s draft, sys quantity.System, answer float64, mistakes map[string]float64) {
	t.Helper()
	require.InEpsilon(t, answer, s.Answer.Value.In(sys).Value, within)
	require.InEpsilon(t, answer, s.byHand, within)
	require.Len(t, s.Mistakes, len(mistakes))
	for _, m := range s.Mistakes {
		require.InEpsilon(t, mistakes[m.Name], m.Answer.In(sys).Value, within, m.Name)
	}
}

var fifteen = quantity.Celsius(15)

// Source of the densities: testdata/published/simion-nacl-density.csv, 15 C: 26 %
// 1199.45, 23.3 % 1177.14; water 999.10 (CRC Handbook). 1000 L of 26 % weigh
// 1199.45 kg and hold 311.86 kg of salt, enough for 1338.44 kg of 23.3 %: 138.99 kg
// of water are missing, 139.1 L. By volume 1000 x (26/23.3 - 1) = 115.9 L; over the
// old strength 139.1 x 23.3/26 = 124.7; 2.7 % of 1000 L = 27.
func TestWorkedStrongTank(t *testing.T) {
	s := strong{offTarget: offTarget{request: brine.CorrectRequest{
		Volume: 1, Strength: 0.26, Target: 0.233, Temperature: fifteen, With: brine.AddWater, RockSalt: yard.PureSalt(),
		Instrument: drawFor(1, quantity.Metric).instrument(),
	}}}
	var err error
	s.result, err = brine.Correct(s.request)
	require.NoError(t, err)
	worked(t, s.draft(drawFor(1, quantity.Metric)), quantity.Metric, 139.1, map[string]float64{
		byVolume.name: 115.9, ofOldStrength.name: 124.7, ofVolume.name: 27,
	})
}

// The same in a tank that holds 1050 L and no more: 1338.44 kg of 23.3 % would be
// 1137.03 L, of which 1050 / 1137.03 = 0.92346 fits. So 76.54 L are drawn off and
// 128.5 L of water added. By volume it comes to 1115.88 L, hence 1000 x (1 -
// 1050/1115.88) = 59.04 and 109.04; the overflow is 87.03.
func TestWorkedFullTank(t *testing.T) {
	s := strong{drawOff: true, offTarget: offTarget{request: brine.CorrectRequest{
		Volume: 1, Strength: 0.26, Target: 0.233, Temperature: fifteen, With: brine.AddWater, RockSalt: yard.PureSalt(),
		Capacity: 1.05, Instrument: drawFor(3, quantity.Metric).instrument(),
	}}}
	var err error
	s.result, err = brine.Correct(s.request)
	require.NoError(t, err)
	// What is drawn off is 7.7 % of the tank, so that a density's error counts 13-fold.
	workedWithin(t, 13e-3, s.draft(drawFor(3, quantity.Metric)), quantity.Metric, 76.54, map[string]float64{
		byVolume.name: 59.04, overflowOnly.name: 87.03,
	})
	s.drawOff = false
	worked(t, s.draft(drawFor(3, quantity.Metric)), quantity.Metric, 128.5, map[string]float64{
		byVolume.name: 109.04, noDrawOff.name: 139.1,
	})
}

// Source: Simion, 20 % at 15 C 1150.35; water 999.10. Short by 3.3 % of 1150.35 kg,
// 37.96 kg, and each kg of salt brings 1 - 0.233: 49.49 kg. As water 999.10 x 0.033 /
// 0.767 = 42.99; own weight forgotten 37.96; percent of the volume 32.97.
//
// Of salt with 2 % of water and 96 % pure, a kg holds 0.9408 of NaCl and brings
// 0.9408 - 0.233 x 0.9608 = 0.71693: 52.95 kg; as water 45.99, own weight forgotten
// 37.96 / 0.9408 = 40.35.
func TestWorkedWeakTank(t *testing.T) {
	for level, c := range map[int]struct {
		salt     yard.RockSalt
		answer   float64
		mistakes map[string]float64
	}{
		1: {yard.PureSalt(), 49.49, map[string]float64{asWater.name: 42.99, ownWeight.name: 37.96, ofVolume.name: 32.97}},
		2: {yard.RockSalt{Purity: 0.96, Moisture: 0.02}, 52.95, map[string]float64{
			asPure.name: 49.49, asWater.name: 45.99, ownWeight.name: 40.35, ofVolume.name: 32.97,
		}},
	} {
		w := weak{offTarget: offTarget{request: brine.CorrectRequest{
			Volume: 1, Strength: 0.2, Target: 0.233, Temperature: fifteen, With: brine.AddSalt, RockSalt: c.salt,
			Instrument: drawFor(level, quantity.Metric).instrument(),
		}}}
		var err error
		w.result, err = brine.Correct(w.request)
		require.NoError(t, err)
		w.water, err = waterDensity(fifteen)
		require.NoError(t, err)
		worked(t, w.draft(drawFor(level, quantity.Metric)), quantity.Metric, c.answer, c.mistakes)
	}
}

// Source: Simion: brine of 23.3 % has 1184.28 at 0 C. Glass marked for 15 C is 0.0375 %
// smaller there and floats as in 1183.84, which at 15 C is brine of 23.3 + 2.7 x
// (1183.84 - 1177.14) / (1199.45 - 1177.14) = 24.11 %. So 24.1 % at 0 C means 23.3 %
// within a tenth, and corrected the wrong way 24.9 %.
func TestWorkedReading(t *testing.T) {
	i := drawFor(1, quantity.Metric).instrument()
	i.Calibration = float64(fifteen)
	g := glass{
		sample:  brine.Sample{Instrument: i, Reading: 0.241, Temperature: quantity.Celsius(0)},
		reading: 0.241, rule: 0.0027, each: 5, byRule: 0.241 - 3*0.0027,
	}
	var err error
	g.result, err = brine.Reading(g.sample)
	require.NoError(t, err)
	s := trueStrength(g)
	require.InDelta(t, 0.233, si(s.Answer.Value), 1e-3)
	require.InDelta(t, 23.29, s.byHand, 1e-9)
	require.Equal(t, quantity.Strength(0.241), s.Mistakes[0].Answer)
	require.InDelta(t, 0.249, si(s.Mistakes[1].Answer), 1e-3)
}

// Source: Simion, 23.3 % 1177.14 at 15 C, 1174.66 at 20 C; a batch cools between the
// two. 750 L above the heel, of 1176 kg/m3, weigh 882 kg and hold 205.5 kg of salt.
// For the whole tank 274.0; as water (998.2) 174.4; on top of the water 748.65 x
// 0.233 / 0.767 = 227.4.
func TestWorkedHeel(t *testing.T) {
	h := heel{request: brine.BatchRequest{
		Volume: 1, Target: 0.233, HeelVolume: 0.25, HeelStrength: 0.233, HeelTemp: quantity.Celsius(20), WaterTemp: quantity.Celsius(20),
		RockSalt: yard.PureSalt(), Instrument: drawFor(1, quantity.Metric).instrument(),
	}}
	var err error
	h.result, err = brine.NewBatch(h.request)
	require.NoError(t, err)
	h.heelRho, err = balance.SaltBrine(0.233).Density(quantity.Celsius(20))
	require.NoError(t, err)
	worked(t, h.draft(drawFor(1, quantity.Metric)), quantity.Metric, 205.5, map[string]float64{
		noHeel.name: 274, asWater.name: 174.4, ofWater.name: 174.4, onTop.name: 227.4,
	})
}

// Source of the densities: CRC Handbook (testdata/published/crc-2021-nacl.csv), 20 C:
// 20 % 1.1478; water 0.9982. 600 L of the one weigh 688.68 kg and hold 137.74 kg of
// salt, 200 L of water 199.64 kg: 137.74 / 888.32 = 15.51 %. By volume 600 x 20 / 800
// = 15; plainly averaged 10; swapped 45.91 / 828.48 = 5.542.
func TestWorkedBlend(t *testing.T) {
	s, err := mixed(drawFor(1, quantity.Metric), named{"brine", balance.SaltBrine(0.2)}, named{"water", balance.SaltBrine(0)},
		[2]quantity.Volume{0.6, 0.2}, quantity.Celsius(20))
	require.NoError(t, err)
	worked(t, s, quantity.Metric, 15.51, map[string]float64{
		byVolume.name: 15, plainMean.name: 10, swapped.name: 5.542, notDiluted.name: 20,
	})
}

// Source: CRC Handbook, 20 C: 10 % 1.0707, 25 % 1.1887; water 0.9982. 1000 L of 10 %
// weigh 1070.7 kg; 0.4 of that is brine of 25 %, 428.28 kg or 360.3 L, the rest 642.42
// kg or 643.6 L of water. Of the brine by volume 400; with water's density 429.05;
// swapped 540.4. Of the water 600; 540.4; 429.05.
func TestWorkedDilution(t *testing.T) {
	for which, c := range []struct{ answer, even, other, swap float64 }{
		{360.3, 400, 429.05, 540.4}, {643.6, 600, 540.4, 429.05},
	} {
		s, err := diluted(drawFor(3, quantity.Metric), 0.25, 0.1, 1, quantity.Celsius(20), which)
		require.NoError(t, err)
		worked(t, s, quantity.Metric, c.answer, map[string]float64{
			byVolume.name: c.even, otherDensity.name: c.other, swapped.name: c.swap,
		})
	}
}

// Source: brine of 23.3 % at 60 F weighs 9.82 lb/gal (1177 kg/m3, Simion at 15 C is
// 1177.14), water 8.34 (NIST Handbook 44: 8.337 at 60 F, from memory). 33,000 - 19,000
// leaves 14,000 lb: 1425.7 gal. As water 1678.7; the tank 1800; without the truck's
// own weight 3360.5. With 1,000 lb of gear 1323.8, and 1425.7 when it is forgotten; of
// 4,000 gal the last load is then 4000 - 3 x 1323.8 = 28.6.
func TestWorkedTruck(t *testing.T) {
	h := haul{truck: DefaultShop().Trucks[0], strong: 0.233}
	load := func(h haul) draft {
		h.request = truck.Request{
			Liquid: balance.SaltBrine(0.233), Temperature: quantity.Fahrenheit(60),
			Tank: h.truck.Tank, Empty: h.truck.Empty + h.gear, Gross: h.truck.Gross,
		}
		var err error
		h.result, err = truck.Calculate(h.request)
		require.NoError(t, err)
		h.water, err = waterDensity(quantity.Fahrenheit(60))
		require.NoError(t, err)
		return h.draft(drawFor(2, quantity.US))
	}
	worked(t, load(h), quantity.US, 1425.7, map[string]float64{
		asWater.name: 1678.7, tankFilled.name: 1800, noTruck.name: 3360.5,
	})
	h.gear = 1000 * quantity.Pound
	worked(t, load(h), quantity.US, 1323.8, map[string]float64{
		asWater.name: 1558.8, tankFilled.name: 1800, noTruck.name: 3258.7, noGear.name: 1425.7,
	})
	// The pickup may carry 2,900 lb, 295.3 gal, but its tank holds 200.
	pickup := haul{truck: DefaultShop().Trucks[1], strong: 0.233}
	worked(t, load(pickup), quantity.US, 200, map[string]float64{weightAlone.name: 295.3})
	last := loading{tank: 1800, gross: 33000, empty: 19000, gear: 1000, density: 9.82, haul: 4000}
	require.InDelta(t, 28.6, last.solve(), 0.1)
	last.haul = 2 * last.byWeight() // whole loads: the last one is full
	require.InDelta(t, 1323.8, last.solve(), 0.1)
}

// The default shop's pump draws by S1 from the mixer, by S2 from east; it delivers by
// D4 to the truck, by D1 to the mixer.
func TestWorkedSettings(t *testing.T) {
	b := board{plumbing: defaultPlumbing()}
	for _, c := range []struct {
		open []string
		want string
	}{
		{[]string{"S1", "D4"}, Safe},
		{[]string{"S1", "D2"}, Safe},
		{[]string{"S1", "D3", "D4"}, string(lineup.TwoOutlets)},
		{[]string{"D4"}, string(lineup.DryRun)},
		{[]string{"S1"}, string(lineup.DeadHead)},
		{[]string{"S1", "S2", "D4"}, string(lineup.TwoSources)},
		{[]string{}, ""},                 // runs dry and pumps against shut valves
		{[]string{"S1", "D2", "D3"}, ""}, // two tanks level out
		{[]string{"S1", "S2"}, ""},       // two faults
		{[]string{"S1", "S2", "D2"}, string(lineup.TwoSources)},
	} {
		require.Equal(t, c.want, verdict(b.judge(c.open)), "%v", c.open)
	}
}

// The wrong valves are told by what they really do: D1 leads to the mixer that the
// pump is to draw from, S2 and S3 draw from elsewhere, D2, D3 and F1 explain nothing.
func TestWrongValves(t *testing.T) {
	for n := range uint64(200) {
		p, err := first(Request{Seed: n, Level: 1, Topic: Valves})
		require.NoError(t, err)
		if line := p.Working.Lineup; line.From != "mixer" || line.To != "truck-fill" || p.Answer.Value != fault.Word("S1") {
			continue
		}
		got := map[quantity.Quantity]string{}
		for _, m := range p.Mistakes {
			got[m.Answer] = m.Name
		}
		require.Equal(t, map[quantity.Quantity]string{
			fault.Word("S2"): wrongPlace.name, fault.Word("S3"): wrongPlace.name, fault.Word("D1"): wrongSide.name,
		}, got)
		return
	}
	t.Fatal("the move does not come up")
}

// A setting that joins fresh water to brine is not what was asked for, though the pump
// draws from one place and delivers to one.
func TestBackflowIsNoAnswer(t *testing.T) {
	b := board{plumbing: defaultPlumbing(), move: lineup.Move{From: "mixer", To: "truck-fill"}}
	b.plumbing.Links = append(b.plumbing.Links, yard.Link{Name: "F9", A: yard.FreshWater, B: "mixer", Valve: true})
	require.True(t, b.does(b.judge([]string{"S1", "D4"})))
	s := b.judge([]string{"S1", "D4", "F9"})
	require.Equal(t, []string{"mixer"}, s.Sources)
	require.False(t, b.does(s))
}

// The decision that the reading gives by itself is the check's own, where it is wrong.
func TestForgottenTemperatureIsTheChecks(t *testing.T) {
	seen := 0
	for n := range uint64(200) {
		p, err := first(Request{Seed: n, Level: Highest, Topic: Reading})
		require.NoError(t, err)
		c := p.Working.CheckResult
		if c == nil {
			continue
		}
		require.Equal(t, fault.Word(c.Decision.String()), p.Answer.Value)
		for _, m := range p.Mistakes {
			if m.Name == noTemperature.name {
				require.Equal(t, fault.Word(c.Naive.String()), m.Answer)
				seen++
			}
		}
	}
	require.Greater(t, seen, 10)
}

// Each valve problem is true by the lineup's own judgement of every answer.
func TestValveAnswers(t *testing.T) {
	for n := range uint64(200) {
		p, err := first(Request{Seed: n, Level: Lowest + int(n)%2, Topic: Valves, Shop: villageShop()})
		require.NoError(t, err)
		line := p.Working.Lineup
		right := p.Answer.Value.(fault.Word)
		require.Empty(t, p.Working.LineupSetting.Findings)
		for _, w := range p.Answer.Words {
			open := with(without(line.Open, string(right)), w) // opened instead of the right one
			if p.Level == 2 {
				open = without(with(line.Open, string(right)), w) // shut instead of it
			}
			s, err := lineup.Judge(line.Plumbing, "", open)
			require.NoError(t, err)
			fit := len(s.Findings) == 0 && len(s.Sources) == 1 && s.Sources[0] == line.From && len(s.Outlets) == 1 && s.Outlets[0] == line.To
			require.Equal(t, fault.Word(w) == right, fit, "%s: %s", p.Text(), w)
		}
	}
}

// Problems by seed, so that a change of how they are drawn is seen, and another
// platform that draws others.
func TestPinnedProblems(t *testing.T) {
	for _, c := range []struct {
		request      Request
		text, answer string
	}{
		{anyRequest(0), "The tank mixer holds 550 gal of brine of 15.5% at 60 F. It is to have 23.3%. The brine in it weighs 9.30 lb/gal, water 8.34 lb/gal. How much pure, dry salt do you add?", "520 lb"},
		{anyRequest(1), "730 gal of brine with 25% of salt (NaCl) and 600 gal of weak brine with 2.8% of it are mixed at 48 F. The one weighs 9.97 lb/gal, the other 8.51 lb/gal. What is the strength of the mix in NaCl?", "15.84%"},
		{anyRequest(2), "560 gal of brine of 5.3% is wanted for rinsing, at 53 F, made of brine of 20.2% and water. Brine of 20.2% weighs 9.63 lb/gal, water 8.34 lb/gal, and what is wanted 8.66 lb/gal. Volumes do not add up exactly. How much water goes into it?", "429 gal"},
		{anyRequest(3), "The tank mixer holds 3 600 L of brine of 16% at 15 C. It is to have 23.3%. The brine in it weighs 1 119 kg/m3, water 999 kg/m3. How much pure, dry salt do you add?", "383 kg"},
		{anyRequest(4), "The tank west holds 7 150 L of brine. The hydrometer, marked for 15.6 C, shows 26.2% in it at 3 C. In such brine it shows 0.32% too much for every 5 C colder than it is marked for. It is to have 23.3%. The brine in it weighs 1 201 kg/m3, water 1 000 kg/m3. How much water do you add?", "772 L"},
		{anyRequest(5), "A batch of 4 550 L of brine of 23.3% is wanted in the tank mixer, in which a heel of 500 L of brine of 16.9% stands. Heel and water are at 23 C. The batch weighs 1 174 kg/m3, the heel 1 122 kg/m3, water 998 kg/m3. The rock salt holds 3.3% of water as delivered, and the dry salt is 95% pure. One bucket of 680 kg has been tipped in. How much salt is still to come?", "572 kg"},
	} {
		p, err := first(c.request)
		require.NoError(t, err)
		require.Equal(t, c.text, p.Text())
		require.Equal(t, c.answer, p.Answer.Value.In(p.System).String())
	}
}
