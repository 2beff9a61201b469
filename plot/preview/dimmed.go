package preview

import (
	"fmt"

	"seamrail/motion/base/list"
	"seamrail/motion/camera/picture"
	"seamrail/plot/preview/internal/canvas"
)

// dimming is how the drawing darkens as lamps do: by their light, as a film that is
// exposed for the brightest frame takes it. What no lamp reaches darkens with all of
// them together.
type dimming struct {
	lamps func(sec float64) []lamp
	scale float64 // of shares, so that the brightest frame is exposed
	most  float64 // that all lamps give there
}

// maxLooks is in how many frames at most the brightest is looked for: a fade is smooth.
const maxLooks = 600

// newDimming looks for the brightest frame of a move, at the middle of exposures; nil
// where no lamp changes, or none ever burns.
func newDimming(m picture.Motion, v picture.Viewer) (d *dimming, said []string) {
	if !v.Fades() {
		return nil, nil
	}
	d = &dimming{lamps: func(sec float64) []lamp {
		out, _ := shining(v.LampsAt(sec))
		return out
	}}
	n, best := m.Captured(), int64(0)
	for k := int64(0); k < n; k += (n + maxLooks - 1) / maxLooks {
		lamps := d.lamps(m.FrameSeconds(k).Float() + v.Shutter().Or(0)/2)
		if all := given(lamps); all > d.most {
			d.most, d.scale, best = all, exposed(lamps), k
		}
	}
	if d.most == 0 {
		return nil, nil
	}
	return d, []string{fmt.Sprintf("exposed for frame %d, where the lamps are brightest; no other light is drawn", best)}
}

func given(lamps []lamp) float64 { return list.Sum(lamps, func(l lamp) float64 { return l.share }) }

// stageAt is the stage as it is lit at sec, and how bright the film of it is, of the
// brightest frame: as bright as the room or the brightest side, so that nothing is
// brighter than a screen gets before it is dimmed.
func (f *Finder) stageAt(sec float64) (*stage, float64) {
	if f.dims == nil {
		return &f.set, 1
	}
	set := f.set
	set.lamps = f.dims.lamps(sec)
	room := given(set.lamps) / f.dims.most
	if room == 0 {
		return &f.set, 0
	}
	scaled(set.lamps, f.dims.scale)
	film := max(room, dimmest*room+bestSide(set.lamps))
	scaled(set.lamps, 1/film)
	set.room = room / film
	set.table.sides = set.side(set.table)
	return &set, min(film, 1)
}

// dim is a paint that is not worked out from the lamps, as bright as the room is.
func (m *room) dim(l canvas.Light) canvas.Light {
	if m.set.room == 1 {
		return l
	}
	return l.Times(m.set.room)
}
