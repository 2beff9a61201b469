package page

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"image/jpeg"
	"io"
	"iter"
	"net/http"
	"runtime"
	"slices"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
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
	// Frames are those to draw, in this order, in place of the three above. One beyond the
	// loop is its last: a playhead stands there when the loop becomes shorter.
	Frames []int64 `json:"frames"`
	// Beside is set where a plan of the same is asked for at once, which tells what is
	// wrong: then there is no content.
	Beside bool `json:"beside"`
}

// maxPicked is how many frames may be picked in one question: the page picks anew with
// each that comes.
const maxPicked = 1000

// preview streams frames in order, each after its length in bytes, four bytes,
// the lowest first.
func (s *desk) preview(w http.ResponseWriter, r *http.Request) {
	var q previewQuestion
	if !ask(w, r, &q) {
		return
	}
	if q.Beside {
		s.glances.pass(r.Context())
	}
	text, led := s.glances.led(q.Text, q.Edits)
	var err error
	if !led {
		text, err = s.edited(r.Context(), q.Text, q.Edits)
	}
	var p *job.Job
	if err == nil {
		p, err = s.plannedTo(r.Context(), text, posed)
	}
	if err != nil {
		q.undrawn(w, err)
		return
	}
	stream(w, r, p, q)
}

// undrawn says why nothing is drawn, unless somebody else does.
func (q previewQuestion) undrawn(w http.ResponseWriter, err error) {
	if q.Beside {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	fail(w, err)
}

// stream draws frames of a plan.
func stream(w http.ResponseWriter, r *http.Request, p *job.Job, q previewQuestion) {
	f, said, err := format.Finder(p, q.Width, false)
	if err != nil {
		q.undrawn(w, err)
		return
	}
	picked, words := q.pick(f.Frames())
	wide, high := f.Size()
	h := w.Header()
	h.Set("Content-Type", "application/octet-stream")
	h.Set("Seamrail-Frames", words)
	h.Set("Seamrail-Picture", fmt.Sprintf("kind=%s width=%d height=%d exposures=%d", pictureKind, wide, high, f.Exposures()))
	h.Set("Seamrail-Filled-In", fmt.Sprintf("%d", len(said)))
	flush := http.NewResponseController(w).Flush
	for frame := range drawing(r.Context(), f, picked) {
		data := <-frame
		if writeFrame(w, data) != nil || flush() != nil {
			return
		}
	}
}

// pick is which frames are drawn, within the loop, and what is said of them.
func (q previewQuestion) pick(captured int64) (iter.Seq[int64], string) {
	if len(q.Frames) > 0 {
		inside := listOf(q.Frames, func(k int64) int64 { return min(max(k, 0), captured-1) })
		return slices.Values(inside), fmt.Sprintf("picked=%d of=%d", len(q.Frames), captured)
	}
	from, to, every := span(q, captured)
	return func(yield func(int64) bool) {
		for k := from; k < to && yield(k); k += every {
		}
	}, fmt.Sprintf("from=%d to=%d every=%d of=%d", from, to, every, captured)
}

// span is which frames are drawn of a stretch.
func span(q previewQuestion, captured int64) (from, to, every int64) {
	to = q.To
	if to <= 0 || to > captured {
		to = captured
	}
	return max(min(q.From, to), 0), to, min(max(q.Every, 1), captured)
}

// drawing draws frames on every processor, and gives them in order. One that is not
// begun when ctx ends is not drawn.
func drawing(ctx context.Context, f *preview.Finder, frames iter.Seq[int64]) <-chan chan []byte {
	ready := make(chan chan []byte, runtime.GOMAXPROCS(0))
	deadman.Go(func() {
		defer close(ready)
		for k := range frames {
			one := make(chan []byte, 1)
			select {
			case <-ctx.Done():
				return
			case ready <- one:
				deadman.Go(func() { one <- jpegOf(f, k) })
			}
		}
	})
	return ready
}

func jpegOf(f *preview.Finder, k int64) []byte {
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
