package solution

// constants are what the equations take beside the tables: the gas constant in
// J/(mol K), the molar masses of water and of the chloride ion in kg/mol, and b of
// the Debye-Hueckel term in kg^1/2 mol^-1/2 (Pitzer 1973). They stand in a table,
// as all coefficients do, so that the tests can show that every one is watched;
// nothing changes it.
var constants = struct{ gas, water, chloride, debyeB float64 }{
	gas:      8.31446,
	water:    MolarMassWater,
	chloride: 35.453e-3,
	debyeB:   1.2,
}
