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
	r := &reel{finder: f, views: views, now: -1}
	if len(views) == 1 { // nothing moves, so it is a plain PNG
		return out, wrapped(png.Encode(w, r.at(0)))
	}
	film := newFilm(w, len(views))
	for i, d := range delays {
		if err := film.add(r.at(i), d); err != nil {
			return out, wrapped(err)
		}
	}
	return out, nil
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
