package report

import (
	"strings"
	"unicode/utf8"
)

// Width is that of a terminal nobody has widened, in characters.
const Width = 80

// Fold breaks text at spaces into lines of at most width characters. A word
// longer than that has a line to itself.
func Fold(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case length(line)+1+length(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}

func length(s string) int { return utf8.RuneCountInString(s) }

func spaces(n int) string { return strings.Repeat(" ", max(0, n)) }

// pad fills s up to width with spaces behind it, or before it.
func pad(s string, width int, before bool) string {
	if before {
		return spaces(width-length(s)) + s
	}
	return s + spaces(width-length(s))
}
