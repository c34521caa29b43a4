package cli

// ifKnown is nil for what is not known.
func ifKnown[Q comparable](q Q) *Q {
	var none Q
	if q == none {
		return nil
	}
	return &q
}
