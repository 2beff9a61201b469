package music

import (
	"bytes"
	"fmt"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
)

// maxMarkers is more than anyone sets by hand, and a bound on what a hostile list costs.
const maxMarkers = 10_000

// list reads the markers of the file that t names.
func (m *Music) list(report *source.Report, t source.Text, path string, beside source.Beside) {
	name := t.Written()
	data, err := beside(name)
	if err != nil {
		report.Wrong(t, path, "cannot be read", plain.Line(err.Error()))
		return
	}
	m.List = t.Text
	if m.Playback.Sign() == 0 {
		return // nothing tells how its frames are counted
	}
	var faults fault.List
	m.Markers, m.Told, faults = ReadList(t.Text, data, m.Playback)
	report.Found(faults)
}

// ReadList reads a list of markers, a table or a timeline: what it begins with tells
// which. Frames and timecode are counted at the rate of playback unless the list states
// its own. It returns what of it its author should know, and all that is wrong with it.
func ReadList(file string, data []byte, playback exact.Rat) (markers []Marker, told []string, faults fault.List) {
	r := &listReader{file: file, data: bytes.TrimPrefix(data, []byte("\ufeff")), playback: playback}
	switch {
	case len(data) > source.MaxBytes:
		r.wrong(0, "the file", fmt.Sprintf("of %d bytes or more", len(data)), fmt.Sprintf("must be at most %d bytes", source.MaxBytes), "export the markers alone")
	case bytes.HasPrefix(bytes.TrimSpace(r.data), []byte("{")):
		r.timeline()
	default:
		r.table()
	}
	if len(r.faults) == 0 && len(r.markers) == 0 {
		r.wrong(0, "the file", "", "has no markers with a name", "")
	}
	return r.markers, r.told, r.faults
}

// listReader reads one list.
type listReader struct {
	file     string
	data     []byte
	playback exact.Rat

	markers []Marker
	unnamed int         // markers that were left out
	rates   []exact.Rat // that times of a timeline are counted at
	told    []string
	faults  fault.List
	full    bool
}

// maxWrong is as much wrong with a list as anyone reads.
const maxWrong = 20

// wrong records a fault of what begins at a byte of the file.
func (r *listReader) wrong(offset int, quantity, value, bound, fit string) {
	line, column := r.position(offset)
	r.wrongAt(line, column, quantity, value, bound, fit)
}

func (r *listReader) wrongAt(line, column int, quantity, value, bound, fit string) {
	if r.full = len(r.faults) >= maxWrong; r.full {
		return
	}
	r.faults = append(r.faults, fault.Fault{File: r.file, Line: line, Column: column, Quantity: quantity, Value: value, Bound: bound, Fit: fit})
}

// position is the line and the column, in characters, of a byte of the file.
func (r *listReader) position(offset int) (line, column int) {
	before := r.data[:min(max(offset, 0), len(r.data))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return bytes.Count(before, []byte("\n")) + 1, len([]rune(string(before[start:]))) + 1
}

// add adds a marker, unless there are too many.
func (r *listReader) add(line, column int, name string, at exact.Rat) {
	switch {
	case len(r.markers) == maxMarkers:
		if !r.full {
			r.wrongAt(line, column, "markers", "", fmt.Sprintf("must be at most %d", maxMarkers), "")
			r.full = true
		}
	case at.Sign() < 0:
		r.wrongAt(line, column, "marker "+quoted(name), "", fmt.Sprintf("is %s s before the beginning", at.Neg().Decimal(3)), "")
	default:
		r.markers = append(r.markers, Marker{name, at, line, column})
	}
}

// longestName is longer than what is written beside a marker.
const longestName = 60

func quoted(text string) string {
	if r := []rune(text); len(r) > longestName {
		text = string(r[:longestName]) + "..."
	}
	return fmt.Sprintf("%q", text)
}

// named is a name as it is compared: plain, with single spaces, as a shot file has it.
func named(text string) string { return plain.Line(strings.TrimSpace(text)) }
