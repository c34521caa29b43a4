package solution

import "testing"

// ternary is the trade's 80/20 blend of salt brine and calcium chloride.
var ternary = Composition{NaCl: 0.1824, CaCl2: 0.0695}

func BenchmarkActivity(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ActivityAt(ternary, 260); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFirstSolid(b *testing.B) {
	for name, c := range map[string]Composition{"NaCl": Brine(0.233), "ternary": ternary} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Anchored().Freezing(c); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkEquilibrium(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Anchored().Equilibrium(ternary, 250); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDensity(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Density(ternary, SixtyF); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolubility(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Anchored().Solubility(NaCl, 260); err != nil {
			b.Fatal(err)
		}
	}
}
