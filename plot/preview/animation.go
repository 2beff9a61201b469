package preview

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"

	"github.com/kettek/apng"

	"seamrail/motion/base/exact"
)

// Animation is what WriteLoop wrote.
type Animation struct {
	Pictures int
	Seconds  exact.Rat // on screen, as asked
	Off      exact.Rat // seconds by which a round of the file is longer than that
}

// WriteLoop writes the loop as an animated PNG that plays for ever, with every
// nth frame of the timeline. It returns an error where Views or NewDelay does,
// and when w fails.
// Source: W3C PNG, third edition, acTL, fcTL and fdAT.
func (f *Finder) WriteLoop(w io.Writer, every int64) (Animation, error) {
	views, err := f.Views(every)
	if err != nil {
		return Animation{}, err
	}
	playback := f.motion.Clock().Playback
	out := Animation{Pictures: len(views), Seconds: exact.Int(f.Screen()).Quo(playback)}
	film := apng.APNG{Frames: make([]apng.Frame, len(views))}
	r := &reel{finder: f, views: views, now: -1}
	for i, v := range views {
		d, err := NewDelay(exact.Int(v.Count).Quo(playback))
		if err != nil {
			return out, err
		}
		out.Off = out.Off.Add(d.Off)
		film.Frames[i] = apng.Frame{Image: frame{r, i}, DelayNumerator: d.Num, DelayDenominator: d.Den, BlendOp: apng.BLEND_OP_SOURCE}
	}
	if len(views) == 1 { // nothing moves, so it is a plain PNG
		return out, wrapped(png.Encode(w, r.at(0)))
	}
	// A drawing so plain packs nearly as well at the quickest level.
	packer := apng.Encoder{CompressionLevel: apng.BestSpeed}
	return out, wrapped(packer.Encode(w, film))
}

func wrapped(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("animated PNG: %w", err)
}

// reel draws the pictures of an animation when they are asked for, one ahead, so
// that a loop of any length takes the memory of two.
type reel struct {
	finder *Finder
	views  []View
	now    int
	pix    *image.RGBA
	next   chan ready // the picture after now, when it is
}

// at is picture i. It is quick where pictures are asked for in order.
func (r *reel) at(i int) *image.RGBA {
	if i == r.now {
		return r.pix
	}
	if r.next != nil && i == r.now+1 {
		r.pix = (<-r.next).picture()
	} else {
		r.pix = r.finder.Frame(r.views[i].Captured)
	}
	r.now, r.next = i, nil
	if i+1 < len(r.views) {
		next := make(chan ready, 1)
		r.next = next
		go func() {
			var x ready
			defer func() {
				x.panicked = recover()
				next <- x
			}()
			x.pix = r.finder.Frame(r.views[i+1].Captured)
		}()
	}
	return r.pix
}

// ready is a picture that was drawn ahead. A panic on the way is the reader's, who
// may have a rig to hold.
type ready struct {
	pix      *image.RGBA
	panicked any
}

func (x ready) picture() *image.RGBA {
	if x.panicked != nil {
		panic(x.panicked)
	}
	return x.pix
}

// frame is one picture of a reel.
type frame struct {
	reel *reel
	i    int
}

// ColorModel is that of an opaque picture.
func (p frame) ColorModel() color.Model { return color.NRGBAModel }

// Bounds are those of every picture.
func (p frame) Bounds() image.Rectangle {
	return image.Rect(0, 0, p.reel.finder.wide, p.reel.finder.high)
}

// Opaque is true: the packer need not look.
func (p frame) Opaque() bool { return true }

// At is a pixel.
func (p frame) At(x, y int) color.Color {
	c := p.reel.at(p.i).RGBAAt(x, y)
	return color.NRGBA(c)
}
