package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
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
	out := make([]Fault, 0, len(list))
	for _, f := range list.Sorted() {
		text := strings.Join(words(f.Quantity, f.Value, f.Bound, f.Where), " ")
		out = append(out, Fault{f.File, f.Line, f.Column, f.Axis, text, f.Fit})
	}
	return out
}

func words(parts ...string) []string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return out
}

// refuse answers with a status and why.
func refuse(w http.ResponseWriter, status int, why string) {
	reply(w, status, problem{Error: why, Faults: []Fault{}})
}

// fail answers with an error of the person's making.
func fail(w http.ResponseWriter, err error) {
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
	case errors.As(err, &long):
		refuse(w, http.StatusRequestEntityTooLarge, fmt.Sprintf("a question may have %d bytes", maxBody))
	case err != nil:
		refuse(w, http.StatusBadRequest, "this is no question of the page: "+err.Error())
	}
	return err == nil
}
