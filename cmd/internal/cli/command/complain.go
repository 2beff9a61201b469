package command

import (
	"fmt"
	"io"
	"strings"

	"seamrail/export/header"
)

// Complain prints an error, every line of it marked as ours and free of what a
// terminal would obey.
func Complain(w io.Writer, err error) {
	for _, line := range strings.Split(strings.TrimRight(err.Error(), "\n"), "\n") {
		fmt.Fprintf(w, "seamrail: %s\n", header.Clean(line))
	}
}
