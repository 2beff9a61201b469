package console

import (
	"strings"

	"seamrail/export/report"
)

// bullet stands before a caution.
const bullet = "! "

// Folded breaks the lines of a text between words so that they fit a width, the
// rest of a line under its beginning. A width of 0 leaves them as they are.
func Folded(text string, width int) string {
	if width <= 0 {
		return text
	}
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		body := strings.TrimPrefix(strings.TrimLeft(line, " "), bullet)
		lead := line[:len(line)-len(body)]
		parts := report.Fold(body, max(width-len(lead), 1))
		lines[i] = lead + strings.Join(parts, "\n"+strings.Repeat(" ", len(lead)))
	}
	return strings.Join(lines, "\n")
}
