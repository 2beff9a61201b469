package rs274

import (
	"math"
	"strconv"

	"seamrail/motion/spec/rig"
)

const (
	// feedDigits is how many significant digits F words have: the duration of
	// a block is then good to less than a millionth.
	feedDigits    = 7
	secondsMinute = 60
)

// Feed is how a controller is told the pace of a block.
type Feed struct {
	Style    rig.FeedStyle
	Path     Path
	Decimals int // most decimals of the word; 0 = as many as its digits need
}

// FeedOf returns how the controller of r reads feeds of the given axes.
func FeedOf(c rig.Controller, axes []rig.Axis) Feed {
	return Feed{Style: c.Feed, Path: pathOf(c, axes), Decimals: c.FeedDecimals}
}

// Value returns F of a block in which each axis moves by delta in sec seconds,
// not yet rounded: one over the minutes it takes, or units a minute along the
// path.
func (f Feed) Value(sec float64, delta []float64) float64 {
	if f.Style == rig.PerMinute {
		return f.Path.Length(delta) / sec * secondsMinute
	}
	return secondsMinute / sec
}

// Seconds is the inverse of Value: the time that F tells of a block.
func (f Feed) Seconds(value float64, delta []float64) float64 {
	if f.Style == rig.PerMinute {
		return f.Path.Length(delta) / value * secondsMinute
	}
	return secondsMinute / value
}

// places is how many decimals v is written with.
func (f Feed) places(v float64) int {
	n := feedDigits - 1 - int(math.Floor(math.Log10(v)))
	if f.Decimals > 0 {
		return min(max(n, 0), f.Decimals)
	}
	return max(n, 1)
}

// Round returns v as it is written: 0 where it is too small for the decimals,
// which controllers refuse.
func (f Feed) Round(v float64) float64 {
	grain := math.Pow10(f.places(v))
	return math.Round(v*grain) / grain
}

// Append appends v in plain notation, without zeros at the end.
func (f Feed) Append(buf []byte, v float64) []byte { return Append(buf, v, f.places(v)) }

// Append appends v with at most so many decimals and no zeros at the end.
func Append(buf []byte, v float64, decimals int) []byte {
	buf = strconv.AppendFloat(buf, v, 'f', decimals, 64)
	if decimals == 0 {
		return buf
	}
	for buf[len(buf)-1] == '0' {
		buf = buf[:len(buf)-1]
	}
	if buf[len(buf)-1] == '.' {
		buf = buf[:len(buf)-1]
	}
	return buf
}
