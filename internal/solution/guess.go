package solution

// guess is where an onset (K) is looked for first, and how far around. It only saves
// time: an onset that is not found there is looked for everywhere. around is 0 without
// a guess.
type guess struct{ at, around float64 }

// The onsets of plain salt brine in this model, in C by strength. A guess is
// interpolated between them.
var (
	iceGuesses  = []node{{0, 0}, {0.05, -3.05}, {0.1, -6.61}, {0.15, -11.02}, {0.2, -16.71}, {0.25, -24.35}, {0.28, -30.2}}
	saltGuesses = []node{{0.15, -67.7}, {0.175, -57}, {0.2, -42.8}, {0.225, -26.5}, {0.25, -10.2}, {0.263, 0.05}}
)

type node struct{ strength, celsius float64 }

// guesses returns the guesses for plain salt brine, the usual liquid of a yard; other
// solutions have none.
func guesses(c Composition) (ice, salt guess) {
	if c != Brine(c.NaCl) {
		return guess{}, guess{}
	}
	return between(iceGuesses, c.NaCl, 0.8), between(saltGuesses, c.NaCl, 2.5)
}

// between interpolates a guess.
func between(nodes []node, strength, around float64) guess {
	for i := 1; i < len(nodes); i++ {
		a, b := nodes[i-1], nodes[i]
		if strength >= a.strength && strength <= b.strength {
			share := (strength - a.strength) / (b.strength - a.strength)
			return guess{zeroCelsius + a.celsius + share*(b.celsius-a.celsius), around}
		}
	}
	return guess{}
}
