// Package takelog keeps what happened on a rig, pass after pass, as JSON lines
// (RFC 8259 objects, one a line): each written and synced as it happens, so
// that a log cut anywhere reads back up to the cut and says which pass it hit.
package takelog

import (
	"encoding/json"
	"fmt"
	"io"
	"time"

	"seamrail/motion/base/plain"
)

// File is where a log is kept: what it is given stays once Sync returns.
type File interface {
	io.Writer
	Sync() error
}

// Writer appends records to a log.
type Writer struct {
	file File
	torn bool // the last line has no end
	err  error
}

// NewWriter returns a writer to file, which stands at the end of a log that
// held so far: the bytes of its last line are enough. A line that a kill has
// cut is closed first, so that no record is ever glued to half of another.
func NewWriter(file File, soFar []byte) *Writer {
	n := len(soFar)
	return &Writer{file: file, torn: n > 0 && soFar[n-1] != '\n'}
}

// Add writes one record, in one write, and syncs it. After an error nothing more
// is written: every later call returns the same error.
func (w *Writer) Add(r Record) error {
	if w.err == nil {
		w.err = w.add(r)
	}
	return w.err
}

func (w *Writer) add(r Record) error {
	line, err := json.Marshal(r)
	if err != nil {
		return fmt.Errorf("take log: %w", err)
	}
	line = plain.JSON(line)
	if w.torn {
		line = append([]byte{'\n'}, line...)
	}
	w.torn = false
	if _, err := w.file.Write(append(line, '\n')); err != nil {
		return fmt.Errorf("writing the take log: %w", err)
	}
	if err := w.file.Sync(); err != nil {
		return fmt.Errorf("syncing the take log: %w", err)
	}
	return nil
}

// Kind says what a record is about.
type Kind string

// The kinds of record.
const (
	Begun   Kind = "begin"   // a pass is about to move the rig
	Ended   Kind = "end"     // it has ended
	Lost    Kind = "lost"    // something went wrong outside a pass: position unknown
	Settled Kind = "settled" // homed, or confirmed by hand: position known
	Keeper  Kind = "keeper"  // the take is one to keep, or no longer
	Noted   Kind = "note"    // a note on a take
	Exposed Kind = "frame"   // a frame of a take frame by frame has been exposed
	Timed   Kind = "timed"   // how late a hand was seen to be in a take
	Clipped Kind = "clip"    // what the camera calls the recording of a take
	Refused Kind = "reject"  // the take is of no use, and why
	Synced  Kind = "sync"    // when a sync mark of a take was made
	Sighted Kind = "sighted" // in which frames of its recording they were seen
	Filmed  Kind = "film"    // the take is one to keep, and this file is what was filmed of it

	Walked    Kind = "walk"     // the plan is about to be walked through: no take, and not numbered
	WalkEnded Kind = "walk-end" // that has ended
)

// Record is one line of the log. What does not apply is left out.
type Record struct {
	Kind Kind      `json:"record"`
	Time time.Time `json:"time"`
	Take int       `json:"take,omitempty"`
	// Virtual is true of all that a rig made of software did: nothing was filmed, and
	// no rig of metal stands anywhere for it. Its takes have numbers of their own.
	Virtual bool `json:"virtual,omitempty"`

	// Of a pass begun.
	Shot    string  `json:"shot,omitempty"`
	Plan    string  `json:"plan,omitempty"` // hash of the plan
	Rig     string  `json:"rig,omitempty"`
	ByHand  bool    `json:"by_hand,omitempty"` // this program did not drive it: it was logged once it was over
	Rounds  int64   `json:"rounds,omitempty"`  // asked for, or run; 0 asked for = until stopped
	Planned float64 `json:"planned_s,omitempty"`
	// Shift is how much earlier than its cue says each hand was told, in s, for
	// what it usually is late.
	Shift map[string]float64 `json:"cue_shift_s,omitempty"`
	// Driver is who drove, Group the group of takes that must match, and Pass what of
	// it this take is, as "clean plate".
	Driver string `json:"driver,omitempty"`
	Group  string `json:"group,omitempty"`
	Pass   string `json:"pass,omitempty"`
	Start  *Start `json:"start,omitempty"` // of a pass of a group

	// Of a take frame by frame: how many of its frames were exposed before it begins,
	// so far, and as it ended; and as it begins, how many the whole take has.
	Frames int64 `json:"frames,omitempty"`
	Of     int64 `json:"of_frames,omitempty"`

	// Of a pass ended.
	Executed    float64 `json:"executed_s,omitempty"`             // as measured; none when it was cut short
	Uncertainty float64 `json:"executed_uncertainty_s,omitempty"` // how far Executed may be out either way; logs before it have none
	Foretold    float64 `json:"foretold_s,omitempty"`             // what the controller was expected to make of it
	Worst       []Worst `json:"worst,omitempty"`
	Held        bool    `json:"held,omitempty"` // stopped and resumed: out of step with the frames
	Outcome     string  `json:"outcome,omitempty"`
	Detail      string  `json:"detail,omitempty"`
	Known       bool    `json:"position_known,omitempty"`

	Keep bool   `json:"keep,omitempty"`
	Note string `json:"note,omitempty"`
	Clip string `json:"clip,omitempty"` // file name, or card and clip number; "" takes it back
	Why  string `json:"why,omitempty"`  // a take is of no use

	// Of a sync mark that was made: by what, when, and how far that may be out either way, in
	// s from frame 0 of the take.
	Mark    string  `json:"mark,omitempty"`
	Second  bool    `json:"second,omitempty"` // it is the one after the take
	MarkAt  float64 `json:"mark_s,omitempty"`
	MarkOut float64 `json:"mark_uncertainty_s,omitempty"`

	// Of marks that were seen in the recording: the first frame of each, counted from 0.
	SawFirst int64 `json:"seen_frame,omitempty"`
	SawLast  int64 `json:"seen_last_frame,omitempty"` // of the mark after the take; 0 = not seen

	// Of a take whose film was looked through, and is kept.
	Film *Film `json:"film,omitempty"`

	// Of a hand that was timed.
	Hand string  `json:"hand,omitempty"`   // "" where there is only one
	Late float64 `json:"late_s,omitempty"` // below 0 it was early
}

// Worst is the worst deviation from the plan that reports of one axis show.
type Worst struct {
	Axis  string  `json:"axis"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"` // "mm" or "deg"
}

// Start is how a pass of a group began: what its plan is made of, and from where.
type Start struct {
	Capture string       `json:"capture"` // frames/s, exactly
	Frames  int64        `json:"frames"`  // captured in a round
	RunUp   float64      `json:"run_up_s"`
	Axes    []StartPlace `json:"axes"`
}

// The sides that an axis comes to its start from.
const (
	FromBelow = "below"
	FromAbove = "above"
)

// StartPlace is where an axis began, in mm or degrees.
type StartPlace struct {
	Axis    string   `json:"axis"`
	Unit    string   `json:"unit"` // "mm" or "deg"
	Planned float64  `json:"planned"`
	Stood   *float64 `json:"stood"` // as the controller reported; null where it reports nothing
	From    string   `json:"from"`  // the side that it came from; "" = it rests in the take, and may have come from either
	Low     float64  `json:"low"`   // the ends of its way in a round
	High    float64  `json:"high"`
}
