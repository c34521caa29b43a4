package storm

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// vessel is a tank of salt brine.
type vessel struct {
	balance.Vessel
	tank yard.Tank
	at   quantity.Temperature
}

// fill puts brine into the tank, and returns it by weight.
func (t *vessel) fill(v quantity.Volume, s quantity.Strength) balance.Masses {
	l, mass := balance.SaltBrine(s), v.Mass(balance.BrineDensity(s, t.at))
	t.Add(l, mass)
	return balance.MassesOf(l, mass)
}

// draw takes brine out of the tank, and returns it by weight.
func (t *vessel) draw(v quantity.Volume) balance.Masses {
	return t.Draw(quantity.Mass(v/t.volume()) * t.Mass).Masses()
}

// volume is what stands in the tank.
func (t *vessel) volume() quantity.Volume {
	if t.Mass == 0 {
		return 0
	}
	s, _ := t.Liquid.Strength()
	return t.Mass.Volume(balance.BrineDensity(s, t.at))
}

// usable is what stands above the tank's dead volume.
func (t *vessel) usable() quantity.Volume { return max(0, t.volume()-t.tank.DeadVolume) }

// room is what the tank can still take.
func (t *vessel) room() quantity.Volume { return max(0, t.tank.Capacity-t.volume()) }

// gap is what the tank swallows before any of it is above its dead volume.
func (t *vessel) gap() quantity.Volume { return max(0, t.tank.DeadVolume-t.volume()) }
