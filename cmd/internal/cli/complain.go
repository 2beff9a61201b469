package cli

import (
	"fmt"
	"io"
	"strings"

	"seamrail/export/header"
)

// complain prints an error, every line of it marked as ours and free of what a
// terminal would obey.
func complain(w io.Writer, err error) {
	for _, line := range strings.Split(strings.TrimRight(err.Error(), "\n"), "\n") {
		fmt.Fprintf(w, "seamrail: %s\n", header.Clean(line))
	}
}
