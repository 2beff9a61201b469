package plain

import (
	"fmt"
	"math"
	"strings"
)

// Sentence gives a text, which is not empty, a capital and a full stop.
func Sentence(text string) string { return strings.ToUpper(text[:1]) + text[1:] + "." }

// Spell is a time of any length in s, to the second: "41 s", "4 min 10 s", "1 h 2 min".
func Spell(sec float64) string {
	s := int64(math.Round(sec))
	switch h := s / 3600; {
	case h > 0:
		return fmt.Sprintf("%d h %d min", h, s%3600/60)
	case s < 60:
		return fmt.Sprintf("%d s", s)
	}
	return fmt.Sprintf("%d min %d s", s/60, s%60)
}
