package balance

import (
	"strings"

	"brineyard/internal/solution"
)

// SaltName is the name of a salt on the command line and as a key: nacl, kcl, cacl2, mgcl2.
func SaltName(salt solution.Salt) string {
	return [...]string{solution.NaCl: "nacl", solution.KCl: "kcl", solution.CaCl2: "cacl2", solution.MgCl2: "mgcl2"}[salt]
}

// Salts lists the salts that a liquid can hold.
func Salts() []solution.Salt {
	return []solution.Salt{solution.NaCl, solution.KCl, solution.CaCl2, solution.MgCl2}
}

// SaltNamed finds the salt of a plain solution by its name: a salt's own, or brine.
func SaltNamed(name string) (solution.Salt, bool) {
	name = strings.ToLower(name)
	if name == BrineName {
		return solution.NaCl, true
	}
	for _, salt := range Salts() {
		if name == SaltName(salt) {
			return salt, true
		}
	}
	return 0, false
}
