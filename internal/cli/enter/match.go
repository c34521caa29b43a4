package enter

import "strings"

// match finds the known name that a typed one means: itself, else the only one that is the
// same but for the case of letters and spaces for hyphens, else the only one that begins so.
func match(typed string, known []string) (string, bool) {
	for _, k := range known {
		if k == typed {
			return k, true
		}
	}
	begun := plain(typed)
	if begun == "" {
		return "", false
	}
	if only, ok := theOnly(known, func(k string) bool { return plain(k) == begun }); ok {
		return only, true
	}
	return theOnly(known, func(k string) bool { return strings.HasPrefix(plain(k), begun) })
}

// plain is a name without what people leave out or change when they type it.
func plain(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '-' || r == '_' }), "-")
}

// theOnly returns the one name that fits; false for none or several.
func theOnly(known []string, fits func(string) bool) (only string, ok bool) {
	for _, k := range known {
		if !fits(k) {
			continue
		}
		if ok && k != only {
			return "", false
		}
		only, ok = k, true
	}
	return only, ok
}
