// Package levels writes the table of lamps: one row a lamp of each captured frame, with
// what its dimmer is to be told, as comma-separated values (RFC 4180) under "#" lines.
package levels

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/fade"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/scene"
)

// timeDecimals is how many decimals times have: a picosecond, as in the frame table, so
// that rows of the two can be joined.
const timeDecimals = 12

// column is one column of the table, of a lamp as it burns in a frame.
type column struct {
	title, words string
	of           func(scene.Lamp) string
}

var columns = []column{
	{"level", "what of its full light it gives, 0 to 1", func(l scene.Lamp) string { return fixed(l.Level.Or(1), 6) }},
	{"percent", "the same in percent", func(l scene.Lamp) string { return fixed(100*l.Level.Or(1), 3) }},
	{"dial_percent", "where the dial of its dimmer stands, by the curve that the shot states for it", func(l scene.Lamp) string { return fixed(100*dial(l), 3) }},
	{"slot", "the same as stage lighting is told it, 0 to 255 (ANSI E1.11)", func(l scene.Lamp) string { return slot(l, false) }},
	{"slot_pair", "the same in two slots, coarse times 256 and fine, 0 to 65535", func(l scene.Lamp) string { return slot(l, true) }},
	{"lux", "it gives on a face turned to the camera, from its lumens, beam and distance", lux},
	{"stops", "under its full light; inf where it gives none", func(l scene.Lamp) string { return fixed(calm(-math.Log2(l.Level.Or(1))), 3) }},
	{"kelvin", "its colour temperature then", kelvin},
}

// Write writes the table: the lamps of each frame of the loop as they are to burn at the
// row's time. The error is the writer's, wrapped.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, v picture.Viewer) error {
	if _, err := w.Write(header.Write(nil, "# ", lines(head, v))); err != nil {
		return fmt.Errorf("writing the table of lamps: %w", err)
	}
	out := csv.NewWriter(w)
	titles := []string{"frame", "screen_s", "real_s", "lamp"}
	for _, c := range columns {
		titles = append(titles, c.title)
	}
	_ = out.Write(titles) // it keeps its first error
	for k := range t.Loop().Captured {
		at := t.FrameSeconds(k)
		times := []string{strconv.FormatInt(k, 10), t.Clock().ScreenTime(exact.Int(k)).Decimal(timeDecimals), at.Decimal(timeDecimals)}
		for _, l := range v.LampsAt(at.Float()) {
			row := append(times[:len(times):len(times)], header.Clean(l.Name))
			for _, c := range columns {
				row = append(row, c.of(l))
			}
			_ = out.Write(row)
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("writing the table of lamps: %w", err)
	}
	return nil
}

func lines(head header.Head, v picture.Viewer) []string {
	out := append(head.Lines("table of lamps, a row a lamp of each captured frame"),
		"frame: captured frame, 0 is the first of the loop",
		"screen_s, real_s: when it comes on screen and when its exposure begins, s from frame 0")
	for _, c := range columns {
		out = append(out, c.title+": "+c.words)
	}
	out = append(out, "each round of a take goes through it once; before and after, and while the rig comes back, lamps stand as in frame 0",
		"a value that is not known is left empty")
	for _, l := range v.LampsAt(0) {
		if l.Fade != nil {
			out = append(out, header.Clean(l.Name)+": "+l.Fade.Words()+"; dimmer "+l.Curve.Words())
		}
	}
	return out
}

func dial(l scene.Lamp) float64 { return l.Curve.Dial(l.Level.Or(1)) }

func slot(l scene.Lamp, pair bool) string {
	one, two := fade.Slots(dial(l))
	if pair {
		one = two
	}
	return strconv.Itoa(one)
}

func lux(l scene.Lamp) string {
	v, missing := l.Lux()
	if len(missing) > 0 {
		return ""
	}
	return fixed(v, 3)
}

func kelvin(l scene.Lamp) string {
	if !l.Kelvin.Given || l.Level.Or(1) == 0 {
		return ""
	}
	return fixed(l.Kelvin.Value, 0)
}

// calm turns the -0 of a full lamp into 0.
func calm(v float64) float64 { return v + 0 }

func fixed(v float64, decimals int) string {
	if math.IsInf(v, 0) {
		return "inf"
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}
