package stills

import (
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // these are what is read
	_ "image/png"
	"io"

	_ "golang.org/x/image/tiff"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/film/luma"
	"seamrail/cmd/internal/film/odd"
)

// look is the size and the kind of a still, without its picture.
func look(path string) (image.Config, error) {
	var out image.Config
	err := opened(path, func(in io.ReadSeeker) (err error) {
		out, err = config(path, in)
		return err
	})
	return out, err
}

func config(path string, in io.Reader) (image.Config, error) {
	c, _, err := image.DecodeConfig(in)
	if err != nil {
		return c, broken(path, err)
	}
	return c, odd.CheckSize(path, c.Width, c.Height)
}

// broken words the error of a decoder, which knows no files.
func broken(path string, err error) error {
	if errors.Is(err, image.ErrFormat) {
		return fmt.Errorf("%s is no still that is read (%s), whatever it is called", path, kinds)
	}
	if err == io.EOF || errors.Is(err, io.ErrUnexpectedEOF) {
		err = errors.New("it ends too early")
	}
	return fmt.Errorf("%s is broken: %w", path, err)
}

// decode is the picture of a still, once its head says that it fits.
func decode(path string, width, height int) (out image.Image, err error) {
	err = opened(path, func(in io.ReadSeeker) error {
		c, err := config(path, in)
		if err != nil {
			return err
		}
		if c.Width != width || c.Height != height {
			return fmt.Errorf("%s has %d x %d px, and those before it %d x %d; frames of a take have one size", path, c.Width, c.Height, width, height)
		}
		if _, err := in.Seek(0, io.SeekStart); err != nil {
			return err
		}
		if out, err = guarded(in); err != nil {
			return broken(path, err)
		}
		if got := out.Bounds(); got.Dx() != width || got.Dy() != height {
			return fmt.Errorf("%s is broken: it has %d x %d px in place of %d x %d", path, got.Dx(), got.Dy(), width, height)
		}
		return nil
	})
	return out, err
}

// guarded decodes a picture. That a decoder of a library panics at a file that was made to
// have it do so is an error of the file: the program may be at a rig.
func guarded(in io.Reader) (out image.Image, err error) {
	defer func() {
		if p := recover(); p != nil {
			out, err = nil, fmt.Errorf("its decoder gave up: %v", p)
		}
	}()
	out, _, err = image.Decode(in)
	return out, err
}

func opened(path string, do func(io.ReadSeeker) error) error {
	f, err := atomicfile.Open(path)
	if cause, ok := atomicfile.Cause(err); ok {
		return fmt.Errorf("cannot read %s: %w", path, cause)
	}
	if err != nil {
		return err
	}
	defer func() { _ = f.Close() }()
	return do(f)
}

// bits is how many a channel of a still has.
func bits(c image.Config) int { return luma.Bits(c.ColorModel) }
