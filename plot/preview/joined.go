package preview

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"io"

	"seamrail/motion/base/exact"
)

// Shown is a captured frame of a shot as the lens sees it.
type Shown struct {
	Finder *Finder
	Frame  int64
}

// Mixed is one picture of a clip: a frame and, while it dissolves into another, a share of
// that.
type Mixed struct {
	Shown
	Into  Shown   // its Finder is nil where nothing comes in
	Share float64 // of Into, from 0 to 1
}

// WriteClip writes the clip of several shots as an animated PNG that plays for ever: frame
// i of the timeline, of so many at a rate, is at(i). Of more frames than an animation
// holds it takes every nth. Pictures that are less high than others stand in the middle.
// Whatever its length it holds two pictures.
func WriteClip(w io.Writer, frames int64, playback exact.Rat, at func(i int64) Mixed, size image.Point) (Animation, error) {
	if frames < 1 {
		return Animation{}, fmt.Errorf("a clip of %d frames has no picture", frames)
	}
	every := (frames + maxViews - 1) / maxViews
	out := Animation{Pictures: int((frames + every - 1) / every), Seconds: exact.Int(frames).Quo(playback)}
	delays := make([]Delay, out.Pictures)
	for i := range delays {
		stands := min(every, frames-int64(i)*every)
		var err error
		if delays[i], err = NewDelay(exact.Int(stands).Quo(playback)); err != nil {
			return out, err
		}
		out.Off = out.Off.Add(delays[i].Off)
	}
	return out, wrapped(animate(w, delays, func(i int) *image.RGBA { return at(int64(i) * every).draw(size) }))
}

// beside is what is beside a picture that is less high than others.
var beside = image.NewUniform(color.RGBA{0x20, 0x20, 0x20, 0xff})

// draw draws a picture on a canvas of a size.
func (m Mixed) draw(size image.Point) *image.RGBA {
	out := m.Shown.placed(size)
	if m.Into.Finder == nil || m.Share <= 0 {
		return out
	}
	over := m.Into.placed(size)
	for i, v := range out.Pix {
		out.Pix[i] = uint8(float64(v) + (float64(over.Pix[i])-float64(v))*m.Share + 0.5)
	}
	return out
}

// placed is a frame in the middle of a canvas.
func (s Shown) placed(size image.Point) *image.RGBA {
	frame := s.Finder.Frame(s.Frame)
	if frame.Rect.Size() == size {
		return frame
	}
	out := image.NewRGBA(image.Rectangle{Max: size})
	draw.Draw(out, out.Rect, beside, image.Point{}, draw.Src)
	corner := size.Sub(frame.Rect.Size()).Div(2)
	draw.Draw(out, frame.Rect.Add(corner), frame, image.Point{}, draw.Src)
	return out
}
