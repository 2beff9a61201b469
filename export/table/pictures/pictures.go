// Package pictures writes the picture table: one row a captured frame with what the
// move does to the picture, as comma-separated values (RFC 4180) under "#" lines.
package pictures

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/trajectory"
)

const (
	// timeDecimals is how many decimals times have: a picosecond, as in the
	// frame table, so that rows of the two can be joined.
	timeDecimals = 12
	// decimals is how many decimals everything else has: a thousandth of a
	// pixel or a millimetre is beyond any lens or ruler, and a magnification
	// has the more.
	decimals      = 3
	finer         = 6
	emptyHeadline = "a value that is not known is left empty; inf has no end"
)

// column is one column of the table.
type column struct {
	title, words string
	decimals     int
	of           func(picture.Row) float64
}

var columns = []column{
	{"magnification", "of the product's near face, image over object", finer, func(r picture.Row) float64 { return r.Magnification }},
	{"smear_px", "of the point that runs most in the exposure, px", decimals, func(r picture.Row) float64 { return r.Smear.Together }},
	{"sideways_px", "what the carriage does of it across the lens axis", decimals, func(r picture.Row) float64 { return r.Smear.Sideways }},
	{"push_px", "what it does along the lens axis, at the near face", decimals, func(r picture.Row) float64 { return r.Smear.PushCentre }},
	{"push_edge_px", "the same at the edge of the picture", decimals, func(r picture.Row) float64 { return r.Smear.PushEdge }},
	{"table_px", "what the turning product does", decimals, func(r picture.Row) float64 { return r.Smear.Table }},
	{"pan_px", "what the pan does", decimals, func(r picture.Row) float64 { return r.Smear.Pan }},
	{"tilt_px", "what the tilt does", decimals, func(r picture.Row) float64 { return r.Smear.Tilt }},
	{"focus_px", "what pulling focus does", decimals, func(r picture.Row) float64 { return r.Smear.Focus }},
	{"speed_widths_per_s", "greatest speed on screen, picture widths a second", finer, func(r picture.Row) float64 { return r.Speed }},
	{"drift_mm", "how far the near face stands beyond the plane in focus", decimals, func(r picture.Row) float64 { return r.Drift }},
	{"near_mm", "nearest that is sharp, from the lens", decimals, func(r picture.Row) float64 { return r.Near }},
	{"far_mm", "farthest that is sharp, from the lens", decimals, func(r picture.Row) float64 { return r.Far }},
	{"blur_px", "across a point on the near face", decimals, func(r picture.Row) float64 { return r.Blur }},
	{"clearance_mm", "between lens and product", decimals, func(r picture.Row) float64 { return r.Clearance }},
}

// lightColumns are of the light, where it changes.
var lightColumns = []column{
	{"light_lx", "on what faces the camera, in the middle of the exposure", decimals, func(r picture.Row) float64 { return r.Light }},
	{"under_stops", "under the brightest frame", decimals, func(r picture.Row) float64 { return r.Under }},
	{"light_K", "colour temperature of the mixture of lamps there", 0, func(r picture.Row) float64 { return r.Kelvin }},
}

// focusColumns are of the focus, where a hand pulls it.
var focusColumns = []column{
	{"focus_mm", "the plane in focus, from the lens", decimals, func(r picture.Row) float64 { return r.Focus }},
}

// columnsOf are the columns of a picture.
func columnsOf(r picture.Report) []column {
	out := columns
	if len(r.Pulls) > 0 {
		out = slices.Concat(out, focusColumns)
	}
	if r.Fades {
		out = slices.Concat(out, lightColumns)
	}
	return out
}

// ErrNothing is returned for a picture without rows.
var ErrNothing = errors.New("nothing is known frame by frame")

// Write writes the table. Each value is that of the exposure which begins at the
// row's time. The error is ErrNothing or the writer's, wrapped.
func Write(w io.Writer, t *trajectory.Trajectory, head header.Head, r picture.Report) error {
	if len(r.Rows) == 0 {
		return ErrNothing
	}
	out := bufio.NewWriterSize(w, 1<<16)
	// A bufio.Writer keeps its first error and gives it back from Flush.
	buf := header.Write(nil, "# ", lines(head, r))
	all := columnsOf(r)
	_, _ = out.Write(append(buf, titles(all)...))
	for _, one := range r.Rows {
		if _, err := out.Write(row(nil, t, one, all)); err != nil {
			break
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the picture table: %w", err)
	}
	return nil
}

func lines(head header.Head, r picture.Report) []string {
	out := head.Lines("picture table, one row a captured frame")
	if r.Every > 1 {
		out = append(out, fmt.Sprintf("the loop is long: one row every %d captured frames", r.Every))
	}
	out = append(out, "frame: captured frame, 0 is the first of the loop",
		"screen_s, real_s: when it comes on screen and when its exposure begins, s from frame 0", emptyHeadline)
	for _, c := range columnsOf(r) {
		out = append(out, c.title+": "+c.words)
	}
	return append(out, "smear_at: the point that runs most")
}

func titles(columns []column) string {
	names := []string{"frame", "screen_s", "real_s"}
	for _, c := range columns {
		names = append(names, c.title)
	}
	return strings.Join(append(names, "smear_at"), ",") + "\n"
}

func row(buf []byte, t *trajectory.Trajectory, r picture.Row, columns []column) []byte {
	clock := t.Clock()
	buf = strconv.AppendInt(buf, r.Frame, 10)
	buf = append(append(buf, ','), clock.ScreenTime(exact.Int(r.Frame)).Decimal(timeDecimals)...)
	buf = append(append(buf, ','), t.FrameSeconds(r.Frame).Decimal(timeDecimals)...)
	for _, c := range columns {
		buf = appendFixed(append(buf, ','), c.of(r), c.decimals)
	}
	buf = append(append(buf, ','), r.Smear.Point...)
	return append(buf, '\n')
}

// appendFixed appends v without exponent and without "-0"; nothing for NaN.
func appendFixed(buf []byte, v float64, decimals int) []byte {
	switch {
	case math.IsNaN(v):
		return buf
	case math.IsInf(v, 0):
		return append(buf, "inf"...)
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return append(buf, s...)
}
