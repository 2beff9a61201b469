package wirelog

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"seamrail/export/drive"
)

// What says what a row is of. The letter stands in the file.
type What byte

// What rows are of.
const (
	Sent   What = '>' // bytes that the wire took
	Full   What = '-' // it took none
	Heard  What = '<' // bytes that came
	Woke   What = '.' // the time that was waited for had come
	Asked  What = '?' // the operator asked for something
	Slept  What = 'z' // this computer slept
	Gone   What = '!' // the wire was gone
	Ending What = '=' // the record ends, and why where that is not the end of the run
)

// Row is one thing that happened.
type Row struct {
	Line    int           // of the file, once it has been read
	At      time.Duration // since the wire was opened, whole microseconds
	What    What
	Bytes   []byte        // Sent, Heard; in words of Gone and Ending
	Request drive.Request // Asked
	Slept   time.Duration
}

// requests are the names of requests. One without a name is written by its number.
var requests = []string{
	drive.Stop: "stop", drive.Finish: "finish", drive.Resume: "resume", drive.Restart: "restart", drive.Go: "go", drive.Confirm: "confirm",
	drive.Decline: "decline", drive.Home: "home", drive.Here: "here", drive.Unlock: "unlock", drive.Jog: "jog", drive.JogHold: "jog-hold", drive.JogRelease: "jog-release", drive.Pose: "pose", drive.WalkThrough: "walk-through", drive.Mark: "mark", drive.Taken: "taken", drive.Quit: "quit",
}

// requested is a request in a word, and as JSON what it has besides.
func requested(r drive.Request) string {
	name := "#" + strconv.Itoa(int(r.Kind))
	if int(r.Kind) < len(requests) && requests[r.Kind] != "" {
		name = requests[r.Kind]
	}
	r.Kind, r.Walk = 0, nil // a walk is a plan of its own, which no record holds
	if r == (drive.Request{}) {
		return name
	}
	more, err := json.Marshal(r)
	if err != nil { // a number that is none
		return name
	}
	return name + " " + string(more)
}

// request reads what requested wrote.
func request(text string) (r drive.Request, err error) {
	name, more, _ := strings.Cut(text, " ")
	if more != "" {
		if err := json.Unmarshal([]byte(more), &r); err != nil {
			return r, fmt.Errorf("what is asked for besides %s cannot be read: %w", name, err)
		}
	}
	kind := slices.Index(requests, name)
	if number, ok := strings.CutPrefix(name, "#"); ok {
		if kind, err = strconv.Atoi(number); err != nil || kind < 0 {
			return r, fmt.Errorf("%q is no number of a request", name)
		}
	}
	if kind < 0 || name == "" {
		return r, fmt.Errorf("there is no request %q", name)
	}
	r.Kind = drive.RequestKind(kind)
	return r, nil
}

// text is a row as a line of the file.
func (r Row) text() string {
	said := ""
	switch r.What {
	case Asked:
		said = escaped([]byte(requested(r.Request)))
	case Slept:
		said = strconv.FormatInt(r.Slept.Microseconds(), 10)
	default:
		said = escaped(r.Bytes)
	}
	line := strconv.FormatInt(r.At.Microseconds(), 10) + " " + string(r.What)
	if said != "" {
		line += " " + said
	}
	return line + "\n"
}

// maxMicroseconds is what a time may be at most: more than a year, and far below what a
// Duration holds.
const maxMicroseconds = 1e14

// rowOf reads a line of the file.
func rowOf(line string) (Row, error) {
	at, rest, _ := strings.Cut(line, " ")
	us, err := strconv.ParseInt(at, 10, 64)
	if err != nil || us < 0 || us > maxMicroseconds {
		return Row{}, fmt.Errorf("a row begins with its time in whole microseconds, and not with %q", at)
	}
	r := Row{At: time.Duration(us) * time.Microsecond}
	what, said, _ := strings.Cut(rest, " ")
	if len(what) != 1 {
		return r, errors.New("after its time a row has one of > - < . ? z ! =")
	}
	r.What = What(what[0])
	bytes, err := unescaped(said)
	if err != nil {
		return r, err
	}
	switch r.What {
	case Sent, Heard:
		if len(bytes) == 0 {
			return r, errors.New("no bytes went over the wire in this row")
		}
		r.Bytes = bytes
	case Gone, Ending:
		r.Bytes = bytes
	case Asked:
		r.Request, err = request(string(bytes))
	case Slept:
		us, err = strconv.ParseInt(said, 10, 64)
		if r.Slept = time.Duration(us) * time.Microsecond; err != nil || us < 0 || us > maxMicroseconds {
			err = fmt.Errorf("%q is no time in whole microseconds that the computer slept", said)
		}
	case Full, Woke:
		if said != "" {
			err = fmt.Errorf("nothing follows %s", what)
		}
	default:
		err = fmt.Errorf("%q is none of > - < . ? z ! =", what)
	}
	return r, err
}
