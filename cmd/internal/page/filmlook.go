package page

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"time"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/film/decoder"
	"seamrail/cmd/internal/rushes"
	"seamrail/motion/base/plain"
)

// FilmNews is one line of a stream: how far a take is looked through, and at the end that it was,
// or why it was not.
type FilmNews struct {
	Frame  int64  `json:"frame"` // how many were looked at
	Of     int64  `json:"of"`    // 0 where nobody knows
	Looked bool   `json:"looked,omitempty"`
	Error  string `json:"error,omitempty"`
}

// filmNewsEvery is how often is told how far a take is: as often as eyes follow a bar.
const filmNewsEvery = 100 * time.Millisecond

// far is how far a take is looked through.
type far struct{ frame, of atomic.Int64 }

func (f *far) news() FilmNews { return FilmNews{Frame: f.frame.Load(), Of: f.of.Load()} }

// lookFilm looks a take through and tells how far it is, until whoever asked has gone or given up:
// then the decoder ends as well.
func (s *Server) lookFilm(w http.ResponseWriter, r *http.Request) {
	var q filmQuestion
	if !ask(w, r, &q) {
		return
	}
	of, leave, err := s.film.at(q.Film)
	if err != nil {
		fail(w, err)
		return
	}
	defer leave()
	ctx, stop := context.WithCancelCause(r.Context())
	defer stop(nil)
	defer context.AfterFunc(of.ctx, func() { stop(errors.New("another take was dropped in its place")) })()
	if err := of.begin(func() error { return of.ready(stop) }); err != nil {
		fail(w, err)
		return
	}
	defer of.rests()
	if s.driving.held() { // after it can be given up, or a rig that is held now would be missed
		fail(w, refused(http.StatusLocked, busyRig))
		return
	}
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	s.tellLooking(ctx, stop, w, of)
}

// ready says why a take cannot be looked through, and else how that is given up.
func (r *reel) ready(stop func(error)) error {
	switch {
	case r.looked != nil:
		return refused(http.StatusConflict, "that take was looked through already")
	case r.come < len(r.files):
		return refused(http.StatusConflict, "that take has not come whole")
	}
	r.stop = stop
	return nil
}

func (s *Server) tellLooking(ctx context.Context, stop func(error), w http.ResponseWriter, of *reel) {
	var at far
	ended := make(chan error, 1)
	deadman.Go(func() { ended <- of.look(ctx, s.decoder, &at) })
	to, flush := plain.Encoder(w), http.NewResponseController(w).Flush
	tick := time.NewTicker(filmNewsEvery)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			if errors.Join(to.Encode(at.news()), flush()) != nil {
				stop(nil) // nobody hears any more
				<-ended
				return
			}
		case err := <-ended:
			news := at.news()
			if news.Looked = err == nil; err != nil {
				news.Error = of.words(err)
			}
			if why := context.Cause(ctx); why != nil && !errors.Is(why, context.Canceled) {
				news.Error = why.Error()
			}
			_ = errors.Join(to.Encode(news), flush()) // who has gone need not hear
			return
		}
	}
}

// look looks a take through, keeps what was seen and takes its files away: nobody needs them any
// more. One that is given up stays, and can be looked through again. What a film has that brings
// the looking down does not bring down the page, which may have work that is not saved; no rig is
// held meanwhile.
func (r *reel) look(ctx context.Context, find decoder.Lookup, at *far) (err error) {
	defer func() {
		if what := recover(); what != nil {
			err = fmt.Errorf("%s cannot be looked through: %v", r.name, what)
		}
	}()
	pictures, err := newStrip(filepath.Join(r.dir, "pictures")) // which no still is called
	if err != nil {
		return unable("write", "a temporary file", err)
	}
	what := r.dir
	if len(r.files) == 1 {
		what = r.path(0)
	}
	take, err := rushes.Look(ctx, what, rushes.Options{
		Film: film.Options{Decoder: find}, Show: pictures.add,
		Tell: func(done, of int) { at.frame.Store(int64(done)); at.of.Store(int64(of)) },
	})
	if err != nil {
		pictures.close()
		return err
	}
	for part := range r.files {
		_ = os.Remove(r.path(part)) // what stays goes with the folder
	}
	r.named(take)
	r.mu.Lock()
	r.looked, r.strip = take, pictures
	r.mu.Unlock()
	return nil
}

// named has a take called as it was dropped, and not as the temporary file.
func (r *reel) named(take *rushes.Take) {
	take.Course.About.Name = r.name
	for i := range take.Remarks {
		take.Remarks[i].Text = r.plainly(take.Remarks[i].Text)
	}
	if take.Cut != nil {
		take.Cut = errors.New(r.words(take.Cut))
	}
}

// words is what an error says, of the take as it was dropped.
func (r *reel) words(err error) string {
	var none *film.NoDecoder
	if errors.As(err, &none) {
		none.File = r.name // of which a command is told as well
	}
	return r.plainly(err.Error())
}

func (r *reel) plainly(text string) string {
	if len(r.files) == 1 {
		return strings.ReplaceAll(text, r.path(0), r.name)
	}
	return strings.ReplaceAll(strings.ReplaceAll(text, r.dir+string(filepath.Separator), ""), r.dir, r.name)
}
