package page

import (
	"context"
	"io"
	"net/http"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/job"
)

// untilGone is onDesk for what takes long: the context ends as soon as whoever asked has
// gone or given up, and with it the work.
func untilGone[Q, A any](s *Server, answer func(*desk, context.Context, Q) (A, error)) http.HandlerFunc {
	return s.desked(func(d *desk, w http.ResponseWriter, r *http.Request) {
		answersUntil(func(ctx context.Context, q Q) (A, error) { return answer(d, ctx, q) })(w, r)
	})
}

// answersUntil is answers for what takes long and is of no shot.
func answersUntil[Q, A any](answer func(context.Context, Q) (A, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		answers(func(q Q) (A, error) { return answer(r.Context(), q) })(w, r)
	}
}

// foretold plans a text with what its controller makes of it, until ctx ends.
func (s *desk) foretold(ctx context.Context, text string) (*job.Job, error) {
	p, err := s.plannedTo(ctx, text, whole)
	if err != nil {
		return nil, err
	}
	return p, p.Foretell(ctx)
}

// until is a writer that takes nothing any more once its context has ended: a file is
// given up where it writes next.
type until struct {
	ctx context.Context
	to  io.Writer
}

// Write passes on, or says that it was given up.
func (u until) Write(p []byte) (int, error) {
	if err := u.ctx.Err(); err != nil {
		return 0, err
	}
	return u.to.Write(p)
}

// filesUntil are files of which none is written any more once ctx has ended, and so none
// of the folder.
func filesUntil(ctx context.Context, files []atomicfile.File) []atomicfile.File {
	return listOf(files, func(f atomicfile.File) atomicfile.File {
		fill := f.Fill
		f.Fill = func(w io.Writer) error { return fill(until{ctx, w}) }
		return f
	})
}
