package cli

// expected is the reading to expect, as far as it is printed; of a sample that is weighed it
// is the density.
var expected = goal{figure: "expected_reading", step: "Reading to expect|Density of the brine when it is read"}

// correctionGoals are those of a tank that is corrected.
var correctionGoals = []goal{
	{figure: "water_to_add", step: "Water to add, by volume|Then add", within: apart, when: corrected("water_to_add")},
	{figure: "salt_to_add", step: "Rock salt to add|Then add", within: apart, when: corrected("salt_to_add")},
	{figure: "stock_to_add", step: "Stock to add, by volume|Then add", within: apart, when: corrected("stock_to_add")},
	{figure: "draw_off_first", step: "Draw off first", within: sixDigits, of: "final_volume"},
	{figure: "final_volume", step: "Volume that it comes to", within: sixDigits, when: func(a workedAnswer) bool {
		return a.none("draw_off_first") && !(a.none("water_to_add") && a.none("salt_to_add") && a.none("stock_to_add"))
	}},
}

// leastStrength is the low end of a reading's range.
var leastStrength = goal{figure: "true_strength_low", step: "The least that it may be|No brine holds", within: 1e-4}

// corrected reports whether a figure is there and something is added on the reading.
func corrected(key string) func(workedAnswer) bool {
	return func(a workedAnswer) bool { return !a.is("decision", "on the edge") && notPumped(key)(a) }
}

// notPumped reports whether a figure is there and the tank is to be corrected.
func notPumped(key string) func(workedAnswer) bool {
	return func(a workedAnswer) bool { return !a.is("decision", "pump") && !a.none(key) }
}

// known reports whether a figure is a number, even 0.
func known(key string) func(workedAnswer) bool {
	return func(a workedAnswer) bool { _, ok := a.number(key); return ok }
}

var workedCommands = []workedCommand{
	{"reading", (*lines).reading, []goal{
		{figure: "true_strength", step: "True strength|No brine holds", within: sixDigits},
		leastStrength,
		// The density bends by less than that between two whole percents.
		{figure: "true_strength", step: "Strength, between the two|No brine holds", within: 1e-3, least: 1},
	}},
	{"check", (*lines).check, append([]goal{
		{figure: "true_strength", step: "True strength|No brine holds", within: sixDigits},
		leastStrength,
		{figure: "expected_reading", step: expected.step, when: corrected("expected_reading")},
		{figure: "safe_volume", step: "Volume that it comes to", within: sixDigits, seldom: true},
	}, correctionGoals...)},
	{"correct", (*lines).correct, append([]goal{expected}, correctionGoals...)},
	{"batch", (*lines).batch, []goal{
		expected,
		{figure: "salt_to_load", step: "Rock salt to load|Rock salt that dissolves", within: sixDigits, of: "volume"},
		{figure: "water_to_add", step: "Water to add, by volume", within: sixDigits, of: "volume"},
		{figure: "fill_time", step: "Time to fill", within: 2 * sixDigits},
	}},
	{"glass", (*lines).glass, []goal{
		{figure: "expected_reading", step: "Reading of a true one", within: 1e-4},
		{figure: "offset", step: "Shows too much", within: sixDigits, of: "expected_reading", least: 1e-4},
		{figure: "offset_high", step: "At most", within: sixDigits, of: "expected_reading", least: 1e-4},
		{figure: "offset_low", step: "At least", within: sixDigits, of: "expected_reading", least: 1e-4, when: known("offset_low")},
	}},
	{"level", (*lines).level, []goal{
		{figure: "volume", step: "Below the level|Liquid", within: sixDigits},
		{figure: "mass", step: "Weight", within: sixDigits},
	}},
	{"ready", (*lines).ready, []goal{{figure: "target_time", step: "The answer", within: apart}}},
	{"freeze", (*lines).freeze, []goal{
		// The ice point is found by trial: it is right where both logarithms are the same.
		{figure: "ice_point", step: "Logarithm of the activity of ice", like: "Logarithm of the water activity", within: sixDigits},
		{figure: "salt_out_temp", step: "Where salt falls out", within: sixDigits, least: 1, when: func(a workedAnswer) bool {
			return !a.is("first_solid", "ice") && !a.none("salt_out_temp") && a.Figures["first_solid"].Value != nil
		}},
		{figure: "ice_mass", step: "Ice in the tank", within: sixDigits},
		{figure: "salt_solid_mass", step: "Salt crystals in the tank", within: sixDigits},
		{figure: "ice_melted_per_volume", step: "Ice melted by a unit volume", within: apart},
	}},
	{"blend", (*lines).blend, []goal{
		{figure: "nacl", step: "Strength in NaCl", within: sixDigits},
		{figure: "kcl", step: "Strength in KCl", within: sixDigits},
		{figure: "cacl2", step: "Strength in CaCl2", within: sixDigits},
		{figure: "mgcl2", step: "Strength in MgCl2", within: sixDigits},
	}},
	{"store", (*lines).store, []goal{
		{figure: "nacl", step: "Strength of the mix in NaCl", within: sixDigits},
		{figure: "cacl2", step: "Strength of the mix in CaCl2", within: sixDigits},
		{figure: "mgcl2", step: "Strength of the mix in MgCl2", within: sixDigits},
		{figure: "volume", step: "Volume of the mix", within: sixDigits},
		{figure: "stock_to_add", step: "Stock to add, by volume|Then add", within: apart},
		{figure: "draw_off_first", step: "Draw off first", within: sixDigits, of: "corrected_volume"},
		{figure: "corrected_volume", step: "Volume that it comes to", within: sixDigits, when: func(a workedAnswer) bool {
			return a.none("draw_off_first") && !a.none("stock_to_add")
		}},
	}},
	{"truck", (*lines).truck, []goal{
		{figure: "load", step: "To load", within: sixDigits, when: func(a workedAnswer) bool { return lastStep(a.Working, "To load") >= 0 }},
		{figure: "load_weight", step: "Weight of the load", within: sixDigits},
		{figure: "load_time", step: "Loading time", within: sixDigits},
		{figure: "boom_flow", step: "Flow of the boom", within: sixDigits},
		{figure: "nozzle_flow", step: "Flow of a nozzle", within: sixDigits},
		{figure: "caught_flow", step: "Flow caught", within: sixDigits},
		{figure: "rate_laid", step: "Rate laid down on a lane", within: sixDigits, when: func(a workedAnswer) bool {
			return a.none("area_rate_laid") && !a.none("rate_laid")
		}},
		{figure: "area_rate_laid", step: "Rate laid down on an area", within: sixDigits},
		{figure: "flow_factor", step: "Flow to be multiplied by", within: sixDigits},
	}},
	{"storm", (*lines).storm, []goal{
		{figure: "demanded", step: "Wanted in all", within: sixDigits},
		{figure: "cost_salt", step: "Cost of the salt", within: sixDigits},
		{figure: "cost", step: "Cost: ", within: sixDigits},
		{figure: "cost_per_volume", step: "For each ", within: sixDigits},
		{figure: "chloride", step: "Chloride laid down|Chloride in that NaCl", within: sixDigits},
		{figure: "chloride_per_lane", step: "On each ", within: sixDigits},
	}},
	{"journal season", (*lines).season, []goal{
		{figure: "salt_gone", step: "Salt gone from the pile", within: sixDigits},
		{figure: "salt_moisture", step: "Water in it", within: sixDigits},
		{figure: "salt_insolubles", step: "What does not dissolve", within: sixDigits},
		{figure: "salt_in_brine", step: "NaCl in the brine made", within: sixDigits, when: known("salt_in_brine")},
		{figure: "salt_unexplained", step: "Not explained", within: sixDigits, of: "salt_gone", when: known("salt_unexplained")},
	}},
	{"yard show", (*lines).yardShow, []goal{
		{figure: "brine_per_hour", step: "Brine an hour", within: sixDigits},
	}},
	{"drill", (*lines).drill, nil},
}
