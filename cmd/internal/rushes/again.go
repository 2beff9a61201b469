package rushes

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"

	"seamrail/cmd/internal/film"
	"seamrail/motion/footage"
)

// Pictures reads frames of a recording once more, to be shown, and calls f with each in its order.
// It fails where the recording was standard input, where it is shorter, or with the error of f.
func Pictures(ctx context.Context, what string, o film.Options, first, count int, f func(n int, p *image.RGBA) error) error {
	if what == film.Stdin {
		return errors.New("standard input cannot be read a second time; write it to a file first")
	}
	o.Frames = film.Range{First: first, Last: first + count - 1, Bounded: true}
	reel, err := film.Open(ctx, what, o)
	if err != nil {
		return err
	}
	var g footage.Gray
	for n := range count {
		if err = reel.Next(&g); err == nil {
			err = f(n, shown(g))
		}
		if errors.Is(err, io.EOF) {
			err = fmt.Errorf("%s has no frame %d", what, first+n)
		}
		if err != nil {
			break
		}
	}
	return errors.Join(err, reel.Close())
}

// shown is a frame as a picture, in grey as it was looked at.
func shown(g footage.Gray) *image.RGBA {
	p := image.NewRGBA(image.Rect(0, 0, g.Width, g.Height))
	for n, v := range g.Pix {
		code := uint8(min(max(v, 0), 1)*255 + 0.5)
		p.Pix[4*n], p.Pix[4*n+1], p.Pix[4*n+2], p.Pix[4*n+3] = code, code, code, 255
	}
	return p
}
