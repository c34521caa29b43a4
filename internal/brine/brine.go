// Package brine holds the calculators of the yard, one file each: a request in,
// a result and an error out. They know no flags, no files and no units but SI.
package brine
