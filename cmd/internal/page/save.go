package page

import (
	"errors"
	"net/http"
)

// conflict is the answer where the file has another text than the page knew.
type conflict struct {
	Error    string `json:"error"`
	Text     string `json:"text"`
	Revision string `json:"revision"`
}

func (s *Server) save(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Text     string `json:"text"`
		Revision string `json:"revision"`
	}
	if !ask(w, r, &q) {
		return
	}
	d, err := s.doc.save(q.Text, q.Revision)
	switch {
	case errors.Is(err, errChanged):
		reply(w, http.StatusConflict, conflict{err.Error(), d.Text, d.Revision})
	case err != nil:
		fail(w, err)
	default:
		reply(w, http.StatusOK, map[string]string{"revision": d.Revision})
	}
}
