package bind

import (
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

var waterTemperature = Key("supply.temperature", func(y *yard.Yard) quantity.Temperature { return y.Supply.Temperature })

// WaterTemperature binds that of fresh water and salt.
func WaterTemperature(b *Set, to *quantity.Temperature) {
	Of(b, Temperature, to, "water-temp", "temperature of water and salt; 50F unless given", waterTemperature, Default(yard.DefaultWater))
}

// YardWaterTemperature is WaterTemperature without a flag.
func YardWaterTemperature(b *Set, to *quantity.Temperature) {
	Kept(b, to, "water-temp", waterTemperature, Default(yard.DefaultWater))
}
