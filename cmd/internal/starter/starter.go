// Package starter holds the pair of files that a beginner starts from: a shot
// of a lantern, and the bench rig it is filmed with.
package starter

import (
	"embed"
	_ "embed"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"

	"seamrail/motion/spec/rig"
)

// What the files are called. The shot names its rig by RigName.
const (
	ShotName = "lantern.toml"
	RigName  = "bench-rail.toml"
)

//go:embed lantern.toml
var shotFile string

//go:embed bench-rail.toml
var rigFile string

// controllers are those of the other kinds, a file each that is called as its kind is. The
// file of one that is not driven is a whole rig.
//
//go:embed lockstep.toml step-player.toml two-ends.toml
var controllers embed.FS

// Shot returns the text of the shot file.
func Shot() []byte { return []byte(shotFile) }

// Rig returns the text of the rig file, whose controller is buffered.
func Rig() []byte { return []byte(rigFile) }

// The lines between which the rig file describes its controller.
const (
	controllerBegins = "# The box that makes the steps"
	controllerEnds   = "# The rail. "
	tableBegins      = "# The turntable. "
	standBegins      = "# A display stand "
	reportsKey       = "reports "
)

// RigWith returns the text of the rig file with a controller of a kind.
func RigWith(kind rig.ControllerKind) []byte {
	controller, err := controllers.ReadFile(kind.String() + ".toml")
	if err != nil {
		return Rig()
	}
	if !kind.Driven() {
		return controller
	}
	head, _, _ := strings.Cut(rigFile, controllerBegins)
	_, axes, _ := strings.Cut(rigFile, controllerEnds)
	return []byte(head + string(controller) + controllerEnds + silent(axes))
}

// silent takes the names of settings away where the controller prints none.
func silent(axes string) string {
	var b strings.Builder
	for line := range strings.Lines(axes) {
		if strings.HasPrefix(line, reportsKey) {
			line = "reports      = { steps = \"none\", speed = \"none\", acceleration = \"none\", travel = \"none\" }\n"
		}
		b.WriteString(line)
	}
	return b.String()
}

// SequenceName is what the file of the built-in sequence is called.
const SequenceName = "clip.toml"

// What lies under the shots of the built-in sequence: their set-up, and what it takes
// from the shelf.
const (
	SetUpName  = "table.toml"
	CameraName = "camera.toml"
	LensName   = "lens.toml"
)

//go:embed clip/*.toml
var clip embed.FS

// Clip returns the folder of the built-in sequence: its own file, its shots, and
// the rig they are filmed with.
func Clip() (map[string][]byte, error) {
	names, err := fs.Glob(clip, "clip/*.toml")
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{RigName: Rig()}
	for _, name := range names {
		data, err := clip.ReadFile(name)
		if err != nil {
			return nil, err
		}
		out[path.Base(name)] = data
	}
	return out, nil
}

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
