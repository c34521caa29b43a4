package yard

import (
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
)

// This file decides what a yard has where its file does not say. A zero Yard is one without a
// file.

// DefaultWater is the temperature of tap water in the cold, 50 F. Common practice, no source.
const DefaultWater = quantity.Temperature(283.15)

// DefaultBand is common practice, no source: 23.3 % wanted, 23 to 24 % accepted.
func DefaultBand() Band { return Band{Target: 0.233, Low: 0.23, High: 0.24} }

// BandOf completes a band: a nil target is that of the default band, a nil end that of the
// default band around the target.
func BandOf(target, low, high *quantity.Strength) Band {
	b := BandAround(valueOr(target, DefaultBand().Target))
	b.Low, b.High = valueOr(low, b.Low), valueOr(high, b.High)
	return b
}

// Band is the true strength that the yard wants and may pump.
func (y *Yard) Band() Band { return BandOf(y.Target.Strength, y.Target.Low, y.Target.High) }

// RockSalt is the salt of the pile: pure and dry as far as the file does not say otherwise.
func (y *Yard) RockSalt() RockSalt {
	s := y.Pile.Quality
	if s.Purity == 0 {
		s.Purity = PureSalt().Purity
	}
	return s
}

// HydrometerCalibration is the temperature for which the yard's hydrometer is marked.
func (y *Yard) HydrometerCalibration() quantity.Temperature {
	if y.Calibration == 0 {
		return quantity.Temperature(gauge.DefaultCalibration)
	}
	return y.Calibration
}

// WaterTemperature is that of the fresh water.
func (y *Yard) WaterTemperature() quantity.Temperature {
	if y.Supply.Temperature == 0 {
		return DefaultWater
	}
	return y.Supply.Temperature
}

// PavementLimits are the coldest and the warmest pavement that a storm is planned for.
func PavementLimits() (coldest, warmest quantity.Temperature) {
	return quantity.Celsius(-45), quantity.Celsius(40)
}

// valueOr returns a value of the file, or a default where there is none.
func valueOr[Q any](said *Q, otherwise Q) Q {
	if said == nil {
		return otherwise
	}
	return *said
}
