package motionplot

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/scene"

	"seamrail/motion/camera/picture"
	"seamrail/plot/internal/style"
)

// FromPicture returns what a figure shows of a picture: smear, magnification,
// focus, clearance and, where lamps change, the light, as far as they are known, beside
// what b asks.
func FromPicture(r picture.Report, b scene.Bounds) []Strip {
	b = b.Filled()
	all := []Strip{smear(r, b), magnification(r), focus(r), clearance(r, b)}
	if r.Fades {
		all = append(all, lit(r))
	}
	return slices.DeleteFunc(all, func(s Strip) bool { return len(s.runs()) == 0 })
}

// over reads one number of every frame.
func over(r picture.Report, of func(picture.Row) float64) (times, values []float64) {
	for _, row := range r.Rows {
		times, values = append(times, row.Seconds), append(values, of(row))
	}
	return times, values
}

// worst is the frame at which a value is greatest, NaN aside.
func worst(r picture.Report, of func(picture.Row) float64) (value float64, frame int64) {
	value = math.Inf(-1)
	for _, row := range r.Rows {
		if v := of(row); v > value {
			value, frame = v, row.Frame
		}
	}
	return value, frame
}

func smear(r picture.Report, b scene.Bounds) Strip {
	of := func(row picture.Row) float64 { return row.Smear.Together }
	s := Strip{Name: "smear", What: "in one exposure", Unit: "px", Zero: true,
		Levels: []Level{{b.SoftSmear, "natural"}, {b.SharpSmear, "sharp"}}}
	s.Times, s.Values = over(r, of)
	most, frame := worst(r, of)
	s.Note = fmt.Sprintf("at most %s px, frame %d", short(most), frame)
	s.Over = most > b.SoftSmear
	if s.Over {
		s.Note = fmt.Sprintf("%s px, frame %d, over %s", short(most), frame, short(b.SoftSmear))
	}
	return s
}

func magnification(r picture.Report) Strip {
	s := Strip{Name: "magnification", What: "of the near face", Unit: "times"}
	s.Times, s.Values = over(r, func(row picture.Row) float64 { return row.Magnification })
	lo, hi := style.Extent(s.Values)
	s.Note = short(lo) + " to " + short(hi)
	if short(lo) == short(hi) {
		s.Note = "stays at " + short(hi)
	}
	return s
}

// lit is the light on what faces the camera, of that in the brightest frame.
func lit(r picture.Report) Strip {
	s := Strip{Name: "light", What: "of the brightest frame", Unit: "%", Zero: true}
	s.Times, s.Values = over(r, func(row picture.Row) float64 { return 100 * math.Exp2(-row.Under) })
	most, frame := worst(r, func(row picture.Row) float64 { return row.Under })
	s.Note = fmt.Sprintf("down by %s stops, frame %d", short(most), frame)
	if math.IsInf(most, 1) {
		s.Note = fmt.Sprintf("down to nothing, frame %d", frame)
	}
	return s
}

// short prints a number to three digits, which a lens and a ruler are good for.
func short(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return style.Number(v)
	}
	grain := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-2)
	return style.Number(math.Round(v/grain) * grain)
}

// focus is where the near face lies beside the plane in focus, over the depth
// that is sharp.
func focus(r picture.Report) Strip {
	s := Strip{Name: "focus", What: "near face off it", Unit: "mm"}
	s.Times, s.Values = over(r, func(row picture.Row) float64 { return row.Drift })
	_, s.Low = over(r, func(row picture.Row) float64 { return row.Near - row.Focus })
	_, s.High = over(r, func(row picture.Row) float64 { return row.Far - row.Focus })
	left := int64(-1)
	for i, v := range s.Values {
		// NaN limits, where no aperture is known, are passed by nothing.
		if v < s.Low[i]-focusSlack || v > s.High[i]+focusSlack {
			left = r.Rows[i].Frame
			break
		}
	}
	lo, hi := style.Extent(s.Values)
	s.Note = short(lo) + " to " + short(hi) + " mm"
	switch low, _ := style.Extent(s.Low); {
	case left >= 0:
		s.Over, s.Note = true, fmt.Sprintf("not sharp at frame %d", left)
	case low < 0:
		s.Note = "all of it sharp (shaded)"
	}
	return s
}

// focusSlack keeps a face on the very limit of what is sharp in it, in mm.
const focusSlack = 1e-6

func clearance(r picture.Report, b scene.Bounds) Strip {
	nearness := func(row picture.Row) float64 { return -row.Clearance }
	s := Strip{Name: "clearance", What: "lens to product", Unit: "mm",
		Levels: []Level{{0, "strikes"}, {b.Clearance, "asked"}}}
	s.Times, s.Values = over(r, func(row picture.Row) float64 { return row.Clearance })
	least, frame := worst(r, nearness)
	least = -least
	s.Note = fmt.Sprintf("least %s mm, frame %d", short(least), frame)
	s.Over = least < b.Clearance
	switch {
	case least <= 0:
		s.Note = fmt.Sprintf("STRIKES at frame %d", frame)
	case s.Over:
		s.Note = fmt.Sprintf("%s mm, frame %d, %s asked", short(least), frame, short(b.Clearance))
	}
	return s
}
