package file

import _ "embed"

// Example is the text of a complete yard file, with every key explained.
//
//go:embed example.toml
var Example []byte
