// Package stills are recordings that are a file a frame: which files a folder or a pattern
// names, in which order, what of them is missing, and their pictures one after another.
package stills

import (
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

const (
	// maxPattern is how long a pattern may be, in bytes: the longest name that a file can
	// have on the systems of today.
	maxPattern = 255
	// maxDigits is how many digits a pattern may ask for: those of an int64.
	maxDigits = 18
)

// Pattern is the name of many files: text in which * stands for anything, and %d or %04d for
// a number, as C's printf writes it.
type Pattern struct {
	Many  bool // it has one of them; without, it is the name of one file
	match *regexp.Regexp
}

// Patterned tells whether the last part of a path is a pattern of many files, or is meant
// to be one.
func Patterned(path string) bool {
	return strings.ContainsAny(filepath.Base(path), "*%")
}

// ParsePattern reads the last part of a path. It returns an error for a % that begins
// nothing known, for a second number, and for what no file can be called.
func ParsePattern(text string) (Pattern, error) {
	if len(text) > maxPattern {
		return Pattern{}, fmt.Errorf("pattern of %d bytes must have at most %d", len(text), maxPattern)
	}
	var out strings.Builder
	numbers := 0
	for rest := text; rest != ""; {
		part, n, err := parsePart(rest)
		if err != nil {
			return Pattern{}, fmt.Errorf("pattern %q: %w", text, err)
		}
		if strings.HasPrefix(part, "(") {
			numbers++
		}
		out.WriteString(part)
		rest = rest[n:]
	}
	if numbers > 1 {
		return Pattern{}, fmt.Errorf("pattern %q has %d numbers; have one, and * for the others", text, numbers)
	}
	match, err := regexp.Compile(`(?s)\A` + out.String() + `\z`)
	if err != nil {
		return Pattern{}, fmt.Errorf("pattern %q is no name of a file: %w", text, err)
	}
	return Pattern{Many: numbers > 0 || strings.Contains(text, "*"), match: match}, nil
}

// parsePart reads the first part of a text as a regular expression, and how many bytes the
// part has.
func parsePart(rest string) (part string, n int, err error) {
	switch {
	case rest[0] == '*':
		return ".*", 1, nil
	case strings.HasPrefix(rest, "%%"):
		return "%", 2, nil
	case rest[0] == '%':
		return parseNumber(rest)
	}
	if n = strings.IndexAny(rest, "*%"); n < 0 {
		n = len(rest)
	}
	return regexp.QuoteMeta(rest[:n]), n, nil
}

// parseNumber is what printf may write for the number that a text begins with: filled with
// zeros up to so many digits, and with none beyond.
func parseNumber(rest string) (part string, n int, err error) {
	asked, _, ok := strings.Cut(rest[1:], "d")
	digits, padded := strings.CutPrefix(asked, "0")
	least := 1
	if ok && digits != "" {
		least, err = strconv.Atoi(digits)
	}
	if !ok || err != nil || least < 1 || least > maxDigits || digits != "" && !padded {
		return "", 0, fmt.Errorf("%.10q is no number; write %%d, or %%04d with 1 to %d digits, and %%%% for a %% of the name", rest, maxDigits)
	}
	n = len("%d") + len(asked)
	if least == 1 {
		return `(0|[1-9]\d*)`, n, nil
	}
	return fmt.Sprintf(`(\d{%d}|[1-9]\d{%d,})`, least, least), n, nil
}

// Match tells whether a name is one of the pattern's, and where its number is, as from and
// to of the name; both 0 where the pattern asks for none.
func (p Pattern) Match(name string) (from, to int, ok bool) {
	const whole, group = 2, 4 // how many places there are without a group, and with one
	at := p.match.FindStringSubmatchIndex(name)
	if len(at) < group {
		return 0, 0, len(at) == whole
	}
	return at[whole], at[whole+1], true
}
