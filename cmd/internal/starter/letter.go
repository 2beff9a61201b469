package starter

import (
	"fmt"
	"regexp"
	"strings"

	"seamrail/motion/spec/rig"
)

// TableLetters are those that the turntable of the rig file may have: all but
// that of its rail.
const TableLetters = "YZUVWABC"

// plainLetters are those of a board of three axes.
const plainLetters = "XYZ"

// WithTableLetter returns a rig file of this package's with another letter for
// its turntable, and with the letters that the controller then has.
func WithTableLetter(text []byte, letter string) []byte {
	head, table, _ := strings.Cut(string(text), tableBegins)
	table = put(table, "letter", quoted(letter))
	if names := printedNames(letter); strings.Contains(table, `"$1`) {
		table = put(table, "reports", names)
	}
	return []byte(stateLetters(head, lettersWith(letter), "see that yours has these") + tableBegins + table)
}

// stateLetters says in a rig file of this package's which letters the controller
// has, in place of the question.
func stateLetters(text, letters, why string) string {
	head, rest, found := strings.Cut(text, lettersBegin)
	if !found {
		return text
	}
	_, rest, _ = strings.Cut(rest, lettersKey)
	_, rest, _ = strings.Cut(rest, "\n")
	return head + lettersBegin + "; " + why + ".\n" + fmt.Sprintf("letters            = %q\n", letters) + rest
}

// The question and the key that it is about.
const (
	lettersBegin = "# The letters that it has for axes"
	lettersKey   = "# letters "
)

// lettersWith are the letters of a board that has one beside the plain ones.
func lettersWith(letter string) string {
	if strings.Contains(plainLetters, letter) {
		return plainLetters
	}
	return plainLetters + letter
}

// printedNames is the value of reports of an axis with a letter.
func printedNames(letter string) string {
	s := rig.Buffered.Defaults().UsualNames(letter)
	or := func(name string) string {
		if name == "" {
			name = "none"
		}
		return quoted(name)
	}
	return fmt.Sprintf("{ steps = %s, speed = %s, acceleration = %s, travel = %s }",
		or(s.StepsName), or(s.SpeedName), or(s.AccelerationName), or(s.TravelName))
}

func quoted(s string) string { return `"` + s + `"` }

// put gives the first line of a key another value, and leaves the word on it
// where it was. A mark before the key is taken away; a text without the key
// stays as it is.
func put(text, key, value string) string {
	bare := strings.TrimPrefix(key, "# ")
	line := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(key) + `( *)= ("[^"]*"|\{[^}]*\}|[^ \n]+)( *)`)
	at := line.FindStringSubmatchIndex(text)
	if at == nil {
		return text
	}
	space := text[at[2]:at[3]] + strings.Repeat(" ", len(key)-len(bare))
	old, gap := at[5]-at[4], at[7]-at[6]
	if gap > 0 {
		value += strings.Repeat(" ", max(1, old+gap-len(value)))
	}
	return text[:at[0]] + bare + space + "= " + value + text[at[1]:]
}
