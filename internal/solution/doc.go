// Package solution holds the physical chemistry of chloride brines: water
// activity, the saturation of ice and of the chloride salts, freezing, density,
// heat capacity and the heat of dissolving.
//
// Sources, in the order in which the equations are used:
//
//   - K. S. Pitzer, J. Phys. Chem. 77 (1973) 268-277 and J. Solution Chem. 4
//     (1975) 249-265: the ion-interaction equations and the higher-order
//     electrostatic term of unsymmetrical mixing.
//   - J. D. Toner and D. C. Catling, J. Chem. Eng. Data (2017),
//     doi 10.1021/acs.jced.7b00265: the temperature-dependent parameters for
//     Na-K-Ca-Mg-Cl and the solubility products of ice and the salts,
//     about -70 to 25 C.
//   - M. Laliberte, J. Chem. Eng. Data 54 (2009) 1725-1760,
//     doi 10.1021/je8008123: density and heat capacity.
//
// Every quantity is in SI: kelvin, kg, m3, J, mass fractions, and mol per
// kg of water (molality) where the papers use it. The functions are pure. They
// answer outside the range of a fit too, and OutOfRange tells when they do; they
// return an error for what no solution can be, and where an equation breaks down.
package solution
