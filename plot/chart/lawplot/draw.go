// Package lawplot draws several motion laws over the same travel and time, one
// on the other: position, speed, acceleration and, if asked, jerk.
package lawplot

import (
	"errors"
	"io"
	"math"

	"gonum.org/v1/plot/vg"

	"seamrail/motion/law"
	"seamrail/plot/internal/style"
)

// Data is what is compared. Limits of 0 are not stated.
type Data struct {
	Title   string
	Lines   []string // small print below the title
	Unit    string   // "mm" or "deg"
	Travel  float64  // units, > 0
	Seconds float64  // real seconds from rest to rest, > 0
	Laws    []law.Law

	Speed, Acc, Jerk float64 // what the rig allows
}

// Options say what to draw.
type Options struct {
	Jerk bool // a panel for jerk as well
}

// The layout, in points.
const (
	width      vg.Length = 432
	left       vg.Length = 60
	right      vg.Length = 24
	headGap    vg.Length = 8
	titleRoom  vg.Length = 22
	plotHeight vg.Length = 112
	rowGap     vg.Length = 14
	timeRoom   vg.Length = 44
	keyRow     vg.Length = 18
	keyRoom    vg.Length = 44
)

// row is one panel: the derivative it shows and what scales it.
type row struct {
	name, per string
	order     int
	pick      func(law.Point) float64
	peak      func(law.Peaks) float64
}

var all = []row{
	{"position", "", 0, func(p law.Point) float64 { return p.S }, func(law.Peaks) float64 { return 1 }},
	{"speed", "/s", 1, func(p law.Point) float64 { return p.V }, func(p law.Peaks) float64 { return p.V }},
	{"acceleration", "/s²", 2, func(p law.Point) float64 { return p.A }, func(p law.Peaks) float64 { return p.A }},
	{"jerk", "/s³", 3, func(p law.Point) float64 { return p.J }, func(p law.Peaks) float64 { return p.J }},
}

// scale is what turns a derivative by u into units and real seconds: D/T^n.
func (d Data) scale(order int) float64 {
	return d.Travel / math.Pow(d.Seconds, float64(order))
}

func (d Data) limit(order int) float64 { return [...]float64{0, d.Speed, d.Acc, d.Jerk}[order] }

// Draw draws d and writes it to w as "png", "svg" or "pdf". It returns an
// error for another format, for a travel or time that is not positive, for no
// laws, and when w fails.
func Draw(w io.Writer, format string, d Data, opt Options) error {
	if err := style.CheckFormat(format); err != nil {
		return err
	}
	if len(d.Laws) == 0 || !(d.Travel > 0) || !(d.Seconds > 0) {
		return errors.New("nothing to compare: it takes a law, a travel above 0 and a time above 0")
	}
	rows := all[:3]
	if opt.Jerk {
		rows = all
	}
	head := style.NewHead(width, d.Title, d.Lines...)
	h := head.Height() + headGap + vg.Length(len(rows))*(titleRoom+plotHeight+rowGap) +
		timeRoom + keyRoom + keyRow*vg.Length(len(d.Laws)) + style.Edge
	s, err := style.NewSheet(format, width, h)
	if err != nil {
		return err
	}
	y := head.Draw(s) - headGap
	for i, r := range rows {
		y = d.panel(s, y, r, i == len(rows)-1)
	}
	d.key(s, y-timeRoom)
	_, err = s.WriteTo(w)
	return err
}
