package page

import (
	"errors"
	"net/http"
)

// conflict is the answer where the file has another text than the page knew.
type conflict struct {
	Error string `json:"error"`
	Disk
}

func (s *Server) save(q Disk) (any, error) {
	d, err := s.doc.save(q.Text, q.Revision)
	if errors.Is(err, errChanged) {
		err = refusal{http.StatusConflict, conflict{err.Error(), d}}
	}
	return map[string]string{"revision": d.Revision}, err
}
