package command

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"seamrail/motion/base/plain"
	"seamrail/plot/sheet"
)

// PictureKinds are the kinds of picture, by the ending of the file's name.
var PictureKinds = []string{"png", "svg", "pdf"}

// PictureKind returns the kind of picture that a file's name asks for.
func PictureKind(name string) (string, error) {
	ending := strings.ToLower(strings.TrimPrefix(filepath.Ext(name), "."))
	if slices.Contains(PictureKinds, ending) {
		return ending, nil
	}
	if name == Stdout {
		return "", errors.New("a picture goes to a file; name one with -o loop.png")
	}
	return "", fmt.Errorf("-o %q must end in .png, .svg or .pdf", name)
}

// OptionalKind is PictureKind of a picture that need not be drawn: "" for no name.
func OptionalKind(name string) (string, error) {
	if name == "" {
		return "", nil
	}
	return PictureKind(name)
}

// DrawToo draws a picture beside a report, and says so under it, unless the report is
// for programs.
func DrawToo(s Streams, name string, programs bool, draw func(io.Writer) error) error {
	if err := Deliver(s, name, draw); err != nil || programs {
		return err
	}
	_, err := fmt.Fprintf(s.Out, "\nWrote %s.\n", plain.Text(name))
	return err
}

// LacksIn says what a picture of a kind cannot set of a title, as a line; "" where it
// can all.
func LacksIn(kind, title string) string {
	if kind == "svg" {
		return ""
	}
	return LineOf(sheet.LacksText(title))
}

// LineOf is a text as a line, and nothing as nothing.
func LineOf(words string) string {
	if words == "" {
		return ""
	}
	return words + "\n"
}
