// Seamrail plans looping rail and turntable moves whose last frame meets the
// first.
package main

import (
	"os"

	"seamrail/cmd/internal/cli"
)

func main() { os.Exit(cli.Main()) }
