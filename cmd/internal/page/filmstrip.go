package page

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"net/http"
	"os"

	"seamrail/cmd/internal/film/reduce"
	"seamrail/motion/footage"
)

const (
	// stripWide is how wide the pictures of a take are at the most, px: as wide as half of the
	// part that they are seen in.
	stripWide = 480
	// stripQuality is where grey shows hardly a block, in some 12 kB (1..100, package image/jpeg).
	stripQuality = 75
	// mostStrip is how many bytes all of them may have: twice what ten minutes at 24 a second take.
	mostStrip = 512 << 20
)

// strip has a small picture of each frame of a take, one behind another in a file: in memory ten
// minutes would take more than all the rest.
type strip struct {
	file       *os.File
	ends       []int64 // of each picture
	rows       *reduce.Rows
	small      footage.Gray
	err        error // why there are no more
	wide, high int
}

func newStrip(path string) (*strip, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_TRUNC, 0o600)
	return &strip{file: f}, err
}

// add adds the picture of the next frame; what cannot be added is told at the end.
func (x *strip) add(g footage.Gray) {
	if x.err != nil {
		return
	}
	if x.rows == nil {
		grid, err := reduce.NewGrid(g.Width, g.Height, reduce.Region{}, min(1, float64(stripWide)/float64(g.Width)))
		if err != nil {
			x.err = err
			return
		}
		x.rows, x.wide, x.high = reduce.NewRows(grid), grid.Width, grid.Height
	}
	x.rows.Begin(&x.small)
	for y := range g.Height {
		x.rows.Row(y, g.Row(y))
	}
	var b bytes.Buffer
	if x.err = jpeg.Encode(&b, shades(x.small), &jpeg.Options{Quality: stripQuality}); x.err != nil {
		return
	}
	at := x.size()
	if at+int64(b.Len()) > mostStrip {
		x.err = fmt.Errorf("pictures of the first %d frames are kept, which is all there is room for", len(x.ends))
		return
	}
	if _, err := x.file.WriteAt(b.Bytes(), at); err != nil {
		x.err = unable("write", "pictures of the take", err)
		return
	}
	x.ends = append(x.ends, at+int64(b.Len()))
}

func (x *strip) size() int64 {
	if len(x.ends) == 0 {
		return 0
	}
	return x.ends[len(x.ends)-1]
}

// picture is that of a frame, as it was written.
func (x *strip) picture(k int64) ([]byte, error) {
	if k < 0 || k >= int64(len(x.ends)) {
		return nil, fmt.Errorf("there is no picture of frame %d; there are %d", k, len(x.ends))
	}
	from := int64(0)
	if k > 0 {
		from = x.ends[k-1]
	}
	data := make([]byte, x.ends[k]-from)
	_, err := x.file.ReadAt(data, from)
	return data, err
}

func (x *strip) close() { _ = x.file.Close() }

// shades is a frame as a picture, in grey as it was looked at.
func shades(g footage.Gray) *image.Gray {
	p := image.NewGray(image.Rect(0, 0, g.Width, g.Height))
	for n, v := range g.Pix {
		p.Pix[n] = uint8(min(max(v, 0), 1)*255 + 0.5)
	}
	return p
}

// filmPictures streams pictures of a take, in the order in which they are asked for, each after
// its length as those of a preview.
func (s *Server) filmPictures(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Film   key     `json:"film"`
		Frames []int64 `json:"frames"` // of the recording
	}
	if !ask(w, r, &q) {
		return
	}
	of, leave, err := s.film.at(q.Film)
	if err != nil {
		fail(w, err)
		return
	}
	defer leave()
	_, x, err := of.seen()
	if err != nil {
		fail(w, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "application/octet-stream")
	h.Set("Seamrail-Frames", fmt.Sprintf("picked=%d of=%d", len(q.Frames), len(x.ends)))
	for n, k := range q.Frames {
		data, err := x.picture(k)
		if err != nil && n == 0 {
			fail(w, err)
		}
		if err != nil || writeFrame(w, data) != nil {
			return
		}
	}
}
