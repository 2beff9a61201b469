package plain

import "strings"

// Sentence gives a text, which is not empty, a capital and a full stop.
func Sentence(text string) string { return strings.ToUpper(text[:1]) + text[1:] + "." }
