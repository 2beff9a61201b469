package page

import (
	"errors"
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
)

// longestName, in bytes, leaves room for what is put around a name: that of a log, of what
// is not saved and of what is half written. File systems of today hold 255 (common practice).
const longestName = 200

// devices are names that some systems keep for what is no file, whatever stands behind a
// point (common practice).
var devices = strings.Fields("con prn aux nul clock$ conin$ conout$ com0 com1 com2 com3 com4 com5 com6 com7 com8 com9 com¹ com² com³ lpt0 lpt1 lpt2 lpt3 lpt4 lpt5 lpt6 lpt7 lpt8 lpt9 lpt¹ lpt² lpt³")

// unfit says why no file or folder is given a name, "" where it may be. What cannot be
// seen, or not be written on another system, only makes trouble later.
func unfit(name string) string {
	for part := range strings.SplitSeq(filepath.ToSlash(name), "/") {
		if why := unfitPart(part); why != "" {
			return why
		}
	}
	return ""
}

func unfitPart(part string) string {
	stem, _, _ := strings.Cut(part, ".")
	switch {
	case strings.TrimSpace(part) == "":
		return "a name has letters or digits, and not blanks alone"
	case strings.ContainsFunc(part, unseen):
		return "a name has no line breaks and nothing else that cannot be seen"
	case part != strings.TrimSpace(part):
		return "a name neither begins nor ends with a blank"
	case part[0] == '.':
		return "a name does not begin with a point: such files are hidden"
	case strings.HasSuffix(part, "."):
		return "a name does not end with a point: some systems take it away"
	case strings.ContainsAny(part, `<>:"|?*\`):
		return `a name has none of < > : " | ? * \, which some systems cannot write`
	case slices.Contains(devices, strings.ToLower(strings.TrimSpace(stem))):
		return fmt.Sprintf("%q is what some systems call a device, and no file", stem)
	case len(part) > longestName:
		return fmt.Sprintf("a name has at most %d letters (fewer, where they are not plain ones)", longestName)
	}
	return ""
}

// unseen are characters that take no place or break a line.
func unseen(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) || r == unicode.ReplacementChar
}

// newName is what a new file beside a shot is called: the name that was typed, with the
// ending that it may have been typed without, in the folder of the shot.
func newName(beside, typed string) (string, error) {
	name := typed
	if why := unfit(name); why != "" {
		return "", errors.New(why)
	}
	if !strings.HasSuffix(name, shotEnding) {
		name += shotEnding
	}
	if why := unfit(name); why != "" {
		return "", errors.New(why)
	}
	if strings.ContainsAny(name, `/\`) {
		return "", errors.New("a name, and no folder: the file stays beside its rig")
	}
	return path.Join(path.Dir(beside), name), nil
}

// shotEnding is what the name of a shot file ends with.
const shotEnding = ".toml"
