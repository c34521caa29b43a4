package move

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// vesselDrawn is a tank as a person at its hatch would see it.
type vesselDrawn struct {
	holds, dead, brim float64 // gal; holds below 0 for nobody knows
	kind              string  // brine, calcium, weak calcium, or nobody knows
}

func drawVessel(t *rapid.T, name string) (vesselDrawn, yard.Tank) {
	d := vesselDrawn{
		dead: rapid.SampledFrom([]float64{0, 50}).Draw(t, name+" dead"), brim: 1000,
		holds: rapid.SampledFrom([]float64{-1, 0, 40, 50, 51, 600, 1000}).Draw(t, name+" holds"),
		kind:  rapid.SampledFrom([]string{"brine", "strong brine", "calcium", "weak calcium", ""}).Draw(t, name+" kind"),
	}
	tank := yard.Tank{Name: name, Capacity: quantity.Volume(d.brim) * quantity.Gallon, DeadVolume: quantity.Volume(d.dead) * quantity.Gallon}
	if d.holds >= 0 {
		tank.Contents = new(quantity.Volume(d.holds) * quantity.Gallon)
	}
	liquids := map[string]balance.Liquid{
		"brine": balance.SaltBrine(0.23), "strong brine": balance.SaltBrine(0.25),
		"calcium":      {Name: "cal31", Composition: solution.Composition{CaCl2: 0.31}},
		"weak calcium": {Name: "cal20", Composition: solution.Composition{CaCl2: 0.2}},
	}
	if l, known := liquids[d.kind]; known {
		tank.Liquid = &l
	}
	return d, tank
}

// Of two tanks with anything in them a move is wrong where nothing stands above the suction, where the other is full, or
// where it would bring a liquid of one salt into one of another; told from what stands there alone.
func TestMovesAgainstContents(t *testing.T) {
	salt := func(kind string) string {
		return map[string]string{"brine": "salt", "strong brine": "salt", "calcium": "calcium 31", "weak calcium": "calcium 20"}[kind]
	}
	wrong, right := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		a, from := drawVessel(t, "a")
		b, to := drawVessel(t, "b")
		e := ends{yard: &yard.Yard{Tanks: []yard.Tank{from, to}}, Move: lineup.Move{From: "a", To: "b"}}
		dry := a.holds >= 0 && a.holds <= a.dead
		full := b.holds >= b.brim
		mixes := a.kind != "" && b.kind != "" && b.holds > 0 && salt(a.kind) != salt(b.kind)
		got := e.wrong(show.View{})
		require.Equal(t, dry || full || mixes, got != "", got)
		if got != "" {
			wrong++
		} else {
			right++
		}
		// Round and round in one tank nothing mixes and nothing runs over.
		e.To = "a"
		require.Equal(t, dry, e.wrong(show.View{}) != "")
	})
	require.Positive(t, wrong)
	require.Positive(t, right)
}
