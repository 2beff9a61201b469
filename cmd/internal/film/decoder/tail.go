package decoder

import (
	"strings"
	"unicode"
)

const (
	// maxKept is how many bytes of a program's words are kept: its last lines.
	maxKept = 2048
	// maxLines is how many of them are told.
	maxLines = 3
	// maxTold is how long they are told, in bytes.
	maxTold = 400
)

// tail keeps the end of what is written to it.
type tail struct{ bytes []byte }

func (t *tail) Write(p []byte) (int, error) {
	t.bytes = append(t.bytes, p...)
	if over := len(t.bytes) - maxKept; over > 0 {
		t.bytes = t.bytes[:copy(t.bytes, t.bytes[over:])]
	}
	return len(p), nil
}

// last is the last lines in one; "" where there are none.
func (t *tail) last() string {
	lines := strings.Split(strings.TrimSpace(string(t.bytes)), "\n")
	text := printable(strings.Join(lines[max(0, len(lines)-maxLines):], "; "))
	if len(text) > maxTold {
		text = "..." + strings.ToValidUTF8(text[len(text)-maxTold:], "")
	}
	return text
}

// or is the last lines, or an error where there are none.
func (t *tail) or(err error) string {
	if last := t.last(); last != "" || err == nil {
		return last
	}
	return err.Error()
}

// printable is text without what moves a cursor or worse.
func printable(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return -1
	}, strings.ToValidUTF8(text, "")))
}
