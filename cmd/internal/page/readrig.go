package page

import (
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"os"
	"strings"

	"seamrail/cmd/internal/acquaint"
	"seamrail/export/report"
	"seamrail/export/report/connectreport"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

// rigQuestion asks what is at a port.
type rigQuestion struct {
	Port  string            `json:"port"` // "virtual" for a rig made of software
	Text  string            `json:"text"` // of the shot at hand, whose rig that is
	Flags map[string]string `json:"flags"`
}

// rigAnswer is what is there.
type rigAnswer struct {
	Said   []string `json:"said"`   // what was done, as it was done
	Report string   `json:"report"` // as the connect command tells it
	Text   string   `json:"text"`   // the rig file that is made of it
}

// readRig asks a board what it is, as the connect command does. Nothing moves, and
// nothing is written. Nobody drives meanwhile.
func (s *desk) readRig(q rigQuestion) (*rigAnswer, error) {
	of, err := connectAsked(q.Flags)
	if err != nil {
		return nil, err
	}
	of.Virtual = q.Port == virtualPort
	of.Port = q.Port
	if of.Port == "" {
		return nil, refused(http.StatusBadRequest, "a rig is read at a port")
	}
	if of.Virtual {
		if of.Like, err = s.doc.rigAtHand(q.Text); err != nil {
			return nil, err
		}
	}
	release, err := s.driving.take()
	if err != nil {
		return nil, err
	}
	defer release()
	answer := &rigAnswer{Said: []string{}}
	b, err := acquaint.Meet(of, func(words string) { answer.Said = append(answer.Said, words) })
	if err != nil {
		return nil, err
	}
	text := rigfile.File(b)
	var told strings.Builder
	if err := report.TextWithin(&told, connectreport.Data{Board: b, Lines: rig.Marked("", text)}.Report(), false, report.Narrowest); err != nil {
		return nil, err
	}
	answer.Report, answer.Text = told.String(), string(text)
	return answer, nil
}

// rigAtHand is the rig of a text, whatever else is wrong with that; nil where it names none.
func (d *document) rigAtHand(text string) (*rig.Rig, error) {
	s, faults := d.files().Understand(d.name, []byte(text), nil)
	if s.Rig == nil {
		faults = nil // none of the rig's
	}
	r, wrong, err := d.rigOf(&s)
	if err = errors.Join(append(faults, wrong...).Err(), err); err != nil || len(r.Axes) == 0 {
		return nil, err
	}
	return &r, nil
}

// take keeps everybody else from driving until it is released.
func (d *driving) take() (release func(), err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.claim != "" {
		return nil, refused(http.StatusLocked, "a page drives the rig, or reads it, and has not let go of it yet")
	}
	d.claim = newKey()
	return func() {
		d.mu.Lock()
		defer d.mu.Unlock()
		d.claim = ""
	}, nil
}

// newRigQuestion asks for a rig file in the folder of the shot.
type newRigQuestion struct {
	File string `json:"file"`
	Text string `json:"text"`
}

// newRig writes a rig file that is not there yet, if it is understood as one.
func (s *desk) newRig(q newRigQuestion) (*fileAnswer, error) {
	if !strings.HasSuffix(q.File, ".toml") {
		return nil, refused(http.StatusBadRequest, "a rig file has a name that ends in .toml")
	}
	if _, _, err := rig.Decode(q.File, []byte(q.Text)); err != nil {
		return nil, err
	}
	if err := s.doc.begin(q.File, []byte(q.Text)); err != nil {
		return nil, err
	}
	return &fileAnswer{q.File}, nil
}

// begin puts data at a name that nothing has. What is there stays.
func (f folder) begin(name string, data []byte) error {
	local, err := inside(name)
	if err != nil {
		return err
	}
	if why := unfit(local); why != "" {
		return errors.New(why)
	}
	// The name is taken first, so that nobody else's file comes to be in its place.
	taken, err := f.root.OpenFile(local, os.O_WRONLY|os.O_CREATE|os.O_EXCL, newMode)
	switch {
	case errors.Is(err, fs.ErrExist):
		return refused(http.StatusConflict, fmt.Sprintf("%s is already there, and stays as it is; take another name", name))
	case err != nil:
		return unable("write", name, err)
	}
	if err = errors.Join(taken.Close(), f.write(name, data)); err != nil {
		_ = f.root.Remove(local)
	}
	return err
}
