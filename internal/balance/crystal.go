package balance

import "brineyard/internal/quantity"

// SolidSalt is the density of NaCl crystals, 2,165 kg/m3 (CRC Handbook of Chemistry and
// Physics, physical constants of inorganic compounds: 2.17 g/cm3).
const SolidSalt = quantity.Density(2165)
