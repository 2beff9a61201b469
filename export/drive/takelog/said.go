package takelog

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"seamrail/motion/base/plain"
)

const (
	// MaxName bounds a name in the log, in characters: the longest file names that cameras
	// make have some forty, and a name is to fit a line of the list.
	MaxName = 60
	// MaxWords bounds what is said of a take: three lines of the list.
	MaxWords = 200
)

// Name returns a name as the log has it, or what is wrong with it; what says of what it is.
func Name(what, text string) (string, error) { return said(what, text, MaxName) }

// Words returns what is said of a take as the log has it.
func Words(what, text string) (string, error) { return said(what, text, MaxWords) }

func said(what, text string, most int) (string, error) {
	text = plain.Line(text)
	switch n := utf8.RuneCountInString(text); {
	case n == 0:
		return "", fmt.Errorf("%s is empty; say it in a word or more", what)
	case n > most:
		return "", fmt.Errorf("%s has %d characters, and the log takes %d; say it shorter", what, n, most)
	}
	return text, nil
}

// ClipName returns what the camera calls a recording, as the log has it: the name of
// a file without its folders, or a card and a clip number.
func ClipName(text string) (string, error) {
	if strings.ContainsAny(text, `/\`) {
		return "", fmt.Errorf("the clip %q has folders in it; the name of the file alone is what the edit looks for", plain.Line(text))
	}
	return Name("the clip", text)
}
