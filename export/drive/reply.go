package drive

import (
	"bytes"
	"strings"
	"time"
)

// replyKind says what a line from the controller is.
type replyKind int

const (
	blank   replyKind = iota
	answer            // ok
	refusal           // error:N
	alarm             // ALARM:N
	report            // <...>
	greeting
	talk    // anything else that can be read
	garbage // what cannot
)

// reply is one line from the controller.
type reply struct {
	kind   replyKind
	text   string
	status status
}

// longestReply is how many bytes a line from a controller may have. Reports
// have up to a hundred, settings with their explanations some more.
const longestReply = 256

// lines cuts bytes from the wire into lines. The zero value is ready to use.
type lines struct {
	held     []byte
	overlong bool
	now      time.Time // what is added now comes now
	since    time.Time // when the first byte of the line in hand came
}

// add calls each with every line that is now whole, without its end. A line
// that is too long comes cut, with a byte that cannot be read, so that it is
// taken for garbage.
func (l *lines) add(data []byte, each func(line []byte)) {
	for _, b := range data {
		switch {
		case b == '\n' || b == '\r':
			if l.overlong {
				l.held = append(l.held, 0)
			}
			if len(l.held) > 0 {
				each(l.held)
			}
			l.held, l.overlong = l.held[:0], false
		case len(l.held) < longestReply:
			if len(l.held) == 0 {
				l.since = l.now
			}
			l.held = append(l.held, b)
		default:
			l.overlong = true
		}
	}
}

// parse reads one line. greets is how the controller's greeting begins, or
// empty when it has none.
func parse(line []byte, greets string) reply {
	text := string(bytes.TrimSpace(line))
	r := reply{text: text}
	lower := strings.ToLower(text)
	switch {
	case text == "":
		r.kind = blank
	case !readable(text):
		r.kind = garbage
	case greets != "" && strings.HasPrefix(text, greets):
		r.kind = greeting
	case lower == "ok" || strings.HasPrefix(lower, "ok "):
		r.kind = answer
	case strings.HasPrefix(lower, "error"):
		r.kind = refusal
	case strings.HasPrefix(lower, "alarm"):
		r.kind = alarm
	case text[0] == '<':
		var ok bool
		if r.status, ok = parseStatus(text); ok {
			r.kind = report
		} else {
			r.kind = garbage
		}
	default:
		r.kind = talk
	}
	return r
}

// readable tells whether text is printable ASCII.
func readable(text string) bool {
	for i := range len(text) {
		if c := text[i]; (c < ' ' && c != '\t') || c > '~' {
			return false
		}
	}
	return true
}
