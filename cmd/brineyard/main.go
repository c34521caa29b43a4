// Command brineyard is a calculator for people who make salt brine for winter
// roads.
package main

import (
	"os"

	"brineyard/internal/cli"
)

func main() { os.Exit(cli.Run(cli.System(), os.Args[1:])) }
