// Package motionjson writes a move as one JSON document for any other program:
// every axis, stand and the lens at every captured frame, and the takes that are
// kept.
package motionjson

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/matchmove"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan/trajectory"
)

// Schema names the layout of the document. It changes when a key changes its
// meaning or goes; keys may be added.
const Schema = "seamrail-motion/1"

// Write writes the document, one frame a line. A nil lens is one that nothing is
// known of. Lengths are mm, angles degrees, times seconds, exact numbers strings.
// The error is the writer's, wrapped.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, lens *matchmove.Shot, takes selects.Takes) error {
	out := bufio.NewWriterSize(w, 1<<16)
	// A bufio.Writer keeps its first error and gives it back from Flush.
	_, _ = out.Write(opened(headOf(t, head, lens, takes)))
	for k := range t.Captured() {
		line, err := json.Marshal(frameOf(t, lens, k))
		if err != nil {
			return fmt.Errorf("frame %d of the motion document: %w", k, err)
		}
		if k > 0 {
			_, _ = out.WriteString(",")
		}
		_, _ = out.WriteString("\n    ")
		if _, err := out.Write(line); err != nil {
			break
		}
	}
	_, _ = out.WriteString("\n  ]\n}\n")
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the motion document: %w", err)
	}
	return nil
}

// opened is the head as a document that goes on with the list of its frames.
func opened(h Head) []byte {
	var b bytes.Buffer
	e := plain.Encoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	// A head of texts and whole numbers can always be encoded.
	_ = e.Encode(h)
	return append(bytes.TrimSuffix(b.Bytes(), []byte("\n}\n")), ",\n  \"frames\": ["...)
}

// Digits after the point: a picosecond, as in the frame table, a nanometre or a
// millionth of a degree, and of directions what is a nanometre at a metre.
const (
	timeDecimals   = 12
	placeDecimals  = 6
	vectorDecimals = 9
)

func frameOf(t *trajectory.Trajectory, lens *matchmove.Shot, k int64) Frame {
	c := t.Clock()
	f := Frame{
		Frame: k, Screen: number(c.ScreenTime(exact.Int(k)).Decimal(timeDecimals)), Real: number(t.FrameSeconds(k).Decimal(timeDecimals)),
		Axes: []number{}, Stands: []number{},
	}
	for _, s := range t.Frame(k).States {
		f.Axes = append(f.Axes, decimal(s.Pos, placeDecimals))
	}
	for i := range t.StandCount() {
		f.Stands = append(f.Stands, number(t.StandAngle(i, k).Decimal(placeDecimals)))
	}
	if lens != nil {
		f.Lens = lensOf(*lens, lens.At(exact.Int(k)))
	}
	return f
}
