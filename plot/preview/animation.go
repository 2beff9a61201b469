package preview

import (
	"fmt"
	"image"
	"image/png"
	"io"

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
func (f *Finder) WriteLoop(w io.Writer, every int64) (Animation, error) {
	views, err := f.Views(every)
	if err != nil {
		return Animation{}, err
	}
	playback := f.motion.Clock().Playback
	out := Animation{Pictures: len(views), Seconds: exact.Int(f.Screen()).Quo(playback)}
	delays := make([]Delay, len(views))
	for i, v := range views {
		if delays[i], err = NewDelay(exact.Int(v.Count).Quo(playback)); err != nil {
			return out, err
		}
		out.Off = out.Off.Add(delays[i].Off)
	}
	draw := func(i int) *image.RGBA { return f.Frame(views[i].Captured) }
	return out, wrapped(animate(w, delays, draw))
}

// animate writes pictures that are drawn when it is their turn; one alone is a plain PNG.
func animate(w io.Writer, delays []Delay, draw func(i int) *image.RGBA) error {
	r := &reel{draw: draw, count: len(delays), now: -1}
	if len(delays) == 1 {
		return png.Encode(w, r.at(0))
	}
	film := newFilm(w, len(delays))
	for i, d := range delays {
		if err := film.add(r.at(i), d); err != nil {
			return err
		}
	}
	return nil
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
	draw  func(i int) *image.RGBA
	count int
	now   int
	pix   *image.RGBA
	next  chan ready // the picture after now, when it is
}

// at is picture i. It is quick where pictures are asked for in order.
func (r *reel) at(i int) *image.RGBA {
	if i == r.now {
		return r.pix
	}
	if r.next != nil && i == r.now+1 {
		r.pix = (<-r.next).picture()
	} else {
		r.pix = r.draw(i)
	}
	r.now, r.next = i, nil
	if i+1 < r.count {
		next := make(chan ready, 1)
		r.next = next
		go func() {
			var x ready
			defer func() {
				x.panicked = recover()
				next <- x
			}()
			x.pix = r.draw(i + 1)
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
