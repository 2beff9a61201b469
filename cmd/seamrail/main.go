// Seamrail plans looping rail and turntable moves whose last frame meets the
// first.
package main

import (
	"os"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/whole"
)

func main() {
	code := cli.Run(cli.System(), os.Args[1:])
	whole.Abandon() // what a page was still writing
	os.Exit(code)
}
