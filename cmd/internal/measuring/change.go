package measuring

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamrail/motion/spec/rig"
)

// asMeasured takes the place of a mark that says a value was guessed, or is to be measured.
const asMeasured = "measured by seamrail measure"

// changed is the document with the values set, and the lines that differ, as they were and
// as they are.
func changed(file string, data []byte, lines []Line) (shown string, out []byte, err error) {
	out = data
	for _, l := range slices.Backward(lines) { // each new one of a table stands above those before
		if out, err = rig.Set(file, out, l.Path, l.New, asMeasured); err != nil {
			return "", nil, err
		}
	}
	return differing(strings.Split(string(data), "\n"), strings.Split(string(out), "\n")), out, nil
}

// differing are the lines of two texts that differ, where lines were added or took the
// place of others and none went.
func differing(a, b []string) (out string) {
	was, is := 0, 0
	for is < len(b) {
		switch added := slices.Index(b[is:], at(a, was)); {
		case was < len(a) && added == 0:
			was++
		case was < len(a) && (added < 0 || len(b)-is == len(a)-was):
			out += fmt.Sprintf("  %4d - %s\n  %4d + %s\n", was+1, strings.TrimRight(a[was], "\r"), is+1, strings.TrimRight(b[is], "\r"))
			was++
		default:
			out += fmt.Sprintf("  %4d + %s\n", is+1, strings.TrimRight(b[is], "\r"))
		}
		is++
	}
	return out
}

// at is a line of a text, and beyond its end one that no text has.
func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return "\x00"
}

// known is a value as a rig file has it: to two figures of its uncertainty, which is as
// much as JCGM 100 (7.2.6) would have told.
func known(v, sigma float64) string {
	places := 6
	if sigma > 0 {
		places = min(max(1-int(math.Floor(math.Log10(sigma))), 0), 6)
	}
	text := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
