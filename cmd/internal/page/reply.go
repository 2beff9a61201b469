// Package page serves the page on which a loop is designed by hand and eye: the
// assets of the page and the questions it asks. All planning is that of package job;
// the script in the browser draws and asks.
//
// It listens on this machine only. Every question carries a key that is made
// anew each time and that only the page opened by this program knows; see guard.
package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
)

// Fault is one thing that is wrong, for the page.
type Fault struct {
	File   string `json:"file,omitempty"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Axis   string `json:"axis"`
	Text   string `json:"text"`
	Fit    string `json:"fit"`
	Mends  []Mend `json:"mends,omitempty"` // what would do and the file can have
}

// problem is the answer to a question that cannot be answered.
type problem struct {
	Error  string  `json:"error"`
	Faults []Fault `json:"faults"`
}

// faultsOf returns what an error says, fault by fault where it knows them.
func faultsOf(err error) []Fault {
	var list fault.List
	if !errors.As(err, &list) {
		return []Fault{{Text: err.Error()}}
	}
	return listOf(list.Sorted(), func(f fault.Fault) Fault {
		return Fault{f.File, f.Line, f.Column, f.Axis, words(f.Quantity, f.Value, f.Bound, f.Where), f.Fit, nil}
	})
}

// words are the parts that there are, with blanks between.
func words(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(p string) bool { return p == "" }), " ")
}

// listOf is a list made of another, one for one; empty, it is written as a list too.
func listOf[T, U any](list []T, of func(T) U) []U {
	out := make([]U, len(list))
	for i, x := range list {
		out[i] = of(x)
	}
	return out
}

// refuse answers with a status and why.
func refuse(w http.ResponseWriter, status int, why string) {
	reply(w, status, problem{Error: why, Faults: []Fault{}})
}

// fail answers with an error of the person's making, or as that says itself.
func fail(w http.ResponseWriter, err error) {
	var no refusal
	if errors.As(err, &no) {
		reply(w, no.status, no.answer)
		return
	}
	reply(w, http.StatusUnprocessableEntity, problem{err.Error(), faultsOf(err)})
}

// reply writes v as JSON. A page that is gone does not hear it.
func reply(w http.ResponseWriter, status int, v any) {
	data, err := json.Marshal(v)
	if err != nil {
		status, data = http.StatusInternalServerError, []byte(`{"error":"the answer cannot be written","faults":[]}`)
	}
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(plain.JSON(data))
}

// What several questions are answered with.
type (
	done struct {
		OK   bool `json:"ok"`             // it was passed on
		Anew bool `json:"anew,omitempty"` // it is planned anew, and to be asked again
	}
	claimed struct {
		Claim key `json:"claim"`
	}
	fileAnswer struct {
		File string `json:"file"`
	}
	textAnswer struct {
		Text string `json:"text"`
	}
)

// refusal is an answer that is an error of its own: a status and what is said with it.
type refusal struct {
	status int
	answer any
}

// Error is for whoever passes it on.
func (r refusal) Error() string { return http.StatusText(r.status) }

func refused(status int, why string) error {
	return refusal{status, problem{Error: why, Faults: []Fault{}}}
}

// answers reads a question and replies with what is answered to it.
func answers[Q, A any](answer func(Q) (A, error)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		var q Q
		if !ask(w, r, &q) {
			return
		}
		if v, err := answer(q); err != nil {
			fail(w, err)
		} else {
			reply(w, http.StatusOK, v)
		}
	}
}

// ask reads a question into v, and answers by itself where it cannot.
func ask(w http.ResponseWriter, r *http.Request, v any) bool {
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(v)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			err = errors.New("there is more than one question")
		}
	}
	var long *http.MaxBytesError
	switch {
	case late(err):
		refuse(w, http.StatusRequestTimeout, "the question did not come to its end in time")
	case errors.As(err, &long):
		refuse(w, http.StatusRequestEntityTooLarge, fmt.Sprintf("a question may have %d bytes", long.Limit))
	case err != nil:
		refuse(w, http.StatusBadRequest, "this is no question of the page: "+err.Error())
	default:
		heard(w)
		if err = bounded(v); err != nil {
			refuse(w, http.StatusBadRequest, err.Error())
		}
	}
	return err == nil
}
