package rushes

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"

	"seamrail/cmd/internal/film"
)

// Pictures reads frames of a recording once more, to be shown, and calls f with each in its order.
// It fails where the recording was standard input, where it is shorter, or with the error of f.
func Pictures(ctx context.Context, what string, o film.Options, first, count int, f func(n int, p *image.RGBA) error) error {
	if what == film.Stdin {
		return errors.New("standard input cannot be read a second time; write it to a file first")
	}
	o.Frames = film.Range{First: first, Last: first + count - 1, Bounded: true}
	reel, err := film.OpenPictures(ctx, what, o)
	if err != nil {
		return err
	}
	for n := range count {
		p, err := reel.Next()
		if err == nil {
			err = f(n, p)
		}
		if errors.Is(err, io.EOF) {
			err = fmt.Errorf("%s has no frame %d", what, first+n)
		}
		if err != nil {
			return errors.Join(err, reel.Close())
		}
	}
	return reel.Close()
}
