package page

import (
	"fmt"
	"math"
	"net/http"
	"strconv"
	"strings"
)

// filmAccepts is what a hand takes as true of a take, after it has looked.
type filmAccepts struct {
	Film   key      `json:"film"`
	Frame0 *float64 `json:"frame0"` // of the recording; null where it is left open
	From   *int     `json:"from"`   // the loop that is shown; null where none is chosen
	To     *int     `json:"to"`     // its last frame
}

// Accepted is what was taken as true of a take. It is written nowhere yet.
type Accepted struct {
	Film   string   `json:"film"` // the name of the recording
	Frame0 *float64 `json:"frame0"`
	From   *int     `json:"from"`
	To     *int     `json:"to"`
	Words  string   `json:"words"`
	Takes  []int    `json:"takes"` // as which it can be kept, the last first
	Why    string   `json:"why"`   // as none; "" where there are some
}

// acceptFilm holds what was accepted of a take, and says as which take it can be kept. Nothing is
// written.
func (s *desk) acceptFilm(q filmAccepts) (*Accepted, error) {
	r, leave, err := s.film.at(q.Film)
	if err != nil {
		return nil, err
	}
	defer leave()
	take, _, err := r.seen()
	if err != nil {
		return nil, err
	}
	if err := q.check(len(take.Course.Frames)); err != nil {
		return nil, err
	}
	a := accept(r.name, q.Frame0, q.From, q.To)
	if a.Takes, err = s.keepable(r); err != nil {
		a.Why = err.Error()
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.accepted = &a
	return &a, nil
}

// farFrame0 is how many frames off a recording frame 0 may be: days of it.
const farFrame0 = 1e7

func (q filmAccepts) check(frames int) error {
	switch {
	case q.Frame0 == nil && q.From == nil:
		return refused(http.StatusBadRequest, "neither frame 0 nor a loop is accepted")
	case q.Frame0 != nil && math.Abs(*q.Frame0) > farFrame0:
		return refused(http.StatusBadRequest, fmt.Sprintf("frame 0 cannot be at frame %g of the recording", *q.Frame0))
	case (q.From == nil) != (q.To == nil):
		return refused(http.StatusBadRequest, "a loop has a first and a last frame")
	case q.From != nil && (*q.From < 0 || *q.To < *q.From || *q.To >= frames):
		return refused(http.StatusBadRequest, fmt.Sprintf("frames %d to %d are no loop of a recording of %d frames", *q.From, *q.To, frames))
	}
	return nil
}

// accept is what was accepted, in words.
func accept(film string, frame0 *float64, from, to *int) Accepted {
	var words []string
	if frame0 != nil {
		words = append(words, "frame 0 is at "+strconv.FormatFloat(math.Round(*frame0*100)/100+0, 'f', -1, 64))
	}
	if from != nil {
		words = append(words, fmt.Sprintf("the loop is frames %d to %d", *from, *to))
	}
	return Accepted{Film: film, Frame0: frame0, From: from, To: to, Words: strings.Join(words, ", "), Takes: []int{}}
}
