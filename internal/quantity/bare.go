package quantity

// Meant reads text by a parser whose bare numbers are US, so that a bare number has the unit in which
// a system shows the quantity: 4 is 4 F to a US crew and 4 C to a metric one. Its number is read as Plain
// does; one that is Unclear to the crew is refused.
func Meant[Q any](parse func(string) (Q, bool, error), sys System, text string) (q Q, bare bool, err error) {
	if err = Unclear(text, sys); err != nil {
		return q, false, err
	}
	text = Plain(text)
	q, bare, err = parse(text)
	if err != nil || !bare || sys == US {
		return q, bare, err
	}
	unit := bareUnit(q, Metric)
	if unit == bareUnit(q, US) {
		return q, bare, nil
	}
	q, _, err = parse(text + unit)
	return q, true, err
}

// bareUnit is the unit in which a system shows a quantity; empty where it has none, or is none.
func bareUnit(q any, sys System) string {
	if shown, is := q.(Quantity); is {
		return shown.In(sys).Unit
	}
	return ""
}
