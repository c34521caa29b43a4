// Command brineyard is a calculator for people who make salt brine for winter
// roads.
package main

import (
	"os"

	"brineyard/internal/cli"
	"brineyard/internal/cli/run"
)

func main() { os.Exit(cli.Run(run.System(), os.Args[1:])) }
