package report

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"seamrail/motion/base/clock"
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

// When says when something happens in a loop, on screen and in captured frames.
func When(c clock.Clock, real float64) string {
	return fmt.Sprintf("at %.3f s, frame %.1f", noMinus(real/c.Retime.Float()), noMinus(real*c.Capture.Float()))
}

// noMinus turns the negative zero that a rounding would print as "-0" into 0.
func noMinus(v float64) float64 {
	if v > -0.0005 && v < 0 {
		return 0
	}
	return v
}
