package page

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"strconv"
	"time"

	"seamrail/motion/base/plain"
)

const (
	// filmBytesPath takes the bytes of a file: it is the one question that is no JSON, and that
	// has as many of them as were announced.
	filmBytesPath = apiPath + "film/bytes"
	filmHeader    = "Seamrail-Film" // the take
	partHeader    = "Seamrail-Part" // which of its files, from 0
)

// takeBytes takes one file of a take, as it comes from the disk of who has dropped it.
func (s *Server) takeBytes(w http.ResponseWriter, r *http.Request) {
	of, leave, err := s.film.at(key(r.Header.Get(filmHeader)))
	if err != nil {
		fail(w, err)
		return
	}
	defer leave()
	part, err := strconv.Atoi(r.Header.Get(partHeader))
	if err == nil && (part < 0 || part >= len(of.files)) {
		err = strconv.ErrRange
	}
	if err != nil {
		refuse(w, http.StatusBadRequest, fmt.Sprintf("%s must be which of its %d files comes, from 0", partHeader, len(of.files)))
		return
	}
	from := flow{of.ctx, http.NewResponseController(w), r.Body}
	defer context.AfterFunc(of.ctx, from.end)() // the connection is there for other questions then
	if err := of.fill(part, from); err != nil {
		fail(w, err)
		return
	}
	heard(w)
	reply(w, http.StatusOK, done{OK: true})
}

// fill writes one file. What does not come whole is taken away again.
func (r *reel) fill(part int, from io.Reader) error {
	if err := r.begin(func() error {
		if part != r.come {
			return refused(http.StatusConflict, fmt.Sprintf("file %d of it is to come now, and not %d", r.come, part))
		}
		return nil
	}); err != nil {
		return err
	}
	defer r.rests()
	f, err := os.OpenFile(r.path(part), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return unable("write", "a temporary file", err)
	}
	want := r.files[part].Bytes
	n, err := io.Copy(f, io.LimitReader(from, want+1)) // one more tells that there is more
	if err = r.whole(plain.Line(r.files[part].File), n, want, errors.Join(err, f.Close())); err != nil {
		return errors.Join(err, os.Remove(r.path(part)))
	}
	r.mu.Lock()
	r.come++
	r.mu.Unlock()
	return nil
}

// whole says what is wrong with a file of which so many bytes have come.
func (r *reel) whole(name string, n, want int64, err error) error {
	switch {
	case r.ctx.Err() != nil:
		return refused(http.StatusGone, "another take was dropped in its place")
	case late(err):
		return refused(http.StatusRequestTimeout, name+" did not come to its end in time")
	case n > want:
		return refused(http.StatusRequestEntityTooLarge, fmt.Sprintf("%s has more than the %d bytes that it was to have: it is being written still; drop it again once it is done", name, want))
	case errors.Is(err, io.ErrUnexpectedEOF) || err == nil && n < want:
		return refused(http.StatusBadRequest, fmt.Sprintf("%s is cut off on its way: %d of %d bytes came", name, n, want))
	case err != nil:
		return unable("write", "a temporary file", err)
	}
	return nil
}

// flow is what comes over a connection, waited for no longer than usual.
type flow struct {
	ctx     context.Context
	control *http.ResponseController
	from    io.Reader
}

func (f flow) end() { _ = f.control.SetReadDeadline(time.Now()) }

// Read is that of io.Reader.
func (f flow) Read(p []byte) (int, error) {
	_ = f.control.SetReadDeadline(time.Now().Add(usual.body))
	if err := f.ctx.Err(); err != nil { // after it, or its end could be missed between both
		return 0, err
	}
	return f.from.Read(p)
}
