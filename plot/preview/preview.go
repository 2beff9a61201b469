// Package preview draws what the lens sees of a planned shot, frame by frame.
//
// It is a drawing to judge a move by and not a photograph: the product is the
// solid that the scene names, with its faces marked, on a table and before a
// wall that nobody described. Perspective, the blur of what is out of focus and
// the smear of what moves are those of the camera: each frame is the mean of
// many pictures, each taken through another point of the lens' opening at
// another instant of the exposure.
// Source: P. Haeberli and K. Akeley, "The accumulation buffer", Computer
// Graphics 24(4):309-318, SIGGRAPH 1990, DOI 10.1145/97880.97913.
package preview

import (
	"fmt"
	"image"
	"math"
	"strings"
	"sync"

	"seamrail/motion/scene"

	"seamrail/motion/camera/picture"
)

// Finder shows what the lens sees. It is safe for use by several goroutines.
type Finder struct {
	motion     picture.Motion
	viewer     picture.Viewer
	set        stage
	dims       *dimming // nil where no lamp changes
	wide, high int
	zoom       float64 // px of the preview for one of the delivered picture
	iris       float64 // mm, 0 where everything is drawn sharp
	shutter    float64 // real s
	rays       []ray
	said       []string
	rooms      sync.Pool
}

// The widths of a preview, in px: narrower shows nothing, and wider is not what
// a drawing so plain is for.
const (
	MinWidth = 32
	MaxWidth = 1920
)

// New returns a finder whose pictures are so many pixels wide. What the scene
// leaves open is filled in, see Assumed. It returns an error where the width is
// not within MinWidth..MaxWidth, and a fault.List where the scene contradicts
// itself.
func New(m picture.Motion, s scene.Scene, width int) (*Finder, error) {
	if width < MinWidth || width > MaxWidth {
		return nil, fmt.Errorf("width %d must be within %d..%d pixels", width, MinWidth, MaxWidth)
	}
	s, said := filled(s)
	v, err := picture.NewViewer(m, s)
	if err != nil {
		return nil, err
	}
	if missing := v.Missing(); len(missing) > 0 {
		return nil, fmt.Errorf("the picture cannot be drawn; it takes %s", strings.Join(missing, ", and "))
	}
	w, h := v.Size()
	f := &Finder{motion: m, viewer: v, wide: width, zoom: float64(width) / w.Value, iris: v.Iris().Or(0), shutter: v.Shutter().Or(0)}
	f.high = min(max(1, int(math.Round(h.Value*f.zoom))), mostHigh(width))
	f.said = append(said, v.Assumed()...)
	f.set = newStage(s)
	f.said = append(f.said, f.set.said...)
	f.dims, said = newDimming(m, v)
	f.said = append(f.said, said...)
	f.rays = rays(f.exposures())
	f.rooms.New = func() any { return newRoom(f) }
	return f, nil
}

// mostHigh bounds the height of a picture whose pixels were said to be of an
// unlikely number.
func mostHigh(wide int) int { return 4 * wide }

// Size returns the size of every picture in pixels.
func (f *Finder) Size() (wide, high int) { return f.wide, f.high }

// Frames returns how many frames the loop has.
func (f *Finder) Frames() int64 { return f.motion.Captured() }

// Assumed says what was filled in.
func (f *Finder) Assumed() []string { return f.said }

// Exposures returns how many pictures each frame is the mean of.
func (f *Finder) Exposures() int { return len(f.rays) }

// Frame returns captured frame k as the lens sees it. Any k will do: the loop
// goes on for ever.
func (f *Finder) Frame(k int64) *image.RGBA {
	room := f.rooms.Get().(*room)
	defer f.rooms.Put(room)
	begin := f.motion.FrameSeconds(k).Float()
	middle := f.eye(begin, ray{share: 0.5})
	set, light := f.stageAt(begin + 0.5*f.shutter)
	room.set = set
	room.dark = set.shadows(&middle)
	room.seenScores(&middle)
	for _, r := range f.rays {
		room.paint(f.eye(begin, r))
		room.film.Add(room.canvas)
	}
	return room.film.Develop(light)
}

// eye is how a ray sees a frame that begins at an instant.
func (f *Finder) eye(begin float64, r ray) eye {
	e := eye{Sight: f.viewer.At(begin + r.share*f.shutter), dx: r.x * f.iris / 2, dy: r.y * f.iris / 2}
	e.scale = e.Scale * f.zoom
	e.middle.X, e.middle.Y = float64(f.wide)/2, float64(f.high)/2
	return e
}
