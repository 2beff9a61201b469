package page

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"image/jpeg"
	"io"
	"net/http"
	"runtime"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/format"
	"seamrail/plot/preview"
)

// pictureQuality is where a drawing of plain faces shows no blocks yet (1..100,
// package image/jpeg).
const pictureQuality = 85

// pictureKind is how the frames of a preview are written: the quickest that
// browsers read.
const pictureKind = "image/jpeg"

// previewQuestion asks for frames of what the lens sees.
type previewQuestion struct {
	Text  string `json:"text"`
	Edits []Edit `json:"edits"`
	Width int    `json:"width"` // px
	From  int64  `json:"from"`  // captured frames
	To    int64  `json:"to"`    // 0 = the end of the loop; this one is not drawn any more
	Every int64  `json:"every"` // 0 = 1
}

// preview streams frames in order, each after its length in bytes, four bytes,
// the lowest first.
func (s *Server) preview(w http.ResponseWriter, r *http.Request) {
	var q previewQuestion
	if !ask(w, r, &q) {
		return
	}
	f, said, err := s.finder(q)
	if err != nil {
		fail(w, err)
		return
	}
	from, to, every := span(q, f.Frames())
	wide, high := f.Size()
	h := w.Header()
	h.Set("Content-Type", "application/octet-stream")
	h.Set("Seamrail-Frames", fmt.Sprintf("from=%d to=%d every=%d of=%d", from, to, every, f.Frames()))
	h.Set("Seamrail-Picture", fmt.Sprintf("kind=%s width=%d height=%d exposures=%d", pictureKind, wide, high, f.Exposures()))
	h.Set("Seamrail-Filled-In", fmt.Sprintf("%d", len(said)))
	flush := http.NewResponseController(w).Flush
	for frame := range drawn(r.Context(), f, from, to, every) {
		data := <-frame
		if writeFrame(w, data) != nil || flush() != nil {
			return
		}
	}
}

func (s *Server) finder(q previewQuestion) (*preview.Finder, []string, error) {
	text, err := s.edited(q.Text, q.Edits)
	if err != nil {
		return nil, nil, err
	}
	p, err := s.planned(text)
	if err != nil {
		return nil, nil, err
	}
	return format.Finder(p, q.Width, false)
}

// span is which frames are drawn, within the loop.
func span(q previewQuestion, captured int64) (from, to, every int64) {
	to = q.To
	if to <= 0 || to > captured {
		to = captured
	}
	return max(min(q.From, to), 0), to, max(q.Every, 1)
}

// drawn draws frames on every processor, and gives them in order.
func drawn(ctx context.Context, f *preview.Finder, from, to, every int64) <-chan chan []byte {
	ready := make(chan chan []byte, runtime.GOMAXPROCS(0))
	deadman.Go(func() {
		defer close(ready)
		for k := from; k < to; k += every {
			one := make(chan []byte, 1)
			select {
			case <-ctx.Done():
				return
			case ready <- one:
				deadman.Go(func() { one <- drawing(f, k) })
			}
		}
	})
	return ready
}

func drawing(f *preview.Finder, k int64) []byte {
	var b bytes.Buffer
	_ = jpeg.Encode(&b, f.Frame(k), &jpeg.Options{Quality: pictureQuality}) // a buffer takes all, and the size is small
	return b.Bytes()
}

func writeFrame(w io.Writer, data []byte) error {
	var size [4]byte
	binary.LittleEndian.PutUint32(size[:], uint32(len(data)))
	if _, err := w.Write(size[:]); err != nil {
		return err
	}
	_, err := w.Write(data)
	return err
}
