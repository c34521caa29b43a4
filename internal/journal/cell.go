package journal

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"brineyard/internal/words"
)

// Text cells. A spreadsheet runs a cell as a formula if it begins with one of a few
// characters; such a cell is written with an apostrophe in front, and so is one that
// begins with an apostrophe itself. Unprintable characters and the backslash are
// written as backslash escapes, so that a row is one line of printable text.

// dangerous tells whether text begins with what a spreadsheet may run as a formula,
// the wide forms included, or with the apostrophe that guards against it.
func dangerous(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return strings.ContainsRune("=+-@'\t\r＝＋－＠", r) && r != utf8.RuneError
}

// encodeText writes any bytes as a cell that decodeText takes back to them.
func encodeText(text string) string {
	cell := escape(text)
	if dangerous(cell) {
		return "'" + cell
	}
	return cell
}

// escape writes out what does not print.
func escape(text string) string {
	if !needsEscape(text) {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		writeEscaped(&b, r, text[i:i+size])
		i += size
	}
	return b.String()
}

// needsEscape tells whether any of the text has to be escaped.
func needsEscape(text string) bool {
	return !utf8.ValidString(text) || strings.ContainsFunc(text, hidden)
}

// hidden reports whether a rune is escaped: the backslash, controls, and characters that
// change the direction or the lines of a text.
func hidden(r rune) bool { return r == '\\' || !unicode.IsGraphic(r) }

// writeEscaped writes a rune, or an escape for it; raw holds its bytes.
func writeEscaped(b *strings.Builder, r rune, raw string) {
	switch {
	case r == utf8.RuneError && len(raw) == 1:
		fmt.Fprintf(b, `\x%02x`, raw[0])
	case !hidden(r):
		b.WriteString(raw)
	case r == '\\':
		b.WriteString(`\\`)
	case r == '\n':
		b.WriteString(`\n`)
	case r == '\t':
		b.WriteString(`\t`)
	case r == '\r':
		b.WriteString(`\r`)
	case r > 0xffff:
		fmt.Fprintf(b, `\U%08x`, r)
	default:
		fmt.Fprintf(b, `\u%04x`, r)
	}
}

// decodeText takes a cell back to the text that it was made of.
func decodeText(cell string) (string, error) {
	cell = Unguard(cell)
	if strings.IndexByte(cell, '\\') < 0 {
		return cell, nil
	}
	var b strings.Builder
	for cell != "" {
		at := strings.IndexByte(cell, '\\')
		if at < 0 {
			at = len(cell)
		}
		b.WriteString(cell[:at])
		cell = cell[at:]
		if cell == "" {
			break
		}
		used, ok := readEscape(&b, cell)
		if !ok {
			return "", fmt.Errorf(`%s has a backslash that is no escape; allowed: \\ for one backslash`, words.Quoted(cell))
		}
		cell = cell[used:]
	}
	return b.String(), nil
}

// Unguard takes off an apostrophe that stands in front of something dangerous.
func Unguard(cell string) string {
	if rest, found := strings.CutPrefix(cell, "'"); found && dangerous(rest) {
		return rest
	}
	return cell
}

// readEscape reads the escape at the start of a cell and tells its length.
func readEscape(b *strings.Builder, cell string) (used int, ok bool) {
	if len(cell) < 2 {
		return 0, false
	}
	digits := 0
	switch cell[1] {
	case '\\':
		b.WriteByte('\\')
	case 'n':
		b.WriteByte('\n')
	case 't':
		b.WriteByte('\t')
	case 'r':
		b.WriteByte('\r')
	case 'x':
		digits = 2
	case 'u':
		digits = 4
	case 'U':
		digits = 8
	default:
		return 0, false
	}
	if digits == 0 {
		return 2, true
	}
	return 2 + digits, len(cell) >= 2+digits && writeCode(b, cell[2:2+digits])
}

// writeCode writes the byte (two digits) or the rune of a hexadecimal number.
func writeCode(b *strings.Builder, hex string) bool {
	code, err := strconv.ParseUint(hex, 16, 32)
	switch {
	case err != nil:
		return false
	case len(hex) == 2:
		b.WriteByte(byte(code))
	case code > unicode.MaxRune || !utf8.ValidRune(rune(code)):
		return false
	default:
		b.WriteRune(rune(code))
	}
	return true
}
