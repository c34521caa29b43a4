package main

import (
	"slices"

	"brineyard/internal/solution"
)

// comparison says what of a table is compared with what of the program.
type comparison struct {
	table, property string // the property with its unit
	salt            string // of a table for several
	column          string
	scale           float64 // of the column to the property's unit
	bound           float64
	decimals        int
	only            func(row) bool // rows that it concerns; nil for all
	got             func(row) (float64, error)
}

// comparisons are all that are made. A bound is the worst deviation known, rounded up:
// docs/method.md says where each comes from.
func comparisons() []comparison {
	return slices.Concat(handbook(), freezing(), saturation(), densities())
}

// handbook compares densities and ice points of the CRC handbook.
func handbook() []comparison {
	return []comparison{
		{"crc-2021-nacl.csv", "density, kg/m3", "", "density_20C_g_cm3", 1000, 0.6, 2, nil, densityAt20(solution.NaCl)},
		{"crc-2021-kcl.csv", "density, kg/m3", "", "density_20C_g_cm3", 1000, 0.4, 2, nil, densityAt20(solution.KCl)},
		{"crc-2021-cacl2.csv", "density, kg/m3", "", "density_20C_g_cm3", 1000, 2.7, 2, nil, densityAt20(solution.CaCl2)},
		{"crc-2021-mgcl2.csv", "density, kg/m3", "", "density_20C_g_cm3", 1000, 1.8, 2, nil, densityAt20(solution.MgCl2)},
		{"crc-2021-nacl.csv", "ice point, C", "", "freezing_C", 1, 0.4, 2, nil, icePoint(solution.NaCl)},
		{"crc-2021-kcl.csv", "ice point, C", "", "freezing_C", 1, 0.1, 2, nil, icePoint(solution.KCl)},
		{"crc-2021-cacl2.csv", "ice point to 22 %, C", "", "freezing_C", 1, 1.4, 2, upTo(22), icePoint(solution.CaCl2)},
		{"crc-2021-cacl2.csv", "ice point above, C", "", "freezing_C", 1, 9, 2, from(22), icePoint(solution.CaCl2)},
		{"crc-2021-mgcl2.csv", "ice point, C", "", "freezing_C", 1, 0.02, 2, nil, icePoint(solution.MgCl2)},
	}
}

// freezing compares first solids and ice points of other tables.
func freezing() []comparison {
	return []comparison{
		{"melinder-freezing.csv", "NaCl ice point, C", "NaCl", "freezing_C", 1, 0.4, 2, upTo(23.2), icePoint(solution.NaCl)},
		{"melinder-freezing.csv", "CaCl2 ice point, C", "CaCl2", "freezing_C", 1, 1.6, 2, nil, icePoint(solution.CaCl2)},
		{"melinder-freezing.csv", "MgCl2 ice point, C", "MgCl2", "freezing_C", 1, 1.1, 2, nil, icePoint(solution.MgCl2)},
		{"lange-nacl.csv", "gravity, 15/15 C", "", "specific_gravity", 1, 0.0015, 4, nil, gravity15},
		{"lange-nacl.csv", "first solid, C", "", "freezing_C", 1, 0.35, 2, nil, firstSolid},
		{"nacl-liquidus.csv", "first solid to 26.2 %, C", "", "equilibrium_C", 1, 1.4, 2, upTo(26.2), firstSolid},
		{"smithsonian-freezing-lowering.csv", "NaCl lowering, C", "NaCl", "lowering_C", 1, 0.07, 2, nil, lowering(solution.NaCl)},
		{"smithsonian-freezing-lowering.csv", "CaCl2 to 1.5 mol/kg, C", "CaCl2", "lowering_C", 1, 0.65, 2, dilute(1.5, true), lowering(solution.CaCl2)},
		{"smithsonian-freezing-lowering.csv", "CaCl2 above 1.5 mol/kg, C", "CaCl2", "lowering_C", 1, 2.6, 2, dilute(1.5, false), lowering(solution.CaCl2)},
		{"smithsonian-freezing-lowering.csv", "KCl lowering, C", "KCl", "lowering_C", 1, 0.04, 2, nil, lowering(solution.KCl)},
	}
}

// saturation compares solubilities and eutectics.
func saturation() []comparison {
	return []comparison{
		{"salt-institute-solubility.csv", "saturated NaCl, %", "", "sat_mass_pct", 1, 0.03, 3, nil, saturated},
		{"nacl-cacl2-cotectic.csv", "ice point to -38 C, C", "", "temp_C", 1, 0.3, 2, warm(-38, 0), lineIce},
		{"nacl-cacl2-cotectic.csv", "ice point below, C", "", "temp_C", 1, 1.4, 2, warm(-99, -38), lineIce},
		{"nacl-cacl2-cotectic.csv", "salt out, model, C", "", "temp_C", 1, 5.4, 2, nil, lineSalt(false)},
		{"nacl-cacl2-cotectic.csv", "salt out, second, C", "", "temp_C", 1, 0.35, 2, nil, lineSalt(true)},
		{"solubility-per-water.csv", "NaCl in 100 g water, g", "NaCl", "g_per_100g_water", 1, 0.2, 2, nil, perWater(solution.NaCl)},
		{"solubility-per-water.csv", "CaCl2 in 100 g water, g", "CaCl2", "g_per_100g_water", 1, 1.5, 2, nil, perWater(solution.CaCl2)},
		{"eutectics.csv", "NaCl eutectic, C", "NaCl", "eutectic_C", 1, 0.45, 2, nil, eutecticTemperature(solution.NaCl)},
		{"eutectics.csv", "NaCl eutectic, %", "NaCl", "mass_pct", 1, 0.06, 2, nil, eutecticStrength(solution.NaCl)},
		{"eutectics.csv", "CaCl2 eutectic, C", "CaCl2", "eutectic_C", 1, 0.8, 2, nil, eutecticTemperature(solution.CaCl2)},
		{"eutectics.csv", "MgCl2 eutectic, C", "MgCl2", "eutectic_C", 1, 0.5, 2, nil, eutecticTemperature(solution.MgCl2)},
	}
}

// densities compares densities in the cold and the heat of water.
func densities() []comparison {
	return []comparison{
		{"simion-nacl-density.csv", "density from 10 C, kg/m3", "", "density", 1, 0.5, 2, warm(10, 1e9), density(solution.NaCl)},
		{"simion-nacl-density.csv", "density at 0 C, kg/m3", "", "density", 1, 1.2, 2, warm(0, 10), density(solution.NaCl)},
		{"melinder-nacl-density.csv", "density from 0 C, kg/m3", "", "density", 1, 6, 2, warm(0, 1e9), density(solution.NaCl)},
		{"melinder-nacl-density.csv", "density below, kg/m3", "", "density", 1, 7, 2, warm(-99, 0), density(solution.NaCl)},
		{"melinder-cacl2-density.csv", "density from 0 C, kg/m3", "", "density", 1, 2.8, 2, warm(0, 1e9), density(solution.CaCl2)},
		{"melinder-cacl2-density.csv", "density below, kg/m3", "", "density", 1, 8.2, 2, warm(-99, 0), density(solution.CaCl2)},
		{"melinder-mgcl2-density.csv", "density from 0 C, kg/m3", "", "density", 1, 2.8, 2, warm(0, 1e9), density(solution.MgCl2)},
		{"melinder-mgcl2-density.csv", "density below, kg/m3", "", "density", 1, 10.8, 2, warm(-99, 0), density(solution.MgCl2)},
		{"teos10-water.csv", "density of water, kg/m3", "", "density", 1, 0.01, 3, nil, density(solution.NaCl)},
		{"teos10-water.csv", "heat of water, J/(kg K)", "", "cp", 1, 0.9, 2, nil, heatOfWater},
	}
}

// upTo keeps the rows with a mass percent of at most so much, from those above.
func upTo(percent float64) func(row) bool {
	return func(r row) bool { w, _ := r.number("mass_pct"); return w <= percent }
}

func from(percent float64) func(row) bool {
	return func(r row) bool { w, _ := r.number("mass_pct"); return w > percent }
}

// dilute keeps the rows up to a molality, or those above it.
func dilute(molality float64, below bool) func(row) bool {
	return func(r row) bool { m, _ := r.number("molality_mol_kg"); return (m <= molality) == below }
}

// warm keeps the rows from one temperature in C to below another.
func warm(low, high float64) func(row) bool {
	return func(r row) bool { t, _ := r.number("temp_C"); return t >= low && t < high }
}
