package sheet

import (
	"fmt"
	"strconv"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan/trajectory"
)

// maxMarks is how many parts the loop is marked in at most: as many rows as a
// hand follows with a finger.
const maxMarks = 12

// counts are numbers of frames that people count by, and their tenfolds from 10.
var counts = []int64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24, 30, 36, 40, 48, 50, 60, 72, 80, 90}

// markStep is how many frames lie between two marks of a loop: the least count
// that makes at most maxMarks parts of it, or one less than twice as large that
// divides it.
func markStep(loop int64) int64 {
	var least int64
	for power, from := int64(1), 0; ; power, from = power*10, 7 {
		for _, c := range counts[from:] {
			step := c * power
			switch {
			case step*maxMarks < loop:
			case loop%step == 0:
				return step
			case least == 0:
				least = step
			case step >= 2*least:
				return least
			}
		}
	}
}

// marks are where every axis and stand is, a row every so many timeline frames
// and one for the seam.
func marks(t *trajectory.Trajectory, step int64) Table {
	l := t.Loop()
	out := Table{Name: fmt.Sprintf("Marks, every %s on screen", frames(step)), Heads: []string{"frame", "real s"}}
	for i := range t.AxisCount() {
		out.Heads = append(out.Heads, t.Axis(i).Name+", "+t.Axis(i).Unit())
	}
	for i := range t.StandCount() {
		out.Heads = append(out.Heads, t.Stand(i).Name+", deg")
	}
	at := func(frame int64, name string) {
		sec := l.Real().Mul(exact.New(frame, l.Screen))
		row := []string{name, fmt.Sprintf("%.3f", sec.Float())}
		for i := range t.AxisCount() {
			row = append(row, place(t.Position(i, sec.Float())))
		}
		for i := range t.StandCount() {
			row = append(row, place(t.StandAngle(i, 0).Add(t.Stand(i).Rate.Mul(sec)).Float()))
		}
		out.Rows = append(out.Rows, row)
	}
	for k := int64(0); k < l.Screen; k += step {
		at(k, strconv.FormatInt(k, 10))
	}
	at(l.Screen, "seam")
	if t.StandCount() > 0 {
		out.Notes = append(out.Notes, "A display stand turns by itself; its angle is from where frame 0 finds it.")
	}
	return out
}

// place prints a position to a hundredth of a mm or degree: finer than a scale
// along a rail or round a table can be read.
func place(v float64) string {
	if v > -0.005 && v < 0 {
		v = 0
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// amount is place with the unit of an axis.
func amount(v float64, of string) string { return place(v) + " " + of }

// rate prints a speed to three digits.
func rate(v float64, of string) string {
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	return unit.Format(v, unit.Number) + " " + of + "/s"
}
