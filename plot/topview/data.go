// Package topview draws the scene from above, to scale on paper that has a
// standard size, so that someone can lay the sheet on the table and build from
// it.
//
// The camera looks up the page. Scales are those of ISO 5455, sheets those of
// ISO 216, lines those of ISO 128: chain lines are axes, thin lines with
// arrows are dimensions (ISO 129-1). All are from memory, as the standards are
// sold: tests hold sheets and scales to their rules.
package topview

import (
	"fmt"
	"math"

	"seamrail/motion/scene"

	"seamrail/motion/camera/picture"
)

// Data is what a plan view shows.
type Data struct {
	Title string
	Lines []string        // small print below the title
	Above picture.TopView // mm, camera looking along y, table's axis at the origin
	Ends  [2]string       // what the ends of the travel are called
	Foot  string
	// Inset leaves out head, notes and cautions, which the page it is set in has,
	// and keeps the paper as it lies.
	Inset bool

	unnamed []string // labels that the drawing has no room for, which the list then tells
}

// Named is the data with what a drawing of it has no room to name, for its Notes. It
// returns an error where nothing can be drawn.
func (d Data) Named(opt Options) (Data, error) {
	p, err := composed("svg", d, opt)
	if err != nil {
		return d, err
	}
	return p.d, nil
}

// From looks at a scene from above while it moves. Title and Foot are the
// caller's. It returns an error where picture.NewTopView does.
func From(m picture.Motion, s scene.Scene) (Data, error) {
	above, err := picture.NewTopView(m, s)
	if err != nil {
		return Data{}, err
	}
	d := Data{Above: above, Lines: []string{"The scene from above. The camera looks up the page."}}
	frame := m.FrameSeconds(1).Sub(m.FrameSeconds(0)).Float()
	for i, sec := range above.Ends {
		d.Ends[i] = fmt.Sprintf("lens at frame %d", nearest(sec, frame))
	}
	return d, nil
}

// nearest is the frame that begins nearest to sec.
func nearest(sec, frame float64) int64 { return int64(math.Round(sec / frame)) }
