package move

import (
	"fmt"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/track"
)

// Point is where a thing to look at is, in mm: along the rail, away from it, up from
// the lens.
type Point [3]unit.Quantity

// Sight is the point as a track sees it.
func (p Point) Sight() track.Sight {
	return track.Sight{Along: p[0].Float(), Away: p[1].Float(), Up: p[2].Float()}
}

// point reads where the thing to look at is.
func (r *Reader) point(p source.Texts) Point {
	const example = `["160 mm", "400 mm"], or ["160 mm", "400 mm", "-30 mm"]`
	var out Point
	for i := range out {
		out[i].Dim = unit.Length
	}
	switch {
	case !p.Set:
		r.Missing(r.At, r.Path+"point", example)
		return out
	case p.Single || len(p.Items) < 2 || len(p.Items) > 3:
		r.Add(p.Place(), r.Path+"point", "", "must have two lengths or three: along the rail, away from it, up from the lens", "such as "+example)
		return out
	case len(p.Items) == 2:
		r.Default(r.Path+"point[3]", "0 mm", "as high as the lens")
	}
	for i, t := range p.Items {
		if q, ok := r.Quantity(t, fmt.Sprintf("%spoint[%d]", r.Path, i+1), unit.Length); ok {
			out[i] = q
		}
	}
	if out[1].Value.Sign() <= 0 {
		r.Wrong(p.Items[1], r.Path+"point[2]", "must be above 0 mm", "the lens is to look away from the rail")
	}
	return out
}
