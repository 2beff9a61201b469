package plain

import (
	"fmt"
	"strings"
)

// Counted prints "1 take", "3 takes".
func Counted[N int | int64](n N, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Sentence gives a text, which is not empty, a capital and a full stop.
func Sentence(text string) string { return strings.ToUpper(text[:1]) + text[1:] + "." }
