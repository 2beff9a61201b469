package rampfit

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
)

// Reading is where the rig was seen at a time. In which unit does not matter: only the
// shape of the way is looked for.
type Reading struct{ Seconds, Position float64 }

// Take is what was read of one way.
type Take struct {
	File     string
	Readings []Reading
	Grain    float64 // of the last digit that positions are written to
}

// Bounds of a take: fewer readings than leastReadings leave a ramp to chance, and more
// than mostReadings nobody reads off frames.
const (
	leastReadings = 12
	mostReadings  = 20_000
)

// Read reads a table of two columns: times in seconds, or captured frames where the head
// of the column says "frame", and positions. A comma, a semicolon or a tab parts them;
// lines that begin with # and empty ones are left out, and the first may be a head. The
// capture rate says how long a frame is, 0 where none was given. Times have to rise.
func Read(file, text string, capture exact.Rat) (Take, error) {
	r := reader{take: Take{File: file, Grain: 1}, capture: capture}
	for i, line := range strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		if r.line(i+1, line); len(r.faults) > maxTold {
			break
		}
	}
	if n := len(r.take.Readings); len(r.faults) == 0 && n < leastReadings {
		r.fault(0, "the take", fmt.Sprintf("%d readings", n), fmt.Sprintf("must be %d or more", leastReadings), "read more frames, above all where it gathers speed")
	}
	if len(r.faults) == 0 && capture.Sign() > 0 && !r.frames {
		r.fault(0, "the take", "", "has no head that says it counts frames, and --capture says how long one is", `write "frame, mm" above it, or leave --capture out where it has seconds`)
	}
	return r.take, r.faults.Err()
}

// maxTold is how many wrong lines are told; a file of another kind has wrong ones alone.
const maxTold = 5

type reader struct {
	take    Take
	capture exact.Rat
	frames  bool // the first column counts captured frames
	begun   bool
	faults  fault.List
}

func (r *reader) fault(line int, of, value, bound, fit string) {
	r.faults = append(r.faults, fault.Fault{File: r.take.File, Line: line, Quantity: of, Value: value, Bound: bound, Fit: fit})
}

func (r *reader) line(n int, text string) {
	cells := strings.FieldsFunc(text, func(c rune) bool { return c == ',' || c == ';' || c == '\t' })
	if len(cells) != 2 {
		r.fault(n, "the line", strconv.Quote(clip(text)), "must have two columns, a time and a position", `such as "0.25, 41.3"`)
		return
	}
	first, wrong1 := number(cells[0])
	second, wrong2 := number(cells[1])
	head := !r.begun && wrong1 && wrong2
	r.begun = true
	switch all := r.take.Readings; {
	case head:
		r.head(n, cells[0])
		return
	case wrong1 || wrong2:
		r.fault(n, "the line", strconv.Quote(clip(text)), "must be two numbers", `such as "0.25, 41.3"`)
		return
	case len(all) == mostReadings:
		r.fault(n, "the take", "", fmt.Sprintf("has more than %d readings", mostReadings), "cut out one way")
		return
	case r.frames && r.capture.Sign() > 0:
		first /= r.capture.Float()
		fallthrough
	default:
		if len(all) > 0 && !(first > all[len(all)-1].Seconds) {
			r.fault(n, "the line", strconv.Quote(clip(text)), "must come after the line above it: times rise", "")
			return
		}
		r.take.Readings = append(all, Reading{first, second})
		r.take.Grain = min(r.take.Grain, grainOf(cells[1]))
	}
}

func (r *reader) head(n int, cell string) {
	r.frames = strings.Contains(strings.ToLower(cell), "frame")
	if r.frames && r.capture.Sign() <= 0 {
		r.fault(n, "the head", strconv.Quote(clip(cell)), "counts frames, and nothing says how long one is", "give --capture, such as --capture 119.88")
	}
}

// number reads a number that is finite.
func number(text string) (v float64, wrong bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	return v, err != nil || math.IsNaN(v) || math.IsInf(v, 0)
}

// grainOf is what the last digit of a number counts.
func grainOf(text string) float64 {
	text, _, _ = strings.Cut(strings.TrimSpace(strings.ToLower(text)), "e")
	_, digits, _ := strings.Cut(text, ".")
	return math.Pow(10, -float64(len(digits)))
}

const longest = 40 // characters of a line that are told

func clip(s string) string {
	if len(s) > longest {
		return s[:longest] + "..."
	}
	return s
}
