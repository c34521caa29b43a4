package file

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

func readMixingTank(t *table, y *yard.Yard) {
	m := yard.Tank{Mixing: true}
	t.readName(&m.Name)
	t.read(
		number("capacity", quantity.ParseVolume, &m.Capacity).needed().aboveZero(),
		number("working_volume", quantity.ParseVolume, &m.WorkingVolume).aboveZero(),
		number("pump_off", quantity.ParseVolume, &m.PumpOff).aboveZero(),
		number("bed_capacity", quantity.ParseMass, &m.BedCapacity),
		number("bed", quantity.ParseMass, &m.Bed),
		number("mix_time", quantity.ParseDuration, &m.MixTime),
	)
	readShape(t, &m.Shape)
	atMost(t, "working_volume", m.WorkingVolume, "capacity", m.Capacity)
	if t.knows("working_volume") {
		atMost(t, "pump_off", m.PumpOff, "working_volume", m.WorkingVolume)
	} else {
		atMost(t, "pump_off", m.PumpOff, "capacity", m.Capacity)
	}
	atMost(t, "bed", m.Bed, "bed_capacity", m.BedCapacity)
	y.Tanks = append(y.Tanks, m)
}

func readStorageTank(t *table, y *yard.Yard) {
	s := yard.Tank{}
	t.readName(&s.Name)
	var strength *quantity.Strength
	t.read(
		number("capacity", quantity.ParseVolume, &s.Capacity).needed().aboveZero(),
		number("dead_volume", quantity.ParseVolume, &s.DeadVolume),
		optional("contents", quantity.ParseVolume, &s.Contents),
		optional("strength", quantity.ParseTypedStrength, &strength),
		text("liquid", &s.LiquidName),
	)
	readShape(t, &s.Shape)
	atMost(t, "dead_volume", s.DeadVolume, "capacity", s.Capacity)
	atMost(t, "contents", s.Held(), "capacity", s.Capacity)
	t.dissolves("strength", orZero(strength))
	bought, known := y.Liquid(s.LiquidName)
	t.refuse(s.LiquidName != "" && !known, "liquid", "no liquid is named %s", words.Quoted(s.LiquidName))
	t.refuse(s.LiquidName != "" && strength != nil, "liquid", "liquid and strength are two contents; allowed: one of them")
	switch {
	case strength != nil:
		brine := balance.SaltBrine(*strength)
		s.Liquid = &brine
	case known:
		s.Liquid = &bought.Liquid
	}
	y.Tanks = append(y.Tanks, s)
}
