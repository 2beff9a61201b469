package preview

import (
	"image"
	"io"
)

// WriteFilm writes pictures of any kind as an animation, each shown as long.
func WriteFilm(w io.Writer, d Delay, pictures ...image.Image) error {
	f := newFilm(w, len(pictures))
	for _, p := range pictures {
		if err := f.add(p, d); err != nil {
			return err
		}
	}
	return nil
}
