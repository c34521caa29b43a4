package quantity

import "testing"

// Source: NIST SP 811, appendix B (from memory): a BTU (International Table) is a
// pound times 5/9 K times 4186.8 J/(kg K), which fixes it against the pound.
func TestBTU(t *testing.T) {
	exact(t, 0.45359237*5/9*4186.8, btu)
	exact(t, 1055.05585262, btu)
	requireShown(t, HeatPerVolume(100*btu/float64(Gallon)), US, "100 BTU/gal")
	requireShown(t, HeatPerVolume(27_900_000), Metric, "27.9 kJ/L")
}

// A fraction is written like a strength, a count without a unit.
func TestFractionsAndCounts(t *testing.T) {
	requireShown(t, Fraction(0.1265), US, "12.65%")
	requireShown(t, Fraction(1.5), Metric, "150%")
	requireShown(t, Count(3), US, "3")
	requireShown(t, Count(2.254), Metric, "2.25")
	requireShown(t, Count(-0.001), US, "0")
}
