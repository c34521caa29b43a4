package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// requireShown compares the whole text, and that the value kept its digits.
func requireShown(t *testing.T, q Quantity, sys System, want string) {
	t.Helper()
	require.Equal(t, want, q.In(sys).String())
}

// Up to two decimals, none of them a closing zero. 23.3 is how the trade writes
// its standard brine; 100 and 20 must keep their own zeros.
func TestStrengthDigits(t *testing.T) {
	for percent, want := range map[float64]string{
		0: "0%", 0.004: "0%", 0.006: "0.01%", 10: "10%", 20.004: "20%", 22.65: "22.65%",
		23.3: "23.3%", 23.304: "23.3%", 23.306: "23.31%", 24: "24%", 99.999: "100%", 100: "100%",
		-0.004: "0%", -0.006: "-0.01%", -1.5: "-1.5%",
	} {
		requireShown(t, Strength(percent/100), US, want)
		requireShown(t, Strength(percent/100), Metric, want)
	}
}

// A tenth only where there is one.
func TestTemperatureDigits(t *testing.T) {
	for fahrenheit, want := range map[float64]string{
		41: "41 F", -6.1: "-6.1 F", 0: "0 F", -0.04: "0 F", -0.06: "-0.1 F", 40.96: "41 F", 100: "100 F", 10: "10 F",
	} {
		requireShown(t, Fahrenheit(fahrenheit), US, want)
	}
	for celsius, want := range map[float64]string{
		5: "5 C", -21.1: "-21.1 C", 0: "0 C", -0.04: "0 C", 20: "20 C",
	} {
		requireShown(t, Celsius(celsius), Metric, want)
	}
}

// To a tenth below ten, whole from there on.
func TestVolumeDigits(t *testing.T) {
	for amount, want := range map[float64]string{
		0: "0", 0.004: "0", 0.04: "0.04", -0.04: "-0.04", 0.06: "0.06", 0.096: "0.1", 5: "5.0", 9.94: "9.9", 9.96: "10", 10.4: "10",
		10.6: "11", 999.6: "1,000", 1234.4: "1,234", 12345678: "12,345,678", -5: "-5.0", -1234.4: "-1,234",
	} {
		requireShown(t, Gallon*Volume(amount), US, want+" gal")
		requireShown(t, Liter*Volume(amount), Metric, strings.ReplaceAll(want, ",", " ")+" L")
		requireShown(t, Kilogram*Mass(amount), Metric, strings.ReplaceAll(want, ",", " ")+" kg")
		requireShown(t, Minute*Duration(amount), US, want+" min")
	}
}

// Salt is loaded by the bucket: pounds to 5, from 20 up; below, to 1. Common
// practice, no source.
func TestPoundDigits(t *testing.T) {
	for pounds, want := range map[float64]string{
		0: "0 lb", 0.4: "0.4 lb", -0.4: "-0.4 lb", 0.96: "1 lb", 18.4: "18 lb", 19.4: "19 lb", 19.6: "20 lb",
		20.6: "20 lb", 22.4: "20 lb", 22.6: "25 lb", 137.4: "135 lb", 1302.4: "1,300 lb", 1302.6: "1,305 lb",
		-18.4: "-18 lb", -22.6: "-25 lb",
	} {
		requireShown(t, Pound*Mass(pounds), US, want)
	}
}

// Densities, flows and readings, as exactly as they can be read.
func TestOtherDigits(t *testing.T) {
	for _, c := range []struct {
		q          Quantity
		us, metric string
	}{
		{PoundPerGallon * 9.824, "9.82 lb/gal", "1 177 kg/m3"},
		{PoundPerGallon * 10, "10.00 lb/gal", "1 198 kg/m3"},
		{GallonPerMinute * 30, "30 gal/min", "113.6 L/min"},
		{LiterPerMinute * 110, "29.1 gal/min", "110 L/min"},
		{SpecificGravity(1.1784), "1.178", "1.178"},
		{SpecificGravity(1), "1.000", "1.000"},
		{SalometerDegrees(88.27), "88.3 deg", "88.3 deg"},
		{SalometerDegrees(100), "100.0 deg", "100.0 deg"},
		{SalometerDegrees(-0.04), "0 deg", "0 deg"},
		{BaumeDegrees(21.93), "21.9 deg", "21.9 deg"},
	} {
		requireShown(t, c.q, US, c.us)
		requireShown(t, c.q, Metric, c.metric)
	}
}

// A value that is not a finite number is shown as none, in every type and system.
func TestNoneIsShown(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, q := range []Quantity{
			Strength(x), Temperature(x), Difference(x), Volume(x), Mass(x), Density(x), Flow(x), Duration(x),
			SpecificGravity(x), SalometerDegrees(x), BaumeDegrees(x),
		} {
			for _, sys := range []System{US, Metric} {
				require.Equal(t, "none", q.In(sys).Digits(), "%T", q)
			}
		}
	}
}
