package bind

import (
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// coldTap is the water of a yard that does not say how warm its own is. Common practice, no
// source.
var coldTap = quantity.Fahrenheit(50)

var waterTemperature = Key("supply.temperature", func(y *yard.Yard) quantity.Temperature { return y.Supply.Temperature })

// WaterTemperature binds that of fresh water and salt.
func WaterTemperature(b *Set, to *quantity.Temperature) {
	Of(b, Temperature, to, "water-temp", "temperature of water and salt; 50F unless given", waterTemperature, Default(coldTap))
}

// YardWaterTemperature is WaterTemperature without a flag.
func YardWaterTemperature(b *Set, to *quantity.Temperature) {
	Kept(b, to, "water-temp", waterTemperature, Default(coldTap))
}
