// Package frames writes the frame table: one row a captured frame with the
// state of every axis, as comma-separated values (RFC 4180) under "#" lines.
package frames

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

const (
	// timeDecimals is how many decimals times have: a picosecond, so that
	// rounding never shows against a frame of 41708333.3 ns.
	timeDecimals = 12
	// decimals is how many decimals positions and their derivatives have: a
	// nanometre, a thousandth of what any tabletop rig repeats.
	decimals = 6
)

// Options says what the table holds.
type Options struct {
	Handles bool // also the plan's handles before frame 0 and after the last
}

// Write writes the table. Positions are in mm or degrees, speeds and
// accelerations a second and a second squared of real time, all at the instant
// the frame begins; seconds are exact to the picosecond. The columns are
// explained in the header. The error is the writer's, wrapped.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, opt Options) error {
	out := bufio.NewWriterSize(w, 1<<16)
	tab := table{t: t, perScreen: t.Clock().PerScreen(), labels: t.Labelled()}
	// A bufio.Writer keeps its first error and gives it back from Flush.
	buf := header.Write(nil, "# ", tab.header(head))
	buf = append(buf, strings.Join(tab.columns(), ",")+"\n"...)
	first, end := int64(0), t.Captured()
	if opt.Handles {
		first, end = -t.Handles(), end+t.Handles()
	}
	for k := first; k < end; k++ {
		buf = tab.row(buf, k)
		if _, err := out.Write(buf); err != nil {
			break
		}
		buf = buf[:0]
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the frame table: %w", err)
	}
	return nil
}

type table struct {
	t         *trajectory.Trajectory
	perScreen exact.Rat
	labels    bool
}

func (tab table) header(head header.Head) []string {
	lines := head.Lines("frame table, one row a captured frame")
	lines = append(lines,
		"frame: captured frame, 0 is the first of the loop; outside the loop it is a handle",
		"screen_s, real_s: when it comes on screen and when it is exposed, s from frame 0")
	if tab.labels {
		lines = append(lines, "timecode: label of the timeline frame that shows it first")
	}
	words := "per axis: position, speed (/s), acceleration (/s2), in real seconds"
	if tab.t.AxisCount() == 0 || stepped(tab.t.Axis(0)) {
		words += ", and the position in motor steps"
	}
	lines = append(lines, words)
	for i := range tab.t.StandCount() {
		lines = append(lines, tab.standLine(i))
	}
	return lines
}

func (tab table) columns() []string {
	cols := []string{"frame", "screen_s", "real_s"}
	if tab.labels {
		cols = append(cols, "timecode")
	}
	for i := range tab.t.AxisCount() {
		a := tab.t.Axis(i)
		name, unit := field(a.Name), a.Unit()
		cols = append(cols, name+"_"+unit, name+"_"+unit+"_per_s", name+"_"+unit+"_per_s2")
		if stepped(a) {
			cols = append(cols, name+"_steps")
		}
	}
	for i := range tab.t.StandCount() {
		cols = append(cols, field(tab.t.Stand(i).Name)+"_stand_deg")
	}
	return cols
}

// stepped tells whether the motor steps of an axis are known: not of one that is set and
// started by hand.
func stepped(a rig.Axis) bool { return a.StepsPerUnit.Sign() > 0 }

// field makes a name safe in an unquoted column title.
func field(name string) string {
	return strings.NewReplacer(",", " ", `"`, "'").Replace(header.Clean(name))
}

func (tab table) row(buf []byte, k int64) []byte {
	f := tab.t.Frame(k)
	clock := tab.t.Clock()
	buf = strconv.AppendInt(buf, k, 10)
	buf = append(append(buf, ','), clock.ScreenTime(exact.Int(k)).Decimal(timeDecimals)...)
	buf = append(append(buf, ','), f.Seconds.Decimal(timeDecimals)...)
	if tab.labels {
		shown := exact.Int(k).Quo(tab.perScreen).Ceil().Whole()
		buf = append(append(buf, ','), tab.t.Label(shown)...)
	}
	for i, s := range f.States {
		buf = appendFixed(buf, s.Pos)
		buf = appendFixed(buf, s.Vel)
		buf = appendFixed(buf, s.Acc)
		if a := tab.t.Axis(i); stepped(a) {
			buf = appendFixed(buf, s.Pos*a.StepsPerUnit.Float())
		}
	}
	for i := range tab.t.StandCount() {
		buf = append(append(buf, ','), tab.t.StandAngle(i, k).Decimal(decimals)...)
	}
	return append(buf, '\n')
}

// appendFixed appends a comma and x without exponent and without "-0".
func appendFixed(buf []byte, x float64) []byte {
	buf = append(buf, ',')
	start := len(buf)
	buf = strconv.AppendFloat(buf, x, 'f', decimals, 64)
	if buf[start] == '-' && strings.Trim(string(buf[start:]), "-0.") == "" {
		buf = append(buf[:start], buf[start+1:]...)
	}
	return buf
}
