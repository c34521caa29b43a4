package cli

import "brineyard/internal/quantity"

// coldTap is the water of a yard that does not say how warm its own is.
var coldTap = quantity.Fahrenheit(50)
