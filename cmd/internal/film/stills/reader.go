package stills

import (
	"image"
	"io"
	"path/filepath"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/film/luma"
)

const (
	// ahead is how many stills are decoded at once: one for each of two processors. More
	// would each hold a picture of all its channels.
	ahead = 2
	// maxAhead is how many pixels a still may have for that: two of them are 256 MB at most,
	// at 8 bytes a pixel. Larger ones come one by one.
	maxAhead = 16_000_000
)

// Reader reads still after still.
type Reader struct {
	Width, Height int
	Bits          int // a channel of the first
	dir           string
	files         []Named
	at            int             // of the next to be read
	ahead         int             // how many are decoded at once
	begun         int             // of the next to be decoded, not before at
	coming        []chan decoding // of those from at to begun
	row           []float32
}

type decoding struct {
	img image.Image
	err error
}

// NewReader looks at the first of the files, which has the size that all have to have.
func NewReader(dir string, files []Named) (*Reader, error) {
	r := &Reader{dir: dir, files: files, ahead: ahead}
	c, err := look(r.path(0))
	if err != nil {
		return nil, err
	}
	r.Width, r.Height, r.Bits = c.Width, c.Height, bits(c)
	r.row = make([]float32, c.Width)
	if c.Width*c.Height > maxAhead {
		r.ahead = 1
	}
	return r, nil
}

func (r *Reader) path(k int) string { return filepath.Join(r.dir, r.files[k].Name) }

// Name is that of the file of frame k, without its folder; "" where there is none.
func (r *Reader) Name(k int) string {
	if k < 0 || k >= len(r.files) {
		return ""
	}
	return r.files[k].Name
}

// Read hands out the rows of the next still from above; with none to take them it passes
// over it, and does not look at the file. Its error is io.EOF after the last.
func (r *Reader) Read(row func(y int, row []float32)) error {
	if r.at == len(r.files) {
		return io.EOF
	}
	if row == nil {
		return r.pass()
	}
	img, err := r.still()
	if err != nil {
		return err
	}
	for y := range r.Height {
		luma.Row(img, y, r.row)
		row(y, r.row)
	}
	return nil
}

// ReadColour is as Read, but hands out the rows of red, green and blue, which are planes 0 to 2.
func (r *Reader) ReadColour(row func(plane, y int, row []float32)) error {
	if r.at == len(r.files) {
		return io.EOF
	}
	img, err := r.still()
	if err != nil {
		return err
	}
	plain := luma.Plain(img)
	var rows [3][]float32
	for n := range rows {
		rows[n] = make([]float32, r.Width)
	}
	for y := range r.Height {
		luma.Channels(plain, y, rows)
		for n := range rows {
			row(n, y, rows[n])
		}
	}
	return nil
}

// still is the next one.
func (r *Reader) still() (image.Image, error) {
	r.decodeAhead(r.ahead)
	got := <-r.coming[0]
	r.coming = r.coming[1:]
	r.at++
	if got.err == nil {
		r.decodeAhead(r.ahead - 1) // beside the one that is here
	}
	return got.img, got.err
}

// decodeAhead sees that so many of the next are being decoded.
func (r *Reader) decodeAhead(count int) {
	for r.begun < min(r.at+count, len(r.files)) {
		out := make(chan decoding, 1) // it ends whoever waits
		path := r.path(r.begun)
		deadman.Go(func() {
			img, err := decode(path, r.Width, r.Height)
			out <- decoding{img, err}
		})
		r.coming = append(r.coming, out)
		r.begun++
	}
}

// pass passes over the next still.
func (r *Reader) pass() error {
	if r.begun > r.at {
		<-r.coming[0]
		r.coming = r.coming[1:]
	} else {
		r.begun++
	}
	r.at++
	return nil
}

// Close waits for what is being decoded. Nothing is read after it.
func (r *Reader) Close() error {
	for _, c := range r.coming {
		<-c
	}
	r.coming, r.at, r.begun = nil, len(r.files), len(r.files)
	return nil
}
