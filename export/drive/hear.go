package drive

import (
	"strings"
	"time"
)

func (t *talker) heard(b []byte) {
	t.lines.now = t.now
	t.lines.add(b, t.reply)
}

// reply deals with one line from the controller.
func (t *talker) reply(line []byte) {
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

func (t *talker) noise(text string) {
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

func (t *talker) answered() {
	t.oks++
	if len(t.flight) == 0 {
		if t.relied() {
			t.fail(Unmatched, "an answer more than lines were sent (%d)", t.count)
		}
		return
	}
	s := t.pop()
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

func (t *talker) pop() sent {
	s := t.flight[0]
	t.flight = t.flight[:copy(t.flight, t.flight[1:])]
	t.bytes -= s.bytes
	t.said += int64(s.bytes)
	return s
}

func (t *talker) refused(text string) {
	switch {
	case len(t.flight) == 0 && !t.relied():
		t.oks++ // it does not like an empty line, and is there
		return
	case len(t.flight) == 0:
		t.fail(Refused, "%s, with no line sent", text)
		return
	}
	s := t.pop()
	t.fail(Refused, "%s on line %d, %q", text, s.number, s.text)
}

func (t *talker) reported(s status) {
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

func (t *talker) greets(text string) {
	t.greeted = true
	if t.relied() {
		t.fail(Restarted, "it greeted anew (%s): it was reset or lost power, and what it held is gone", shortened(text))
	}
}

func (t *talker) talks(text string) {
	if t.stranger == "" && !strings.HasPrefix(text, "[") {
		t.stranger = text
	}
	if t.ear != nil {
		t.ear(text)
	}
}
