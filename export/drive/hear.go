package drive

import (
	"bytes"
	"strconv"
	"strings"
	"time"
)

func (t *lineController) heard(b []byte) {
	t.lines.now = t.now
	t.lines.add(b, t.reply)
}

// reply deals with one line from the controller.
func (t *lineController) reply(line []byte) {
	t.way.hears(len(line)+1, t.lines.since)
	r := parse(line, t.controller.Greeting)
	if r.kind == garbage {
		t.noise(r.text)
		return
	}
	if r.kind != blank {
		t.garbled = max(t.garbled-1, 0)
		t.unheard = time.Time{}
	}
	switch r.kind {
	case answer:
		t.answered()
	case refusal:
		t.refused(r.text)
	case alarm:
		t.alarmed = r.text
		if t.relied() {
			t.fail(Alarmed, "%s; it stopped by itself, and position is not to be trusted", r.text)
		}
	case report:
		t.reported(r.status)
	case greeting:
		t.greets(r.text)
	case talk:
		t.talks(r.text)
	}
}

// Noise adds up, and sensible replies make up for it: four lines of noise with
// hardly a sensible one between them are the wrong speed, or no controller. A
// click on a long cable now and then is not; whether it has cost an answer is
// noticed in another way.
const (
	noiseWeight = 8
	maxNoise    = 4 * noiseWeight
)

func (t *lineController) noise(text string) {
	t.garbled += noiseWeight
	if t.garbled >= maxNoise && !t.expected { // boot loaders may speak at another speed
		t.fail(Garbled, "lines that cannot be read, the last %q; is the speed of the wire right?", shortened(text))
	}
}

// shownText is how much of a strange line is shown.
const shownText = 40

func shortened(text string) string {
	if len(text) > shownText {
		return text[:shownText]
	}
	return text
}

func (t *lineController) answered() {
	t.oks++
	if len(t.flight) == 0 {
		if t.relied() {
			t.fail(Unmatched, "an answer more than lines were sent (%d)", t.count)
		}
		return
	}
	s := t.pop()
	if s.number == t.lamp.off {
		t.lamp.out = t.way.said().at
	}
	if s.quiet && t.way.count == s.after+1 {
		t.stood = t.way.said().at.Sub(s.across)
		if dwell(s.text) == 0 {
			t.way.answers.add(t.stood)
		}
	}
	if s.line != nil {
		t.stream.answered(t, s)
	}
}

func (t *lineController) pop() sent {
	s := t.flight[0]
	t.flight = t.flight[:copy(t.flight, t.flight[1:])]
	t.bytes -= s.bytes
	t.said += int64(s.bytes)
	return s
}

func (t *lineController) refused(text string) {
	switch {
	case len(t.flight) == 0 && !t.relied():
		t.oks++ // it does not like an empty line, and is there
		return
	case len(t.flight) == 0:
		t.fail(Refused, "%s, with no line sent", text)
		return
	}
	s := t.pop()
	if j := t.held; s.jog && j != nil {
		if !j.let && j.refused == "" {
			j.refused = text + " on " + strconv.Quote(s.text)
		}
		return
	}
	t.fail(Refused, "%s on line %d, %q", text, s.number, s.text)
}

func (t *lineController) reported(s status) {
	t.status, t.statusAt, t.before = s, t.now, t.now
	if len(t.asks) > 0 {
		a := t.asks[0]
		t.before = a.at
		t.asks = t.asks[:copy(t.asks, t.asks[1:])]
		t.reckon(a)
		if a.quiet && t.way.count == a.after+1 {
			t.way.reports.add(t.way.said().at.Sub(a.at) - t.way.bytes(1))
		}
	}
	if t.moving && t.engine.pass != nil {
		t.stream.reported(t)
	}
	if !s.is("Alarm") {
		t.alarmed = ""
		return
	}
	if !t.before.After(t.cleared) {
		return // it tells of the alarm before that
	}
	if t.alarmed == "" {
		t.alarmed = "it reports an alarm"
	}
	if (t.moving || t.known || t.homed != nil) && !t.expected { // a reset on the way ends in one, as asked
		t.fail(Alarmed, "it reports an alarm; position is not to be trusted")
	}
}

func (t *lineController) greets(text string) {
	t.greeted = true
	if t.relied() {
		t.fail(Restarted, "it greeted anew (%s): it was reset or lost power, and what it held is gone", shortened(text))
	}
}

func (t *lineController) talks(text string) {
	if t.stranger == "" && !strings.HasPrefix(text, "[") {
		t.stranger = text
	}
	if t.ear != nil {
		t.ear(text)
	}
}

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
