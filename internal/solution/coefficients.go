package solution

// coefficients are the numbers that the equations take: all that was measured or
// fitted, each table beside its equation. The equations get them by pointer and
// never write to them, so that a test can ask what a changed copy would give.
type coefficients struct {
	gas      float64 // the gas constant, J/(mol K)
	water    float64 // molar mass, kg/mol
	chloride float64 // molar mass of the ion, kg/mol
	debyeB   float64 // b of the Debye-Hueckel term, kg^1/2 mol^-1/2 (Pitzer 1973)

	salt         [saltCount]saltRow
	debyeHueckel fit
	binary       [saltCount]binary
	pair         [pairCount]pair
	jSmall       [21]float64 // Harvie's coefficients of J(x) for x up to 1
	jLarge       [21]float64 // and above
	solid        [solidCount]solidRow
	anchor       [7]anchorPoint
	cotectic     cotectic

	laliberte    [saltCount]laliberte
	waterDensity [7]float64
	waterHeat    [15]float64
}

// standard are the coefficients of the sources, from which every answer comes.
var standard = coefficients{
	gas:      8.31446, // CODATA 2018
	water:    MolarMassWater,
	chloride: 35.453e-3,
	debyeB:   1.2,

	salt:         saltTable(),
	debyeHueckel: debyeHueckel(),
	binary:       binaryTable(),
	pair:         pairTable(),
	jSmall:       harvieSmall(),
	jLarge:       harvieLarge(),
	solid:        solidTable(),
	anchor:       anchorPoints(),
	cotectic:     publishedCotectic(),

	laliberte:    laliberteTable(),
	waterDensity: kellDensity(),
	waterHeat:    waterHeat(),
}
